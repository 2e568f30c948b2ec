"""What food weighs before it is cooked: by her own weights before and after the pot, else as published."""

from __future__ import annotations

from statistics import median

from dryhouse.handbook.cooking_yields import cooking_yield
from dryhouse.handbook.tables import Food
from dryhouse.kitchen.batches.loads import published_cooked
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.records import Batch
from dryhouse.kitchen.records.batches import FINISHED
from dryhouse.science.values import Basis, Fact, Figure
from dryhouse.science.workings import StepKind as Kind
from dryhouse.science.workings import step

OWN = "weights before and after cooking in own batches"


def own_cooking(kitchen: Kitchen, food: Food) -> Fact | None:
    """Grams cooked for a gram raw or dry in her own batches: the middle one, `n` of them; None where none has both
    weights."""
    if not published_cooked(food):
        return None
    weighed = [
        batch.cooked_mass_out.si / batch.cooked_mass_in.si
        for batch in kitchen.journal.where(Batch, food=food.slug, state=FINISHED)
        if batch.cooked_mass_in is not None and batch.cooked_mass_out is not None
    ]
    if not weighed:
        return None
    return Fact(median(weighed), "g/g", OWN, "entered", low=min(weighed), high=max(weighed), n=len(weighed))


def before_cooking(food: str, cooked: Figure | None, own: Fact | None = None) -> Figure | None:
    """What to buy raw or dry (g) for so much cooked food; None where nothing is weighed and nothing published.

    Raw = cooked ÷ (g cooked for a g raw), own batches first, else the handbook's cooking yields.
    """
    known = own or cooking_yield(food)
    if known is None or cooked is None:
        return None
    value = cooked.value / known.value
    low = None if cooked.low is None or known.high is None else cooked.low / known.high
    high = None if cooked.high is None or known.low is None else cooked.high / known.low
    line = step(Kind.BEFORE_COOKING, (value, "g"), cooked=(cooked.value, "g"), factor=known)
    basis = known.basis if own is None else Basis("own", OWN, own.n)
    return Figure(value, "g", low, high, basis=(basis,), workings=(*cooked.workings, line))
