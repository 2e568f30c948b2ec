"""The yield of one food as a ratio dried ÷ prepared: by the handbook, by her own batches, and joined."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from dryhouse.science.messages import MessageKind as Told
from dryhouse.science.messages import message
from dryhouse.science.values import Basis, Fact, merge_bases
from dryhouse.science.workings import Step, Workings, step
from dryhouse.science.workings import StepKind as Kind
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
class PublishedRatio:
    """One published yield of this food, brought to dried ÷ prepared, with its arithmetic."""

    comparison: Comparison
    workings: tuple[Step, ...]
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
    published: Sequence[PublishedRatio],
) -> HandbookRatio:
    """Mass balance joined with the published yields of the food. Moistures in % wet basis."""
    balance = mass_balance(water.value, target.value)
    variance = batch_variance(water, raw_spread, finish_spread)
    voices = one_for_each_source([p.comparison for p in published])
    belief = handbook_belief(balance, variance, tables, voices)
    predictive = belief.predictive()
    raw, finished = (100.0 - water.value, "%"), (100.0 - target.value, "%")
    lines: list[Step] = [
        step(Kind.RAW_SOLIDS, raw, water=water),
        step(Kind.DRIED_SOLIDS_NOTE, finished, water=target, note=target.note)
        if target.note
        else step(Kind.DRIED_SOLIDS, finished, water=target),
        step(Kind.MASS_BALANCE, math.exp(balance), raw=raw, finished=finished),
        *(line for p in published for line in p.workings),
    ]
    if published:
        voice = Kind.PUBLICATIONS_WIDEN if belief.mean == balance else Kind.JOINED_PUBLICATIONS
        lines.append(step(voice, predictive.value, n=len(voices)))
    further = 100.0 * math.sqrt(tables.food + tables.kitchen)
    stray = (100.0 * math.sqrt(variance), "%")
    lines.append(step(Kind.YIELD_STRAYS, batches=stray, tables=(further, "%"), n=tables.rows))
    lines.append(step(Kind.HANDBOOK_YIELD, predictive.value, low=predictive.low, high=predictive.high))
    basis = merge_bases(
        [water.basis, target.basis], (p.basis for p in published), [raw_spread.basis, finish_spread.basis]
    )
    return HandbookRatio(Ratio(predictive.value, predictive, basis, tuple(lines)), belief)


def by_own(batches: Sequence[OwnBatch]) -> Ratio | None:
    """Her own batches alone, those of the form asked for where there are any; None where she has none."""
    used = [b for b in batches if b.same] or list(batches)
    if not used:
        return None
    logs = [math.log(b.ratio) for b in used]
    predictive, value = alone(logs), math.exp(math.fsum(logs) / len(logs))
    lines = [step(Kind.OWN_YIELD, value, n=len(used))]
    if predictive is not None:
        lines.append(step(Kind.OWN_YIELD_RANGE, low=predictive.low, high=predictive.high))
    else:
        lines.append(step(Kind.OWN_YIELD_ALONE))
    return Ratio(value, predictive, (Basis("own", n=len(used), said=message(Told.OWN_RATIOS)),), tuple(lines))


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
        step(Kind.JOINED_WEIGHTS_OTHERS, weight=prior.weight, n=n, others=others, each=OTHER_FORM_COUNTS)
        if others
        else step(Kind.JOINED_WEIGHTS, weight=prior.weight, n=n),
        step(
            Kind.JOINED_YIELD,
            predictive.value,
            weight=prior.weight,
            handbook=handbook.ratio.value,
            n=n,
            own=mean,
            together=prior.weight + n,
            low=predictive.low,
            high=predictive.high,
        ),
    ]
    assumed = [Basis("assumption", said=message(Told.HANDBOOK_SPREAD, worth=SPREAD_WORTH + 1))]
    if others:
        assumed.append(Basis("assumption", said=message(Told.OTHER_FORM, each=OTHER_FORM_COUNTS)))
    every = (Basis("own", n=len(batches), said=message(Told.OWN_RATIOS)),)
    return Ratio(predictive.value, predictive, merge_bases(every, handbook.ratio.basis, assumed), tuple(lines))
