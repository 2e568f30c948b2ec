"""What the handbook alone believes of a yield: mass balance, joined with the published yield tables.

The mass balance gives the ratio dried/prepared = solids of the raw food ÷ solids of the dried. Two spreads of
it are physical and differ from batch to batch: how watery the raw food was, and how far it was dried. What the
published yield tables stray from the mass balance beyond these is, in part, the same in every kitchen (trimming
that the refuse figure doesn't know, another variety) and in part each kitchen's own way. Both parts are
estimated from the tables themselves, by the method of moments of a random-effects model (DerSimonian and
Laird 1986, Controlled Clinical Trials 7:177; recalled), about the mass balance as the known mean.
"""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass

from dryhouse.science.values import Fact
from dryhouse.science.yields.belief import MIDDLE, Belief
from dryhouse.science.yields.student import quantile

SPREAD_WORTH = 4.0
"""Degrees of freedom of the handbook's batch-to-batch spread: an assumption, named wherever it is used.
It is what five batches would teach."""


@dataclass(frozen=True, slots=True)
class Comparison:
    """One published yield against the mass balance of the same food."""

    food: str
    source: str
    strays: float
    """ln(published ratio ÷ ratio by mass balance)."""
    variance: float
    """The part of its variance that raw water and finish explain."""
    trusted: bool = True
    """Whether it may move the middle: read at its source, and possible with these solids. Others widen the
    doubt alone."""


@dataclass(frozen=True, slots=True)
class TableSpread:
    """How published yields stray from the mass balance, beyond raw water and finish (variances of logarithms)."""

    food: float
    """Common to all kitchens, differing from food to food."""
    kitchen: float
    """Differing from kitchen to kitchen for one food."""
    rows: int


def raw_water_variance(water: Fact, typical: float) -> float:
    """Variance of ln(solids) of the raw food, from the sample count and standard error of its water.

    SD = standard error × √n. As the source's n counts repeated analyses too, one food's own SD may be far off;
    it is taken half way, in logarithms, towards the `typical` SD of such foods, which stands alone where the
    food has none.
    """
    if not water.standard_error or not water.n or water.n < 2:
        return typical**2
    own = water.standard_error * math.sqrt(water.n) / (100.0 - water.value)
    return own * typical


def mass_balance(water_pct: float, target_pct: float) -> float:
    """ln(dried/prepared) where nothing but water leaves (moistures in % wet basis)."""
    return math.log((100.0 - water_pct) / (100.0 - target_pct))


def one_for_each_source(rows: Sequence[Comparison]) -> list[Comparison]:
    """Rows of one food in one publication are one voice: their mean."""
    voices: dict[tuple[str, str], list[Comparison]] = defaultdict(list)
    for row in rows:
        voices[row.food, row.source].append(row)
    return [
        Comparison(
            food,
            source,
            sum(r.strays for r in group) / len(group),
            group[0].variance,
            all(r.trusted for r in group),
        )
        for (food, source), group in voices.items()
    ]


def table_spread(rows: Sequence[Comparison]) -> TableSpread:
    """The two variances, from every comparison of every food (`one_for_each_source` first).

    Each row weighs by the inverse of its own variance v, as DerSimonian and Laird have it: over all rows
    E Σ e²/v = N + (food + kitchen) Σ 1/v, and within foods E Σ (e − ē)²/v = Σ (J − 1) + kitchen Σ (J − 1)/v.
    Neither can be below zero. Where no food stands in two tables the whole of it is laid to the kitchens.
    """
    by_food: dict[str, list[Comparison]] = defaultdict(list)
    for row in rows:
        by_food[row.food].append(row)
    total = sum(r.strays**2 / r.variance - 1 for r in rows) / sum(1 / r.variance for r in rows)
    within, weight = 0.0, 0.0
    for group in by_food.values():
        mean, n = sum(r.strays for r in group) / len(group), len(group)
        within += sum((r.strays - mean) ** 2 / r.variance - (1 - 1 / n) for r in group)
        weight += sum((1 - 1 / n) / r.variance for r in group)
    kitchen = max(within / weight if weight else total, 0.0)
    return TableSpread(max(total - kitchen, 0.0), kitchen, len(rows))


def handbook_belief(
    mass_balance_log: float, batch_variance: float, spread: TableSpread, own_rows: Sequence[Comparison]
) -> Belief:
    """The handbook's belief about one food's log ratio, before any own batch.

    `batch_variance` is raw solids plus finish; `own_rows` are the published yields of this very food, of which
    those that are not trusted count in `spread` alone. The weight follows: as many batches as it takes for their
    mean to be known as well as the handbook knows it. The scale is set so that the middle 80 % is that of a normal
    whose variance rests on `spread.rows` comparisons.
    """
    strays, uncertain = 0.0, spread.food
    trusted = [r for r in own_rows if r.trusted]
    if trusted and spread.food > 0:
        weights = [1 / (spread.kitchen + r.variance) for r in trusted]
        uncertain = 1 / (1 / spread.food + sum(weights))
        strays = uncertain * sum(w * r.strays for w, r in zip(weights, trusted, strict=True))
    p = (1 + MIDDLE) / 2
    stretch = (quantile(p, spread.rows) / quantile(p, SPREAD_WORTH)) ** 2
    shape = SPREAD_WORTH / 2
    kitchens = max(uncertain + spread.kitchen, 1e-6)
    return Belief(mass_balance_log + strays, batch_variance / kitchens, shape, shape * stretch * batch_variance)
