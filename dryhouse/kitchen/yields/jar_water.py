"""The water of a jar: one answer, on whichever surface it is asked.

A lot of a weighed batch goes by what that batch weighed out, other dried food by the yield known of the food; how
much it takes up again is published of the food or its kind, and cooking notes on it correct that.
"""

from __future__ import annotations

from dryhouse.handbook.pot import pot
from dryhouse.handbook.staples import Staple
from dryhouse.handbook.tables import Food
from dryhouse.handbook.uptake import published_uptake
from dryhouse.kitchen.batches.loads import load_for, loaded_grams
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.records import Batch, BatchPart, CookingNote, CookingNotePart, Lot
from dryhouse.kitchen.yields.yields import yield_ratio
from dryhouse.science.dryness import adds_up
from dryhouse.science.errors import InputProblem
from dryhouse.science.rehydration import Correction, TakesUp, correction, taught_by
from dryhouse.science.values import Basis, Figure
from dryhouse.science.workings import StepKind as Kind
from dryhouse.science.workings import step


def takes_up(kitchen: Kitchen, food: Food, batch: Batch | None = None) -> TakesUp:
    """What is known of the water that this dried food, or a jar of this batch, takes up."""
    return TakesUp(published_uptake(food), jar_ratio(kitchen, food, batch), notes_on(kitchen, food))


def staple_water(staple: Staple, grams: float) -> Figure | None:
    """The water that so much of a staple takes up (ml); None where its figure is not known."""
    fact = staple.uptake
    if fact is None:
        return None
    each = (fact.value, "ml/g", fact.source)
    line = step(Kind.STAPLE_WATER, (grams * fact.value, "ml"), mass=(grams, "g"), each=each)
    return Figure(grams * fact.value, "ml", basis=(fact.basis,), workings=(line,))


def batch_of(kitchen: Kitchen, lot: Lot | None) -> Batch | None:
    """The batch a lot was packed from; None for what was bought, or where the batch is gone."""
    return None if lot is None or lot.batch is None else kitchen.journal.get(Batch, lot.batch)


def jar_ratio(kitchen: Kitchen, food: Food, batch: Batch | None = None) -> Figure | None:
    """Dried ÷ prepared by mass: as this batch weighed out, else as known of the food; None where nothing is."""
    own = None if batch is None else batch_ratio(food, batch)
    if own is not None and batch is not None and _adds_up(kitchen, batch):
        return own
    return known_ratio(kitchen, food)


def known_ratio(kitchen: Kitchen, food: Food) -> Figure | None:
    """Dried ÷ prepared by mass as estimated for the food; None where nothing is known of it."""
    try:
        return yield_ratio(kitchen, food)
    except InputProblem:
        return None


def batch_ratio(food: Food, batch: Batch) -> Figure | None:
    """Dried ÷ prepared by mass as this batch weighed out; None where a mass is missing."""
    fresh, dried = loaded_grams(food, batch), batch.dried_mass
    if fresh is None or dried is None or dried.si <= 0:
        return None
    value = dried.si / fresh
    line = step(Kind.BATCH_RATIO, value, dried=(dried.si, "g"), prepared=(fresh, "g"))
    return Figure(value, "g/g", basis=(Basis("own", "its own batch, weighed", 1),), workings=(line,))


def notes_on(kitchen: Kitchen, food: Food) -> Correction | None:
    """What cooking notes say of how this food came back.

    A note that gave no water and said how the whole pot came back has been counted with its meal.
    """
    taught = []
    for part in kitchen.journal.where(CookingNotePart, food=food.slug):
        note = kitchen.journal.get(CookingNote, part.note)
        if note is not None and not (note.came_back and note.water is None):
            taught.append(taught_by(part.came_back, None, 1.0, pot("note_step").value))
    return correction([t for t in taught if t is not None], pot("note_prior").value, food.name)


def _adds_up(kitchen: Kitchen, batch: Batch) -> bool:
    """Whether what the batch weighed dried can be; a batch of which too little is known is believed."""
    load = load_for(kitchen, batch, kitchen.journal.where(BatchPart, batch=batch.id))
    if load is None or batch.dried_mass is None:
        return True
    return adds_up(load, batch.dried_mass.si)
