"""What became of the batches: jars and bags, where they stood, what was taken, what was found."""

from __future__ import annotations

from datetime import date, datetime, timedelta
from random import Random
from typing import Any

from make_batches import POT_SERVINGS, pounds
from make_habits import HABIT
from make_meals import BARLEY, CHILI, COUSCOUS, OATS, SQUASH, TURKEY
from make_room import CELLAR, FREEZER, PACK, PANTRY

from dryhouse.science.quantities import parse_mass

_USED_IN = {
    "butternut-squash": SQUASH,
    "lentil": SQUASH,
    "carrot": SQUASH,
    "mushroom": BARLEY,
    "barley": BARLEY,
    "celery": BARLEY,
    "ground-turkey": TURKEY,
    "rice-wild": TURKEY,
    "green-pea": TURKEY,
    "kidney-bean": CHILI,
    "tomato": CHILI,
    "onion": CHILI,
    "ground-beef": CHILI,
    "red-pepper": COUSCOUS,
    "zucchini": COUSCOUS,
    "apple": OATS,
    "blueberry": OATS,
}
_PACKAGES = ("jar",) * 7 + ("bag",) * 2 + ("jar with absorber",)
_DEPARTURE = date(2026, 8, 22)
_TODAY = date(2026, 11, 24)


def shelf(chance: Random, made: dict[str, list[dict[str, Any]]]) -> dict[str, list[dict[str, Any]]]:
    """The tables lot, lot_move, lot_draw and lot_check."""
    lines: dict[str, list[dict[str, Any]]] = {"lot": [], "lot_move": [], "lot_draw": [], "lot_check": []}
    for number, batch in enumerate(made["batch"], 1):
        if batch["state"] == "finished" and batch.get("dried_mass") and chance.random() < 0.75:
            _pack(chance, lines, number, batch)
    _bought(lines)
    _found(lines)
    _pot_by_servings(lines, made["batch"])
    return lines


def _kind(food: str) -> str:
    return HABIT[food].category


def _pack(chance: Random, lines: dict[str, list[dict[str, Any]]], number: int, batch: dict[str, Any]) -> None:
    dried = parse_mass(batch["dried_mass"]).si
    ended = datetime.fromisoformat(batch["ended"])
    fruit, meat = _kind(batch["food"]) == "fruit", _kind(batch["food"]) in ("meat", "poultry")
    jars = 2 if dried > 400 else 1
    for jar in range(jars):
        lot = _lot(chance, number, batch, ended, dried / jars * chance.uniform(0.93, 1.0), fruit, meat)
        if jars > 1:
            lot["name"] = f"jar {jar + 1} of {jars}"
        lines["lot"].append(lot)
        _follow(chance, lines, len(lines["lot"]), lot, meat)


def _lot(
    chance: Random, number: int, batch: dict[str, Any], ended: datetime, grams: float, fruit: bool, meat: bool
) -> dict[str, Any]:
    packed = ended.date() + timedelta(days=chance.choice((0, 0, 1)))
    lot: dict[str, Any] = {
        "food": batch["food"],
        "batch": number,
        "origin": "home",
        "package": "vacuum bag" if meat else chance.choice(_PACKAGES),
        "sealed": "yes",
        "mass": pounds(grams)[0],
    }
    if fruit and chance.random() < 0.85:
        lot["conditioned_from"] = packed
        packed += timedelta(days=chance.choice((7, 10, 10, 10, 11, 12, 12)))
        lot["conditioned_to"] = packed
        if chance.random() < 0.4:
            lot["pasteurised"] = "freezer at 0 F for 48 hours"
    lot["packed_on"] = packed
    if _kind(lot["food"]) == "herb" or "garlic" in lot["food"]:
        lot["in_oil"] = "no"
    return lot


def _at(day: date, hour: int = 19) -> str:
    return f"{day.isoformat()}T{hour:02d}:00-05:00"


