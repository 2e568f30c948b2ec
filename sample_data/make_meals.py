"""Six meals of the club's own, one trip that was made and one that is planned, and what the pot taught."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

SQUASH, BARLEY, TURKEY, CHILI, COUSCOUS, OATS = range(1, 7)

_MEALS = (
    (
        "squash and lentil stew",
        "short soak",
        "stew",
        15,
        "Soak cold in the pot, bring to the boil, simmer with the lid on, stand in the cosy.",
    ),
    (
        "mushroom barley pot",
        "short soak",
        "stew",
        20,
        "Everything but the cheese into the pot; cheese when it comes off.",
    ),
    (
        "turkey and wild rice soup",
        "short soak",
        "soup",
        20,
        "Turkey soaks on its own for half an hour; then all together.",
    ),
    ("bean chili", "boil and rest", "stew", 10, "Boil ten minutes, then rest well wrapped for twenty."),
    ("red pepper couscous", "boil and rest", "dry", 3, "Boil the vegetables, lid off the fire, couscous in, wait."),
    ("apple oat breakfast", "boil and rest", "stew", 4, "Water on the night's last coals; oats in the morning."),
)

_PARTS: dict[int, tuple[tuple[Any, ...], ...]] = {
    SQUASH: (
        ("butternut squash", "butternut-squash", "", "1 oz"),
        ("lentils, cooked and dried", "lentil", "", "1.5 oz"),
        ("onion", "onion", "", "0.3 oz"),
        ("carrot", "carrot", "", "0.4 oz"),
        ("olive oil", "", "olive-oil", "0.5 oz"),
        ("bouillon", "", "bouillon-low-sodium", "0.1 oz"),
        ("flour tortillas, on the side", "", "tortilla-flour", "2.1 oz"),
    ),
    BARLEY: (
        ("mushrooms", "mushroom", "", "0.5 oz"),
        ("barley, cooked and dried", "barley", "", "2 oz"),
        ("carrot", "carrot", "", "0.3 oz"),
        ("celery", "celery", "", "0.1 oz"),
        ("onion", "onion", "", "0.25 oz"),
        ("hard cheese", "", "hard-cheese", "1 oz"),
        ("olive oil", "", "olive-oil", "0.5 oz"),
        ("sunflower kernels", "", "sunflower-kernels", "0.5 oz"),
    ),
    TURKEY: (
        ("turkey crumbles", "ground-turkey", "", "1 oz"),
        ("wild rice, cooked and dried", "rice-wild", "", "1.8 oz"),
        ("peas", "green-pea", "", "0.4 oz"),
        ("celery", "celery", "", "0.1 oz"),
        ("onion", "onion", "", "0.2 oz"),
        ("bouillon", "", "bouillon-chicken", "0.15 oz"),
        ("olive oil", "", "olive-oil", "0.5 oz"),
        ("almonds, on the side", "", "almonds", "0.7 oz"),
    ),
    CHILI: (
        ("kidney beans", "kidney-bean", "", "1.8 oz"),
        ("tomato", "tomato", "", "0.5 oz"),
        ("red pepper", "red-pepper", "", "0.25 oz"),
        ("onion", "onion", "", "0.25 oz"),
        ("beef crumbles", "ground-beef", "", "0.7 oz"),
        ("cornmeal", "", "cornmeal", "0.5 oz"),
        ("hard cheese", "", "hard-cheese", "1 oz"),
        ("flour tortilla, on the side", "", "tortilla-flour", "1.05 oz"),
    ),
    COUSCOUS: (
        ("couscous", "", "couscous", "3 oz"),
        ("red pepper", "red-pepper", "", "0.3 oz"),
        ("zucchini", "zucchini", "", "0.2 oz"),
        ("tomato", "tomato", "", "0.3 oz"),
        ("almonds", "", "almonds", "1 oz"),
        ("olive oil", "", "olive-oil", "0.5 oz"),
    ),
    OATS: (
        ("rolled oats", "", "oats-rolled", "2.5 oz"),
        ("apple", "apple", "", "0.8 oz"),
        ("blueberries", "blueberry", "", "0.3 oz"),
        ("dry milk", "", "milk-whole-dry", "0.8 oz"),
        ("walnuts", "", "walnuts", "0.6 oz"),
    ),
}
_DINNERS = (SQUASH, CHILI, BARLEY, COUSCOUS, TURKEY, CHILI, SQUASH, COUSCOUS, BARLEY)

_NOTES: tuple[tuple[Any, ...], ...] = (
    (SQUASH, "2026-06-13", 2, "3 cups", 15, 15, "", "right", "", 4),
    (TURKEY, "2026-07-11", 2, "4 cups", 20, 18, "", "hard", "Soak the turkey longer, and apart.", 3),
    (SQUASH, "2026-08-22", 4, "6 1/2 cups", 10, 15, "1180 ft", "right", "A little more carrot.", 5),
    (
        CHILI,
        "2026-08-23",
        4,
        "6 cups",
        0,
        10,
        "1180 ft",
        "hard",
        "Beans want a soak; twenty minutes cold first.",
        3,
    ),
    (BARLEY, "2026-08-24", 4, "7 cups", 15, 22, "1240 ft", "right", "", 4),
    (COUSCOUS, "2026-08-25", 4, "4 cups", 0, 3, "1240 ft", "right", "", 5),
    (TURKEY, "2026-08-26", 4, "9 cups", 35, 20, "1310 ft", "right", "Longer soak was worth it.", 5),
    (CHILI, "2026-08-27", 4, "7 cups", 25, 10, "1310 ft", "right", "", 4),
    (OATS, "2026-08-28", 4, "6 cups", 0, 4, "1220 ft", "soupy", "A cup less water.", 3),
)
_NOTE_PARTS: dict[int, tuple[tuple[str, str, str], ...]] = {
    2: (("turkey crumbles", "hard", "ground-turkey"), ("wild rice, cooked and dried", "right", "rice-wild")),
    4: (("kidney beans", "hard", "kidney-bean"), ("tomato", "right", "tomato")),
    7: (("turkey crumbles", "right", "ground-turkey"),),
    9: (("rolled oats", "soupy", ""), ("apple", "right", "apple")),
}


def meals() -> dict[str, list[dict[str, Any]]]:
    """The tables meal, meal_part, trip, trip_meal, trip_person, after_trip, cooking_note and cooking_note_part."""
    return {
        "meal": [
            {
                "name": name,
                "servings": 1,
                "cooking": cooking,
                "liquid": liquid,
                "cook_minutes": minutes,
                "pot_diameter": "8 in",
                "method": method,
            }
            for name, cooking, liquid, minutes, method in _MEALS
        ],
        "meal_part": [
            {"meal": meal, "position": position, "name": name, "food": food, "staple": staple, "mass": mass}
            for meal, parts in _PARTS.items()
            for position, (name, food, staple, mass) in enumerate(parts)
        ],
        "trip": [_trip("Lake circuit 2026", date(2026, 8, 22)), _trip("Lake circuit 2027", date(2027, 8, 21))],
        "trip_meal": [*_menu(1, date(2026, 8, 22)), *_menu(2, date(2027, 8, 21))],
        "trip_person": [
            {"trip": 2, "name": name, "appetite_pct": appetite, "avoids": avoids}
            for name, appetite, avoids in _PADDLERS
        ],
        "after_trip": [
            {"trip": 1, "meal": meal, "uneaten": uneaten, "short": short, "change": change}
            for meal, uneaten, short, change in _AFTER
        ],
        "cooking_note": [
            {
                "meal": meal,
                "on": on,
                "servings": servings,
                "water": water,
                "soak_minutes": soak,
                "cook_minutes": cook,
                "altitude": altitude,
                "came_back": came_back,
                "change": change,
                "rating": rating,
            }
            for meal, on, servings, water, soak, cook, altitude, came_back, change, rating in _NOTES
        ],
        "cooking_note_part": [
            {"note": note, "name": name, "came_back": came_back, "food": food}
            for note, parts in _NOTE_PARTS.items()
            for name, came_back, food in parts
        ],
    }


_AFTER = (
    (OATS, 4, 0, "One breakfast less: the last one is eaten in town."),
    (CHILI, 0, 2, "More of it after the long portages."),
)
_PADDLERS = (
    ("stern of the red canoe", 120, ""),
    ("bow of the red canoe", 100, ""),
    ("stern of the blue canoe", 100, ""),
    ("bow of the blue canoe", 80, "turkey"),
)


def _trip(name: str, first: date) -> dict[str, Any]:
    return {
        "name": name,
        "starts_on": first,
        "ends_on": first + timedelta(days=8),
        "people": 4,
        "energy_kcal_per_person_day": 3000,
        "temperature": "79 F",
        "altitude": "1250 ft",
        "spoilage_margin_pct": 10,
        "notes": "Nine days, eleven portages, two canoes.",
    }


def _menu(trip: int, first: date) -> list[dict[str, Any]]:
    lines = []
    for day, dinner in enumerate(_DINNERS):
        on = first + timedelta(days=day)
        lines.append({"trip": trip, "meal": OATS, "on": on, "slot": "breakfast"})
        lines.append({"trip": trip, "meal": dinner, "on": on, "slot": "dinner"})
    return lines
