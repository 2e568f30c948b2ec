"""Published yields held against the mass balance of their own food: what they say of it, and how far they stray.

A yield given as purchased is brought to prepared food by the refuse figure. Commercial drying ends at the water
of the article as sold. A row the table marks as not comparable is left out, and so is one without both weights;
but a row that the table marks as straying from the mass balance is used all the same, since leaving it out
would make published yields look steadier than they are.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from functools import cache

from dryhouse.handbook.foods import load_foods
from dryhouse.handbook.tables import Food
from dryhouse.handbook.yield_spread import finish, raw_water
from dryhouse.handbook.yield_table import PublishedYield
from dryhouse.handbook.yield_table import published_yields as rows_of_the_table
from dryhouse.science.values import Fact
from dryhouse.science.workings import Step, step
from dryhouse.science.workings import StepKind as Kind
from dryhouse.science.yields.prior import Comparison, TableSpread, mass_balance, one_for_each_source, table_spread
from dryhouse.science.yields.ratio import PublishedRatio, batch_variance

COMMERCIAL = "commercial drying"
"""The form of the rows that end at the water of the article as sold."""
LEAST_LEFT, MOST_LEFT = 2.0, 25.0
"""Moisture (% wet basis) that dried food may be left with. A published yield that would leave less or more cannot
be of food with these solids: it widens the doubt and does not move the middle (our own bounds)."""
ANOTHER_FRUIT = frozenset({"plum"})
"""Foods whose published yield is of another raw article: prunes are dried from plums far sweeter than those sold
fresh, and hold twice the solids these could give (common practice, and USDA Standard Reference 28, 09279)."""


@cache
def yield_spread() -> TableSpread:
    """How far published yields stray from the mass balance, over every comparable row of the table."""
    return table_spread(one_for_each_source([y.comparison for ys in _by_food().values() for y in ys]))


def comparable_yields(food: str) -> tuple[PublishedRatio, ...]:
    """The published yields of one food, row by row."""
    return _by_food().get(food, ())


def compare(food: Food, row: PublishedYield) -> PublishedRatio | None:
    """One row against the mass balance of its food, or None where it cannot be compared."""
    water, end = food.fact("water"), _end(food, row)
    prepared = _prepared(food, row)
    if water is None or end is None or prepared is None or not row.dried_g:
        return None
    ratio = row.dried_g / prepared
    strays = math.log(ratio) - mass_balance(water.value, end.value)
    to_home = food.fact("target_moisture") or end
    at_target = ratio * (100 - end.value) / (100 - to_home.value)
    workings = [_arithmetic(food, row, prepared, ratio)]
    if end.value != to_home.value:
        workings.append(step(Kind.AT_HOME_FINISH, at_target, end=(end.value, "%"), home=(to_home.value, "%")))
    variance = batch_variance(water, raw_water(food), finish(food))
    left = 100.0 * (1.0 - (1.0 - water.value / 100.0) / at_target)
    trusted = row.how != "recalled" and LEAST_LEFT <= left <= MOST_LEFT
    return PublishedRatio(
        Comparison(food.slug, row.source.split(", ")[0], strays, variance, trusted),
        tuple(workings),
        row.basis,
    )


@cache
def _by_food() -> Mapping[str, tuple[PublishedRatio, ...]]:
    found: dict[str, list[PublishedRatio]] = {}
    for row in rows_of_the_table():
        food = load_foods().get(row.food)
        compared = compare(food, row) if food is not None else None
        if compared is not None:
            found.setdefault(row.food, []).append(compared)
    return {food: tuple(ys) for food, ys in found.items()}


def _end(food: Food, row: PublishedYield) -> Fact | None:
    if row.comparable or row.strays:
        return food.fact("target_moisture")
    if row.form == COMMERCIAL and food.slug not in ANOTHER_FRUIT:
        return food.fact("dried_water")
    return None


def _prepared(food: Food, row: PublishedYield) -> float | None:
    if row.prepared_g is not None:
        return row.prepared_g
    refuse = food.fact("refuse")
    if row.as_purchased_g is None or refuse is None:
        return row.as_purchased_g
    return row.as_purchased_g * (1 - refuse.value / 100)


def _arithmetic(food: Food, row: PublishedYield, prepared: float, ratio: float) -> Step:
    refuse, dried, result = food.fact("refuse"), (row.dried_g or 0.0, "g"), (ratio, "", row.source)
    if row.prepared_g is not None or refuse is None or row.as_purchased_g is None:
        return step(Kind.PUBLISHED_YIELD, result, dried=dried, prepared=(prepared, "g"))
    bought = (row.as_purchased_g, "g")
    return step(Kind.PUBLISHED_YIELD_AS_BOUGHT, result, dried=dried, bought=bought, refuse=(refuse.value, "%"))
