"""What her own earlier runs of a food say about the next one: Page's curve of each, moved to its temperature.

A run counts where it is finished, has at least five weighings of one scope, and its dry matter is known. The
fits are kept by the weighings they were made from, so that one more weighing of another batch costs none.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import TypeVar

from dryhouse.handbook.tables import Food
from dryhouse.kitchen.batches.loads import load_for, loaded_grams
from dryhouse.kitchen.dryer.running_time import clock_of
from dryhouse.kitchen.dryer.whole_load import aside_of
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.ports import BatchQuery, YieldPair
from dryhouse.kitchen.records import Batch, BatchEvent, BatchPart, Weighing
from dryhouse.kitchen.records.batches import FINISHED
from dryhouse.kitchen.records.weighings import LOAD, SAMPLE
from dryhouse.science.curves import model
from dryhouse.science.curves.fitting import fit
from dryhouse.science.forecast import Prior, arrhenius_step
from dryhouse.science.values import Basis, Fact
from dryhouse.science.workings import StepKind as Kind
from dryhouse.science.workings import step

FEWEST_WEIGHINGS = 5
NEWEST = 12
"""So many of her newest batches of the food are looked at: more would hardly move the middle or the spread."""
SPREAD_LN_RATE, SPREAD_N = 0.3, 0.2
"""Run to run spread of ln(rate) and of n supposed before her own runs show theirs, worth `WORTH` runs.
Assumptions of this program, named in the workings."""
WORTH = 2.0
SPREAD_OF_DURATIONS = 0.35
"""Least spread of ln(rate) where only the hours of whole batches are known (assumption)."""


@dataclass(frozen=True, slots=True)
class EarlierRun:
    """One finished run: Page's rate k^(1/n) in 1/h, its n, and the dryer's temperature where recorded."""

    batch: int
    form: str
    rate: float
    n: float
    temperature_c: float | None
    weighings: int


def earlier_runs(kitchen: Kitchen, food: Food, *, but: int = 0) -> tuple[EarlierRun, ...]:
    """Her newest usable runs of the food, newest first; `but` is left out."""
    ids = tuple(i for i in kitchen.journal.batch_ids(BatchQuery(foods=(food.slug,), states=(FINISHED,)))[:NEWEST])
    ids = tuple(i for i in ids if i != but)
    if not ids:
        return ()
    by_batch = _grouped(tuple(w for w in kitchen.journal.where(Weighing, batch=ids) if not w.left_out))
    enough = tuple(i for i in ids if len(by_batch.get(i, ())) >= FEWEST_WEIGHINGS)
    if not enough:
        return ()
    batches = {b.id: b for b in kitchen.journal.where(Batch, id=enough)}
    events = _grouped(kitchen.journal.where(BatchEvent, batch=enough))
    parts = _grouped(kitchen.journal.where(BatchPart, batch=enough))
    found = (
        _earlier_run(kitchen, food, batches[i], by_batch[i], events.get(i, []), parts.get(i, []))
        for i in enough
        if i in batches
    )
    return tuple(run for run in found if run is not None)


T = TypeVar("T", Weighing, BatchEvent, BatchPart)


def _grouped(records: Sequence[T]) -> dict[int, list[T]]:
    groups: dict[int, list[T]] = {}
    for record in records:
        groups.setdefault(record.batch, []).append(record)
    return groups


def _earlier_run(
    kitchen: Kitchen,
    food: Food,
    batch: Batch,
    weighings: Sequence[Weighing],
    events: Sequence[BatchEvent],
    parts: Sequence[BatchPart],
) -> EarlierRun | None:
    sample = sum(w.scope == SAMPLE for w in weighings)
    scope = SAMPLE if sample > len(weighings) - sample else LOAD
    mine = sorted((w for w in weighings if w.scope == scope), key=lambda w: (w.at, w.id))
    if batch.started is None or len(mine) < FEWEST_WEIGHINGS:
        return None
    grams = (loaded_grams(food, batch) if scope == LOAD else None) or mine[0].net_g
    load = load_for(kitchen, batch, parts, grams=grams, food=food)
    if load is None or load.grams <= load.solids:
        return None
    clock, aside = clock_of(batch.started, events), aside_of(batch, weighings, events)

    def grams_of(weighing: Weighing) -> float:
        """With what of the load was off the dryer."""
        return weighing.net_g + (aside.grams(weighing.at) if scope == LOAD else 0.0)

    points = {clock.hours(w.at): (grams_of(w) - load.solids) / (load.grams - load.solids) for w in mine}
    if scope == LOAD and min(points) > 0.02:
        points[0.0] = 1.0
    if scope == LOAD and batch.dried_mass is not None and batch.ended is not None:
        off = clock.hours(batch.ended)
        if off > max(points) + 0.02:
            points[off] = (batch.dried_mass.si - load.solids) / (load.grams - load.solids)
    hours = tuple(sorted(points))
    page = _page(tuple(h - hours[0] for h in hours), tuple(points[h] for h in hours))
    if page is None:
        return None
    heat = batch.set_temperature.si if batch.set_temperature else None
    return EarlierRun(batch.id, batch.form, page[0], page[1], heat, len(mine))


@lru_cache(maxsize=512)
def _page(hours: tuple[float, ...], mr: tuple[float, ...]) -> tuple[float, float] | None:
    """(k^(1/n) in 1/h, n) of Page through a run; None where it does not look like drying."""
    import numpy as np

    if len(hours) < FEWEST_WEIGHINGS or mr[-1] > 0.7 or mr[-1] < -0.05:
        return None
    fitted = fit(model("Page"), np.asarray(hours), np.asarray(mr))
    k, n = fitted.parameters["k"][0], fitted.parameters["n"][0]
    if fitted.r2 < 0.9 or k <= 0:
        return None
    return float(k ** (1.0 / n)), float(n)


def prior_from(
    runs: Sequence[EarlierRun], *, form: str, temperature_c: float | None, activation: Fact | None
) -> Prior | None:
    """What the runs lead one to expect, or None where there are none.

    Runs of the same cut are used where there are any. A run at another temperature is moved by Arrhenius,
    ln k moves by −Ea/R (1/T' − 1/T) and the rate k^(1/n) by an n-th of that, where both temperatures and an
    activation energy (kJ/mol) are known. The spread is pooled with the supposed one and widened for the number
    of runs.
    """
    chosen = [r for r in runs if form and r.form == form] or list(runs)
    if not chosen:
        return None
    logs = [math.log(r.rate) + _shift(r, temperature_c, activation) for r in chosen]
    log_rate, sd_rate = _pooled(logs, SPREAD_LN_RATE)
    n, sd_n = _pooled([r.n for r in chosen], SPREAD_N)
    count = len(chosen)
    moved = [r for r in chosen if _shift(r, temperature_c, activation)]
    lines = [step(Kind.OWN_RUNS, n=count, rate=math.exp(log_rate), exponent=n)]
    if moved and activation is not None and temperature_c is not None:
        energy = (activation.value, "kJ/mol", activation.source)
        lines.append(step(Kind.RUNS_MOVED, n=len(moved), heat=(temperature_c, "degC"), energy=energy))
    spread, supposed = (100.0 * (math.exp(sd) - 1.0) for sd in (sd_rate, SPREAD_LN_RATE))
    lines.append(step(Kind.RUNS_SPREAD, spread=(spread, "%"), supposed=(supposed, "%")))
    return Prior(math.exp(log_rate) ** n, n, sd_rate, sd_n, Basis("own", "earlier runs", count), tuple(lines))


def prior_from_durations(
    pairs: Sequence[YieldPair], *, ratio: float, temperature_c: float | None, activation: Fact | None
) -> Prior | None:
    """What her logged batches lead one to expect where none was weighed on the way: first order, reaching the
    moisture ratio of the target in the hours they took. Loosely held, since a batch may lie on longer than it
    needs. None where no batch has its hours."""
    if not 0.0 < ratio < 1.0:
        return None
    runs = [
        EarlierRun(p.batch, p.form, -math.log(ratio) / p.hours, 1.0, p.set_temperature_c, 0)
        for p in sorted(pairs, key=lambda p: p.batch)[-NEWEST:]
        if p.hours is not None and p.hours > 0.5
    ]
    if not runs:
        return None
    logs = [math.log(r.rate) + _shift(r, temperature_c, activation) for r in runs]
    log_rate, sd = _pooled(logs, SPREAD_LN_RATE)
    hours = -math.log(ratio) / math.exp(log_rate)
    line = step(Kind.LOGGED_HOURS, (hours, "h"), n=len(runs))
    basis = Basis("own", "hours of logged batches", len(runs))
    return Prior(math.exp(log_rate), 1.0, max(sd, SPREAD_OF_DURATIONS), SPREAD_N, basis, (line,))


def _shift(run: EarlierRun, wanted_c: float | None, activation: Fact | None) -> float:
    if run.temperature_c is None or wanted_c is None or activation is None:
        return 0.0
    return arrhenius_step(activation.value, run.temperature_c, wanted_c) / run.n


def _pooled(values: Sequence[float], supposed: float) -> tuple[float, float]:
    """Mean and the spread of the next value: the supposed variance worth `WORTH` runs, and the mean's own error."""
    mean = sum(values) / len(values)
    squares = sum((v - mean) ** 2 for v in values)
    variance = (WORTH * supposed**2 + squares) / (WORTH + len(values) - 1)
    return mean, math.sqrt(variance * (1.0 + 1.0 / len(values)))
