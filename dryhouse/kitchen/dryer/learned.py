"""What all weighings of a batch taught of its dry matter, kept with it once it is off the dryer.

So that one load has one answer: what the strip said with its curve, the card, the list and the shelf say too. It is
worked out anew with whatever it rests on, by the act that changes that, and is as it was once that act is undone.
Tests of other loads change no load that is off: they were not known when it was judged.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.ports import Change
from dryhouse.kitchen.records import Batch, BatchEvent, BatchPart, OwnFigure, OwnFood, Weighing
from dryhouse.kitchen.records.batches import DRYING, FINISHED
from dryhouse.kitchen.records.learned import batch_of, forgotten, mark_of
from dryhouse.science.errors import InputProblem

if TYPE_CHECKING:
    from dryhouse.kitchen.dryer.runs import DryingRun
    from dryhouse.science.dry_matter import Between

TEACHES = 3
"""Fewer weighings say no more than the last of them does."""


def learned_anew(kitchen: Kitchen, changes: Sequence[Change]) -> list[Change]:
    """The batches whose weighings teach something else once these changes are written, with what they teach now."""
    records = [record for c in changes for record in (c.before, c.after) if record is not None]
    found = {number: kitchen.journal.get(Batch, number) for number in map(batch_of, records) if number}
    edits = [(batch, with_learned(kitchen, batch)) for batch in found.values() if batch is not None]
    foods = {r.food for r in records if isinstance(r, OwnFigure) and r.name == "water"}
    foods |= {r.slug for r in records if isinstance(r, OwnFood)}
    for batch in kitchen.journal.where(Batch, food=tuple(foods)) if foods else ():
        if batch.curve_dry is not None and batch.id not in found:
            edits.append((batch, with_learned(kitchen, forgotten(batch))))
    return [Change(before, after) for before, after in edits if before != after]


def with_learned(kitchen: Kitchen, batch: Batch) -> Batch:
    """The batch with what its weighings taught, where it is off the dryer; else without. What was worked out from
    the same records stands."""
    if batch.state != FINISHED or batch.dried_mass is None:
        return forgotten(batch)
    weighings = kitchen.journal.where(Weighing, batch=batch.id)
    if sum(not w.left_out for w in weighings) < TEACHES or batch.settled:
        return forgotten(batch)
    events = kitchen.journal.where(BatchEvent, batch=batch.id)
    mark = mark_of([batch, *weighings, *events, *kitchen.journal.where(BatchPart, batch=batch.id)])
    if batch.curve_mark == mark and batch.curve_dry is not None:
        return batch
    from dryhouse.kitchen.dryer.runs import run_as  # brings NumPy

    try:
        run = run_as(kitchen, forgotten(replace(batch, state=DRYING, dried_mass=None)))
    except InputProblem:
        return forgotten(batch)
    return as_taken_off(run, batch, mark)


def as_taken_off(run: DryingRun, batch: Batch, mark: int = 0) -> Batch:
    """The batch with the dry matter as the run on the dryer knew it, and as its dried weight allows."""
    found = _taught(run, batch)
    if found is None:
        return forgotten(batch)
    return replace(batch, curve_low=found.low, curve_dry=found.value, curve_high=found.high, curve_mark=mark)


def _taught(run: DryingRun, batch: Batch) -> Between | None:
    taught, load, net, dried = run.expected.taught, run.load, run.net_g, batch.dried_mass
    if taught is None or load is None or net is None or dried is None:
        return None
    from dryhouse.science.dry_matter import belief_between
    from dryhouse.science.moisture import scale_step

    step, share = scale_step(load) / load.grams, dried.si / (run.whole or load).grams
    return belief_between(taught).weighed(share, step).between if share < net / load.grams - step else taught
