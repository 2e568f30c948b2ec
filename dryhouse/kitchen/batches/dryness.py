"""How dry a finished batch is, by its weights and by hand: one verdict for card, list, shelf, trip and label."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from dryhouse.handbook.tables import Food
from dryhouse.kitchen.batches.loads import keeping_target, load_for, target_for
from dryhouse.kitchen.batches.log import parts_of
from dryhouse.kitchen.foods.catalog import food as find_food
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.records import Batch, BatchPart
from dryhouse.science.dryness import Verdict, verdict
from dryhouse.science.errors import InputProblem
from dryhouse.science.moisture import Load
from dryhouse.science.statuses import Feel, Lack, VerdictName
from dryhouse.science.values import Fact

if TYPE_CHECKING:
    from dryhouse.science.dry_matter import Belief

NOT_WEIGHED = Verdict(VerdictName.UNKNOWN)
"""Of what is on no record, or on one that says too little."""
NOT_DRIED = Verdict(VerdictName.UNKNOWN, lacks=(Lack.DRIED,))
"""Of a batch whose dried weight is not recorded."""


def felt(batch: Batch) -> Feel | None:
    """How a cooled piece felt at the end; None where nobody has said."""
    return Feel(batch.felt) if batch.felt else None


def learned(batch: Batch) -> Belief | None:
    """The dry matter of a finished batch, as a share of its load, as its weighings taught it; None where too little
    was weighed on the way."""
    if batch.curve_low is None or batch.curve_dry is None or batch.curve_high is None:
        return None
    from dryhouse.science.dry_matter import Between, belief_between  # brings NumPy

    return belief_between(Between(batch.curve_low, batch.curve_dry, batch.curve_high))


def judged(batch: Batch, load: Load | None, target: Fact | None) -> Verdict:
    """The verdict on the dried mass of a batch with this load; *unknown* where too little was weighed."""
    dried = batch.dried_mass
    if load is None or target is None or dried is None or dried.si <= 0:
        loaded = batch.prepared_mass is not None or batch.cooked_mass_out is not None
        none = {
            Lack.LOADED: load is None and not loaded,
            Lack.START_MOISTURE: load is None and loaded,
            Lack.DRIED: dried is None or dried.si <= 0,
            Lack.TARGET: target is None,
        }
        return Verdict(VerdictName.UNKNOWN, lacks=tuple(lack for lack, lacking in none.items() if lacking))
    return verdict(load, dried.si, target, learned(batch), felt(batch))


def verdicts_of(
    kitchen: Kitchen, batch: Batch, parts: Sequence[BatchPart] | None = None, food: Food | None = None
) -> tuple[Verdict, Verdict]:
    """The verdict on a finished batch by its own target, and by the target of what keeps: the drier of its own and
    the published one. *Unknown* where too little was weighed."""
    if batch.dried_mass is None:
        return NOT_DRIED, NOT_DRIED
    try:
        food = food or find_food(kitchen, batch.food)
        load = load_for(kitchen, batch, parts_of(kitchen, batch.id) if parts is None else parts, food=food)
        own, keeping = target_for(kitchen, batch, food), keeping_target(kitchen, batch, food)
    except InputProblem:
        return NOT_WEIGHED, NOT_WEIGHED
    by_its_own = judged(batch, load, own)
    return by_its_own, by_its_own if own == keeping else judged(batch, load, keeping)
