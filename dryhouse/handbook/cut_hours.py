"""Hours in a home dryer by the cut: a half peach takes three times as long as a slice of one."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Mapping
from functools import cache
from types import MappingProxyType

from dryhouse.handbook.foods import load_foods
from dryhouse.handbook.reading import read
from dryhouse.handbook.spelling import words
from dryhouse.handbook.tables import Food
from dryhouse.science.values import Fact


@cache
def cut_hours() -> Mapping[str, Mapping[str, Fact]]:
    """The hours of each food, by the word for its cut: `slice`, `half`, `strip`."""
    found: dict[str, dict[str, Fact]] = defaultdict(dict)
    for row in read("hours_by_cut", ("food", "cuts", "low", "high", "source", "locator", "how")):
        low, high = row.required("low"), row.required("high")
        if not 0 < low <= high:
            raise row.fault(f"{low:g} to {high:g} h is no time")
        middle = math.sqrt(low * high)
        fact = Fact(middle, "h", row.source().citation, row.how(), low=low, high=high, note=row.text("locator"))
        for food in row.names("food"):
            for word in (word for cut in row.names("cuts") for word in words(cut)):
                if food not in load_foods() or word in found[food]:
                    raise row.fault(f"{food} is no food, or its {word} stands twice")
                found[food][word] = fact
    return MappingProxyType({food: MappingProxyType(cuts) for food, cuts in found.items()})


def published_hours(food: Food, cut: str = "") -> Fact | None:
    """The published drying time of the food cut so; of the food as such where none is published for that cut. Her
    own figure stands before both."""
    usual = food.fact("drying_hours")
    if usual is not None and usual.how == "entered":
        return usual
    known = cut_hours().get(food.slug, {})
    return next((known[word] for word in words(cut) if word in known), usual)
