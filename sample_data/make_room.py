"""The galley itself: two dryers, four places and how warm they were, one own food with its figures."""

from __future__ import annotations

from typing import Any

SHELF_DRYER, BOX_DRYER = 1, 2
PANTRY, CELLAR, FREEZER, PACK = 1, 2, 3, 4

_MONTHS = [f"{year}-{month:02d}-01" for year in (2025, 2026) for month in range(1, 13)][4:23]
"""May 2025 to November 2026."""
_PANTRY_F = [68, 73, 77, 76, 71, 67, 65, 64, 64, 64, 65, 66, 69, 74, 78, 77, 71, 67, 65]
_CELLAR_F = [55, 58, 60, 61, 60, 57, 54, 52, 51, 51, 52, 53, 55, 58, 61, 61, 60, 57, 54]
_PANTRY_RH = [48, 55, 58, 57, 54, 47, 38, 33, 31, 31, 35, 42, 49, 55, 60, 58, 53, 46, 38]
_CELLAR_RH = [62, 66, 70, 71, 69, 66, 60, 57, 55, 55, 57, 59, 62, 66, 71, 71, 69, 65, 60]


def room() -> dict[str, list[dict[str, Any]]]:
    """Dryers, places, temperatures, own foods and figures, preferences."""
    temperatures: list[dict[str, Any]] = []
    for row, month in enumerate(_MONTHS):
        since = f"{month}T08:00-05:00"
        for place, warmth, damp in ((PANTRY, _PANTRY_F, _PANTRY_RH), (CELLAR, _CELLAR_F, _CELLAR_RH)):
            temperatures.append(
                {"place": place, "since": since, "temperature": f"{warmth[row]} F", "humidity_pct": damp[row]}
            )
    temperatures += [
        {"place": FREEZER, "since": "2025-05-01T08:00-05:00", "temperature": "0 F"},
        {"place": PACK, "since": "2026-08-22T06:00-05:00", "temperature": "79 F"},
    ]
    return {
        "preference": [{"key": "units", "value": "us"}],
        "dryer": [
            {
                "name": "shelf dryer",
                "trays": 6,
                "tray_area": "0.95 sq ft",
                "watts": 500,
                "temperature_low": "95 F",
                "temperature_high": "160 F",
                "retired": "no",
            },
            {
                "name": "box dryer",
                "trays": 10,
                "tray_area": "1.5 sq ft",
                "watts": 1000,
                "temperature_low": "85 F",
                "temperature_high": "165 F",
                "retired": "no",
            },
        ],
        "place": [{"name": name} for name in ("pantry", "cellar", "chest freezer", "trail pack")],
        "place_temperature": temperatures,
        "own_food": [
            {
                "slug": "galley-bean-chili",
                "name": "bean chili, whole pot",
                "category": "mixed",
                "other_names": "galley chili",
                "like": "chili-bean",
                "contains": "plant;meat",
            },
            {
                "slug": "galley-squash-lentil",
                "name": "squash and lentil stew, whole pot",
                "category": "mixed",
                "other_names": "galley stew",
                "like": "vegetable-stew",
                "contains": "plant",
            },
        ],
        "own_figure": [
            {
                "food": "red-pepper",
                "name": "water",
                "value": 91.4,
                "unit": "%",
                "typed": "91.4",
                "note": "eight strips dried to no further loss in the oven, August 2026",
            },
        ],
    }
