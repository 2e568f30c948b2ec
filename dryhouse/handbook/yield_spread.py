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

LEAST_SPREAD = 0.06
"""No load is known better than this without a test: ripeness, storing and preparing differ (assumption)."""
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


@cache
def solids_ranges() -> Mapping[str, Fact]:
    """The published range of solids (%) of ripe produce, by food; the middle is the geometric mean."""
    table = {}
    for row in read("solids_ranges", ("food", "low", "high", "source", "locator", "how", "note"), key=("food",)):
        low, high = row.required("low"), row.required("high")
        table[row.text("food")] = Fact(
            math.sqrt(low * high), "%", row.source().citation, row.how(), low, high, note=row.text("locator")
        )
    return table


def solids_spread(food: Food, water: Fact) -> Fact:
    """Spread of ln(solids) of such raw food from one purchase to the next.

    Its published range where there is one, taken as the middle 80 % and never less than `LEAST_SPREAD`; else its
    own sample statistics drawn half way towards the spread of its kind, and never wider than that.
    """
    kind = raw_water(food)
    known = solids_ranges().get(food.slug)
    if known is not None and known.low is not None and known.high is not None:
        spread = math.log(known.high / known.low) / (2.0 * MIDDLE_80_SD)
        return Fact(max(spread, LEAST_SPREAD), "ln", known.source, "computed", note=known.note)
    own = math.sqrt(raw_water_variance(water, kind.value))
    return replace(kind, value=max(min(own, kind.value), LEAST_SPREAD))


def water_with_range(food: Food, water: Fact) -> Fact:
    """The water of the raw food with the middle 80 % of such food from one purchase to the next.

    A source's own range stands; an entered figure without sample statistics is taken as exact.
    """
    if water.low is not None or (water.how == "entered" and water.n is None):
        return water
    solids = 100.0 - water.value
    factor = math.exp(MIDDLE_80_SD * solids_spread(food, water).value)
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
