"""The yield of one food as a ratio dried ÷ prepared: by the handbook, by her own batches, and joined."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from dryhouse.science.values import Basis, Fact, merge_bases
from dryhouse.science.workings import Workings
from dryhouse.science.yields.belief import Belief, Predictive, alone
from dryhouse.science.yields.prior import (
    SPREAD_WORTH,
    Comparison,
    TableSpread,
    handbook_belief,
    mass_balance,
    one_for_each_source,
    raw_water_variance,
)

OTHER_FORM_COUNTS = 0.5
"""What an own batch of the same food in another form or pretreatment counts for: an assumption, always named."""


@dataclass(frozen=True, slots=True)
class Ratio:
    """One view of the ratio. `predictive` is None where there is a middle but no interval (a single batch)."""

    value: float
    predictive: Predictive | None
    basis: tuple[Basis, ...]
    workings: Workings


@dataclass(frozen=True, slots=True)
class HandbookRatio:
    """The handbook's view, and the belief own batches go on to change."""

    ratio: Ratio
    belief: Belief


@dataclass(frozen=True, slots=True)
class PublishedYield:
    """One published yield of this food, brought to dried ÷ prepared, with its arithmetic in words."""

    comparison: Comparison
    words: str
    basis: Basis


@dataclass(frozen=True, slots=True)
class OwnBatch:
    """One own batch: dried ÷ prepared, and whether its form and pretreatment are those asked for."""

    ratio: float
    same: bool = True


def batch_variance(water: Fact, raw_spread: Fact, finish_spread: Fact) -> float:
    """Variance of the log ratio from batch to batch: raw water and finish."""
    return raw_water_variance(water, raw_spread.value) + finish_spread.value**2


def by_handbook(
    water: Fact,
    target: Fact,
    raw_spread: Fact,
    finish_spread: Fact,
    tables: TableSpread,
    published: Sequence[PublishedYield],
) -> HandbookRatio:
    """Mass balance joined with the published yields of the food. Moistures in % wet basis."""
    balance = mass_balance(water.value, target.value)
    variance = batch_variance(water, raw_spread, finish_spread)
    voices = one_for_each_source([p.comparison for p in published])
    belief = handbook_belief(balance, variance, tables, voices)
    predictive = belief.predictive()
    lines = [
        f"Raw: {water.value:g} % water, so {100 - water.value:.4g} % solids   [{water.source}]",
        f"Dried: {target.value:g} % water, so {100 - target.value:.4g} % solids"
        f"{f' ({target.note})' if target.note else ''}   [{target.source}]",
        f"Mass balance: {100 - water.value:.4g} ÷ {100 - target.value:.4g} "
        f"= {math.exp(balance):.3f} dried for 1 prepared",
        *(p.words for p in published),
    ]
    if published:
        lines.append(f"Joined with {_tables(len(voices))}: {predictive.value:.3f}")
    lines.append(
        f"Strays from batch to batch by {100 * math.sqrt(variance):.0f} % (raw water, finish), and published "
        f"yields by a further {100 * math.sqrt(tables.food + tables.kitchen):.0f} % (SD, {tables.rows} comparisons)"
    )
    lines.append(f"Handbook: {predictive.value:.3f}, {_between(predictive)}")
    basis = merge_bases(
        [water.basis, target.basis], (p.basis for p in published), [raw_spread.basis, finish_spread.basis]
    )
    return HandbookRatio(Ratio(predictive.value, predictive, basis, tuple(lines)), belief)


def _between(predictive: Predictive) -> str:
    return f"80 % between {predictive.low:.3f} and {predictive.high:.3f}"


def _tables(n: int) -> str:
    return "the published yield" if n == 1 else f"{n} publications, each one voice"


def by_own(batches: Sequence[OwnBatch]) -> Ratio | None:
    """Her own batches alone, those of the form asked for where there are any; None where she has none."""
    used = [b for b in batches if b.same] or list(batches)
    if not used:
        return None
    logs = [math.log(b.ratio) for b in used]
    predictive, value = alone(logs), math.exp(math.fsum(logs) / len(logs))
    lines = [f"Your batches (n={len(used)}): {value:.3f} dried for 1 prepared, the mean of their logarithms"]
    if predictive is not None:
        lines.append(f"By themselves: {_between(predictive)}")
    else:
        lines.append("One batch alone shows no spread, so it makes no interval")
    return Ratio(value, predictive, (Basis("own", "dried ÷ prepared", len(used)),), tuple(lines))


def joined(handbook: HandbookRatio | None, batches: Sequence[OwnBatch]) -> Ratio | None:
    """The handbook's belief after her own batches; each alone where the other is missing."""
    own = by_own(batches)
    if handbook is None or own is None:
        return handbook.ratio if handbook is not None else own
    counts = [1.0 if b.same else OTHER_FORM_COUNTS for b in batches]
    logs = [math.log(b.ratio) for b in batches]
    prior = handbook.belief
    predictive = prior.after(logs, counts).predictive()
    n = math.fsum(counts)
    mean = math.exp(math.fsum(c * y for c, y in zip(counts, logs, strict=True)) / n)
    others = sum(not b.same for b in batches)
    lines = [
        *handbook.ratio.workings,
        *own.workings,
        f"Joined: the handbook weighs as much as {prior.weight:.2g} batches, yours as {n:g}"
        + (f" ({others} of another form count {OTHER_FORM_COUNTS:g} each)" if others else ""),
        f"exp[({prior.weight:.2f} × ln {handbook.ratio.value:.3f} + {n:g} × ln {mean:.3f}) "
        f"÷ {prior.weight + n:.2f}] = {predictive.value:.3f}, {_between(predictive)}",
    ]
    assumed = [Basis("assumption", f"the handbook's spread is worth {SPREAD_WORTH + 1:.0f} batches")]
    if others:
        assumed.append(Basis("assumption", f"a batch of another form counts {OTHER_FORM_COUNTS:g}"))
    every = (Basis("own", "dried ÷ prepared", len(batches)),)
    return Ratio(predictive.value, predictive, merge_bases(every, handbook.ratio.basis, assumed), tuple(lines))
