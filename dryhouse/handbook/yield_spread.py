"""How far published figures of one thing stray from each other: what the yields' intervals rest on.

Each figure is the standard deviation of a logarithm, so that 0.1 is about 10 % either way.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import replace
from functools import cache

from dryhouse.handbook.reading import read
from dryhouse.handbook.tables import Food
from dryhouse.science.values import MIDDLE_80_SD, Fact
from dryhouse.science.yields.prior import raw_water_variance

_LIKE = {
    "herb": "vegetable", "mushroom": "vegetable", "legume": "vegetable", "grain": "vegetable", "fruit": "fruit",
    "vegetable": "vegetable", "meat": "meat", "poultry": "meat", "fish": "meat", "egg": "meat", "dairy": "meat",
}  # fmt: skip
"""Whose spread stands in for a category that has none of its own."""


@cache
def spreads() -> Mapping[tuple[str, str], Fact]:
    """Every spread, by quantity and kind."""
    columns = ("quantity", "kind", "log_sd", "n", "source", "note")
    table = {}
    for row in read("yield_spread", columns, key=("quantity", "kind")):
        value = row.required("log_sd")
        table[row.text("quantity"), row.text("kind")] = Fact(
            value, "ln", row.source().citation, row.how(), n=int(row.required("n")), note=row.text("note")
        )
    return table


def raw_water(food: Food) -> Fact:
    """Spread of ln(solids) of such raw food from one purchase to the next."""
    return spreads()["raw_water", _LIKE.get(food.category, "vegetable")]


def water_with_range(food: Food, water: Fact) -> Fact:
    """The water of the raw food with the middle 80 % of such food from one purchase to the next.

    A source's own range stands; an entered figure without sample statistics is taken as exact.
    """
    if water.low is not None or (water.how == "entered" and water.n is None):
        return water
    solids = 100.0 - water.value
    factor = math.exp(MIDDLE_80_SD * math.sqrt(raw_water_variance(water, raw_water(food).value)))
    return replace(water, low=max(100.0 - solids * factor, 0.0), high=100.0 - solids / factor)


def finish(food: Food) -> Fact:
    """Spread of ln(solids) of such food when it is called dry."""
    kind = _LIKE.get(food.category, "other")
    return spreads().get(("finish", kind)) or spreads()["finish", "other"]


def cup(state: str, *, same_cut: bool) -> Fact:
    """Spread of ln(grams per cup) of one food: `fresh` (or `cooked`) of the same or any cut, or `dried`."""
    if state == "dried":
        return spreads()["dried_cup", "any cut"]
    return spreads()["fresh_cup", "same cut" if same_cut else "any cut"]
