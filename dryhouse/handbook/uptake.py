"""Grams of water that a gram of dried food takes up again: by food, and where nothing is published by its kind.

Dried food takes up less than it lost: its cells have collapsed, and part of what dissolved stays in the water.
Where one publication gives one figure, it is said to stray by a quarter either way (`own_uptake_spread`), which is
half the width of the range for vegetables.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from types import MappingProxyType

from dryhouse.handbook.foods import load_foods
from dryhouse.handbook.reading import Row, read
from dryhouse.handbook.tables import CATEGORIES, Food
from dryhouse.science.values import Fact

STRAYS = 0.25
"""How far a single published figure is taken to stray, as a fraction of it."""
_COLUMNS = ("about", "value", "low", "high", "note", "source", "how")


@cache
def uptakes() -> Mapping[str, Fact]:
    """Grams of water for a gram dried, with low and high, by the slug of a food or as `any vegetable`."""
    known = {*load_foods(), *(_kind(category) for category in CATEGORIES)}
    found: dict[str, Fact] = {}
    for row in read("uptake", _COLUMNS):
        fact = _fact(row)
        for about in row.names("about"):
            if about in found or about not in known:
                raise row.fault(f"“{about}” stands twice, or is neither a food nor a kind of food")
            found[about] = fact
    return MappingProxyType(found)


def published_uptake(food: Food) -> Fact | None:
    """Grams of water a gram of this food takes up, its own figure first; None where nothing is published."""
    return uptakes().get(food.slug) or uptakes().get(_kind(food.category))


def _kind(category: str) -> str:
    return f"any {category}"


def _fact(row: Row) -> Fact:
    value, low, high = row.required("value"), row.number("low"), row.number("high")
    if low is None or high is None:
        low, high = value * (1 - STRAYS), value * (1 + STRAYS)
    if not 0 < low <= value <= high:
        raise row.fault(f"{low:g} to {high:g} does not hold {value:g}")
    return Fact(value, "g/g", row.source().citation, row.how(), low=low, high=high, note=row.text("note"))
