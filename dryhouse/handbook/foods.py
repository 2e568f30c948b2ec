"""The foods of the handbook: what they are called, and every figure, saying and measure published of them.

Four tables make a `Food`: `foods.csv` names it, `facts.csv` gives its numbers, `sayings.csv` its
statements in words and `measures.csv` what a household measure of it weighs. A figure of an unknown name
or unit, or one for an unknown food, is a `HandbookFault`.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from functools import cache
from types import MappingProxyType

from dryhouse.handbook.reading import Row, read
from dryhouse.handbook.tables import CATEGORIES, Food, HouseholdMeasure, Saying
from dryhouse.science.values import Fact

UNITS: Mapping[str, str] = MappingProxyType(
    {
        "water": "% wet basis",
        "energy": "kcal per 100 g",
        "protein": "g per 100 g",
        "fat": "g per 100 g",
        "carbohydrate": "g per 100 g",
        "fibre": "g per 100 g",
        "sodium": "mg per 100 g",
        "refuse": "% of as-purchased mass",
        "target_moisture": "% wet basis",
        "drying_temperature": "degC",
        "drying_hours": "h",
        "blanch_steam": "min",
        "blanch_water": "min",
        "tray_load": "kg/m2",
        "dried_water": "% wet basis",
    }
)
"""The unit each kind of figure is given in. `dried_water` is that of the article sold dried: a yardstick,
never a target."""

SAYINGS = ("dryness_test", "pretreatment", "cut", "blanch", "note")
STATES = ("fresh", "cooked", "dried")
TRAITS = frozenset(
    {"animal", "meat", "poultry", "fish", "egg", "dairy", "ground", "jerky", "game", "pork", "low_acid", "acid"}
    | {"raw_bean", "holds_bean", "potato", "mushroom", "garlic", "herb", "cooked_starch", "fruit", "vegetable"}
    | {"mix", "fatty"}
)
"""What the safety rules may ask about."""


_COLUMNS = ("slug", "name", "other_names", "category", "traits", "composition_of")


@cache
def load_names() -> Mapping[str, str]:
    """What each food is called, by slug: one small table, for lists that show names and nothing else."""
    return MappingProxyType({row.text("slug"): row.text("name") for row in read("foods", _COLUMNS, key=("slug",))})


@cache
def load_foods() -> Mapping[str, Food]:
    """Every food of the handbook by slug, in the order of `foods.csv`."""
    facts = _facts()
    sayings = _sayings()
    measures = _measures()
    foods: dict[str, Food] = {}
    for row in read("foods", _COLUMNS, key=("slug",)):
        slug, category, traits = row.text("slug"), row.text("category"), frozenset(row.names("traits"))
        if category not in CATEGORIES:
            raise row.fault(f"category “{category}” is none of {', '.join(CATEGORIES)}")
        if strange := traits - TRAITS:
            raise row.fault(f"unknown traits: {', '.join(sorted(strange))}")
        foods[slug] = Food(
            slug=slug,
            name=row.text("name"),
            other_names=row.names("other_names"),
            category=category,
            facts=MappingProxyType(facts.pop(slug, {})),
            sayings=MappingProxyType(sayings.pop(slug, {})),
            measures=tuple(measures.pop(slug, ())),
            traits=traits,
        )
    for table, left in (("facts", facts), ("sayings", sayings), ("measures", measures)):
        for slug in left:
            raise Row(table, 0, {}).fault(f"“{slug}” is not in foods.csv")
    return MappingProxyType(foods)


def _citation(row: Row) -> str:
    """The source as it is shown, with the place in it where the row gives one."""
    locator = row.text("locator") if "locator" in row.cells else ""
    citation = row.source().citation
    return f"{citation}, {locator}" if locator else citation


def _facts() -> dict[str, dict[str, Fact]]:
    columns = ("food", "name", "value", "low", "high", "unit", "n", "standard_error", "source", "locator", "how")
    by_food: dict[str, dict[str, Fact]] = defaultdict(dict)
    for row in read("facts", (*columns, "note"), key=("food", "name")):
        name, unit, n = row.text("name"), row.text("unit"), row.number("n")
        if UNITS.get(name) != unit:
            raise row.fault(f"{name} in “{unit}”: it is given in {UNITS.get(name, 'no unit we know')}")
        by_food[row.text("food")][name] = Fact(
            row.required("value"),
            unit,
            _citation(row),
            row.how(),
            low=row.number("low"),
            high=row.number("high"),
            n=None if n is None else int(n),
            standard_error=row.number("standard_error"),
            note=row.text("note"),
        )
    return by_food


def _sayings() -> dict[str, dict[str, Saying]]:
    by_food: dict[str, dict[str, Saying]] = defaultdict(dict)
    for row in read("sayings", ("food", "name", "text", "source", "how"), key=("food", "name")):
        if row.text("name") not in SAYINGS:
            raise row.fault(f"saying “{row.text('name')}” is none of {', '.join(SAYINGS)}")
        by_food[row.text("food")][row.text("name")] = Saying(row.text("text"), row.source().citation, row.how())
    return by_food


def _measures() -> dict[str, list[HouseholdMeasure]]:
    columns = ("food", "state", "cut", "ml", "grams", "source", "locator", "how")
    by_food: dict[str, list[HouseholdMeasure]] = defaultdict(list)
    for row in read("measures", columns, key=("food", "state", "cut")):
        if row.text("state") not in STATES:
            raise row.fault(f"state “{row.text('state')}” is none of {', '.join(STATES)}")
        by_food[row.text("food")].append(
            HouseholdMeasure(
                row.text("state"),
                row.text("cut"),
                row.required("ml"),
                row.required("grams"),
                _citation(row),
                row.how(),
            )
        )
    return by_food