def _follow(
    chance: Random, lines: dict[str, list[dict[str, Any]]], number: int, lot: dict[str, Any], meat: bool
) -> None:
    packed: date = lot["packed_on"]
    place = FREEZER if meat else chance.choice((PANTRY, PANTRY, CELLAR))
    lines["lot_move"].append({"lot": number, "place": place, "at": _at(packed)})
    if place == PANTRY and chance.random() < 0.25:
        later = packed + timedelta(days=chance.randint(20, 90))
        if later < _TODAY:
            lines["lot_move"].append({"lot": number, "place": CELLAR, "at": _at(later)})
    left = parse_mass(lot["mass"]).si
    opened = packed + timedelta(days=chance.randint(25, 200))
    if opened < _TODAY and chance.random() < 0.45:
        lot["opened_on"] = opened
        left -= _draw(lines, number, opened, left * chance.uniform(0.15, 0.4), "cooked", _USED_IN.get(lot["food"]))
        if chance.random() < 0.4 and opened + timedelta(days=30) < _TODAY:
            left -= _draw(lines, number, opened + timedelta(days=30), left * 0.3, "given", None)
    if lot["food"] in _USED_IN and packed < _DEPARTURE and chance.random() < 0.55:
        taken = _draw(
            lines,
            number,
            _DEPARTURE - timedelta(days=1),
            left * chance.uniform(0.4, 0.9),
            "cooked",
            _USED_IN[lot["food"]],
        )
        lines["lot_draw"][-1]["note"] = "packed for the circuit"
        left -= taken
    if packed.year == 2025 and chance.random() < 0.85:
        last = {"lot": number, "on": date(2026, 6, 13), "purpose": "cooked", "mass": "", "note": "the last of it"}
        lines["lot_draw"].append(last)
    elif lot.get("opened_on") and chance.random() < 0.8:
        seen = date(2026, 11, 15) + timedelta(days=chance.randrange(7))
        lines["lot_check"].append({"lot": number, "on": seen, "moist": "no", "mould": "no", "note": "smells fresh"})
    elif chance.random() < 0.2 and packed + timedelta(days=60) < _TODAY:
        check = {
            "lot": number,
            "on": packed + timedelta(days=60),
            "mass": pounds(left)[0],
            "moist": "no",
            "mould": "no",
        }
        lines["lot_check"].append(check)


def _draw(
    lines: dict[str, list[dict[str, Any]]], lot: int, on: date, grams: float, purpose: str, meal: int | None
) -> float:
    text, amount = pounds(grams)
    lines["lot_draw"].append({"lot": lot, "on": on, "purpose": purpose, "mass": text, "meal": meal or ""})
    return amount


def _bought(lines: dict[str, list[dict[str, Any]]]) -> None:
    """Two bags from the shop, and one of them along on the water and back."""
    for food, packed, keep_by, mass in (
        ("shiitake", date(2026, 3, 14), date(2027, 9, 30), "8 oz"),
        ("mango", date(2026, 6, 20), date(2027, 2, 28), "1 lb"),
    ):
        lot = {"food": food, "packed_on": packed, "name": "bought", "package": "bag", "sealed": "yes", "mass": mass}
        lines["lot"].append(lot | {"bought_keep_by": keep_by, "origin": "bought"})
        number = len(lines["lot"])
        lines["lot_move"].append({"lot": number, "place": PANTRY, "at": _at(packed)})
    lines["lot"][number - 1]["opened_on"] = date(2026, 8, 24)
    lines["lot_move"].append({"lot": number, "place": PACK, "at": _at(_DEPARTURE, 6)})
    lines["lot_move"].append({"lot": number, "place": PANTRY, "at": _at(date(2026, 8, 31), 17)})
    lines["lot_draw"].append(
        {"lot": number, "on": date(2026, 8, 24), "purpose": "cooked", "mass": "6 oz", "note": "eaten by hand"}
    )


def _pot_by_servings(lines: dict[str, list[dict[str, Any]]], batches: list[dict[str, Any]]) -> None:
    """The last pot of stew went into a bag for each serving."""
    number = max(n for n, batch in enumerate(batches, 1) if batch["food"] == "galley-squash-lentil")
    batch = batches[number - 1]
    each, packed = parse_mass(batch["dried_mass"]).si / POT_SERVINGS, datetime.fromisoformat(batch["ended"]).date()
    for bag in range(1, POT_SERVINGS + 1):
        lot = {"food": batch["food"], "batch": number, "origin": "home", "package": "bag", "sealed": "yes"}
        lines["lot"].append(
            lot | {"name": f"{bag} of {POT_SERVINGS}", "mass": pounds(each)[0], "packed_on": packed}
        )
        lines["lot_move"].append({"lot": len(lines["lot"]), "place": PANTRY, "at": _at(packed)})


def _found(lines: dict[str, list[dict[str, Any]]]) -> None:
    """Not everything kept: one jar felt moist, one grew mould and went, one bag lost its seal."""
    gone = {draw["lot"] for draw in lines["lot_draw"] if not draw.get("mass")}
    standing = [n for n, lot in enumerate(lines["lot"], 1) if n not in gone and lot.get("batch")]
    fruit = [n for n in standing if _kind(lines["lot"][n - 1]["food"]) == "fruit"]
    moist, mouldy = fruit[-1], fruit[1]
    loose = next(n for n in reversed(standing) if lines["lot"][n - 1]["package"] == "bag")
    lines["lot_check"] += [
        {"lot": moist, "on": date(2026, 11, 20), "moist": "yes", "mould": "no", "note": "beads under the lid"},
        {"lot": mouldy, "on": date(2026, 7, 3), "moist": "yes", "mould": "yes", "smell": "musty"},
    ]
    lines["lot_draw"].append(
        {"lot": mouldy, "on": date(2026, 7, 3), "purpose": "thrown out", "mass": "", "note": "mould"}
    )
    lines["lot"][loose - 1]["sealed"] = "no"
    lines["lot"][loose - 1]["notes"] = "Seal let go; put in a clip bag."
