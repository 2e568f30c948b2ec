"""Logging a tray batch: the main act, and its editing and removing."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import timedelta

from dryhouse.kitchen.batches.dryers import MOST_TRAYS
from dryhouse.kitchen.foods.catalog import food
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.ports import BatchQuery, Done, Pending
from dryhouse.kitchen.records import Batch, BatchEvent, BatchPart, Dryer, Lot, MealPart, Weighing
from dryhouse.kitchen.records.batches import FINISHED
from dryhouse.science.errors import InputProblem

_LONGEST = timedelta(days=30)
_COOLEST_C, _HOTTEST_C = 20.0, 150.0


@dataclass(frozen=True, slots=True)
class BatchDraft:
    """A batch as far as it has been filled in, with its ingredients where it is a mix."""

    batch: Batch
    parts: tuple[BatchPart, ...] = ()


def last_batch_of(kitchen: Kitchen, slug: str) -> Batch | None:
    """The newest batch of this food, or None."""
    ids = kitchen.journal.batch_ids(BatchQuery(foods=(slug,)))
    return kitchen.journal.get(Batch, ids[0]) if len(ids) else None


def draft_for(kitchen: Kitchen, text: str) -> BatchDraft:
    """A new batch of this food, remembering how the last one was done.

    Habits are remembered: cut, thickness, pretreatment, precook method, dryer, trays, set temperature.
    Nothing that was measured is: masses, times, and the temperature a precook reached start empty.
    """
    known = food(kitchen, text)
    last = last_batch_of(kitchen, known.slug)
    if last is None:
        return BatchDraft(Batch(known.slug))
    remembered = Batch(
        known.slug,
        form=last.form,
        thickness=last.thickness,
        made_from=last.made_from,
        pretreatment=last.pretreatment,
        precook_method=last.precook_method,
        dryer=last.dryer,
        trays=last.trays,
        set_temperature=last.set_temperature,
        target_moisture_pct=last.target_moisture_pct,
    )
    return BatchDraft(remembered)


def parts_of(kitchen: Kitchen, batch: int) -> tuple[BatchPart, ...]:
    """The ingredients of a mix, in order; none for a single food."""
    return tuple(sorted(kitchen.journal.where(BatchPart, batch=batch), key=lambda p: p.position))


def batch_named(kitchen: Kitchen, text: str) -> Batch:
    """The batch of this number. Raises InputProblem."""
    number = text.strip().lstrip("#")
    found = kitchen.journal.get(Batch, int(number)) if number.isdecimal() else None
    if found is None:
        raise InputProblem(f"There is no batch “{text}”; “dryhouse batches” lists their numbers.", "batch")
    return found


def log_batch(kitchen: Kitchen, draft: BatchDraft) -> Done:
    """Record a batch. Raises InputProblem, naming the field, where something in it cannot be right."""
    known = check(kitchen, draft)
    id = kitchen.journal.next_id(Batch)
    pending = Pending()
    pending.add(replace(draft.batch, food=known, id=id), *_numbered(kitchen, draft.parts, id))
    name = draft.batch.title or food(kitchen, known).name
    return kitchen.commit(f"Logged {name}, batch {id}", pending)


def edit_batch(kitchen: Kitchen, id: int, draft: BatchDraft) -> Done:
    """Change a batch and its ingredients to what the draft says. Its lots become lots of the right food with it."""
    before = _present(kitchen, id)
    known = check(kitchen, draft)
    after = replace(draft.batch, food=known, id=id)
    pending = Pending()
    pending.edit(before, after)
    if known != before.food:
        _rename_lots(kitchen, id, before.food, known, pending)
    old = parts_of(kitchen, id)
    if [replace(p, id=0, batch=0) for p in old] != [replace(p, id=0, batch=0) for p in draft.parts]:
        pending.remove(*old)
        pending.add(*_numbered(kitchen, draft.parts, id))
    return kitchen.commit(f"Changed batch {id}", pending)


def _rename_lots(kitchen: Kitchen, batch: int, was: str, food: str, pending: Pending) -> None:
    """The lots of a batch whose food was put right; meals that named one of them name only their own food."""
    for lot in kitchen.journal.where(Lot, batch=batch, food=was):
        pending.edit(lot, replace(lot, food=food))
        for part in kitchen.journal.where(MealPart, lot=lot.id):
            pending.edit(part, replace(part, lot=None))


def delete_batch(kitchen: Kitchen, id: int) -> Done:
    """Remove a batch with its ingredients, weighings and events. Its lots stay on the shelf, without it.

    Raises InputProblem for a mix with lots: only the batch says what is in them.
    """
    batch = _present(kitchen, id)
    lots, ingredients = kitchen.journal.where(Lot, batch=id), parts_of(kitchen, id)
    if lots and ingredients:
        raise InputProblem(
            f"Lots of batch {id} are on record, and only the batch says what is in them: it stays. "
            "Change it instead."
        )
    pending = Pending()
    for lot in lots:
        pending.edit(lot, replace(lot, batch=None))
    pending.remove(*kitchen.journal.where(Weighing, batch=id))
    pending.remove(*kitchen.journal.where(BatchEvent, batch=id))
    pending.remove(*ingredients, batch)
    return kitchen.commit(f"Removed batch {id}", pending)


def _present(kitchen: Kitchen, id: int) -> Batch:
    batch = kitchen.journal.get(Batch, id)
    if batch is None:
        raise InputProblem(f"Batch {id} is no longer here.")
    return batch


def _numbered(kitchen: Kitchen, parts: tuple[BatchPart, ...], batch: int) -> list[BatchPart]:
    first = kitchen.journal.next_id(BatchPart)
    return [replace(p, id=first + i, batch=batch, position=i) for i, p in enumerate(parts)]


def check(kitchen: Kitchen, draft: BatchDraft) -> str:
    """The slug of the draft's food; raises InputProblem for the first thing that cannot be right."""
    batch = draft.batch
    if not batch.food.strip():
        raise InputProblem("Which food was it? Type its name, such as sweet corn.", "food")
    known = food(kitchen, batch.food)
    for part in draft.parts:
        food(kitchen, part.food)
        if part.mass.si <= 0:
            raise InputProblem(f"How much {part.food} went in? A weight of nothing is not an ingredient.", "parts")
    _check_masses(batch)
    _check_times(kitchen, batch)
    _check_settings(kitchen, batch)
    return known.slug


_AMOUNTS = {
    "purchased_mass": "bought weight",
    "prepared_mass": "prepared weight",
    "prepared_volume": "prepared measure",
    "cooked_mass_in": "weight before cooking",
    "cooked_mass_out": "weight after cooking",
    "dried_mass": "dried weight",
    "dried_volume": "dried measure",
}


def _check_masses(batch: Batch) -> None:
    for name, what in _AMOUNTS.items():
        amount = getattr(batch, name)
        if amount is not None and amount.si <= 0:
            raise InputProblem(f"A {what} of nothing; leave it empty where it was not measured.", name)
    loaded, dried = batch.prepared_mass or batch.cooked_mass_out, batch.dried_mass
    if loaded is not None and dried is not None and dried.si >= loaded.si:
        raise InputProblem(
            f"{dried.typed or f'{dried.si:.0f} g'} dried is not less than the "
            f"{loaded.typed or f'{loaded.si:.0f} g'} loaded; drying only takes water away. "
            "Was a jar or tray weighed along, or are the two swapped?",
            "dried_mass",
        )


def _check_times(kitchen: Kitchen, batch: Batch) -> None:
    start, end = batch.started, batch.ended
    if start is not None and end is not None:
        if end <= start:
            raise InputProblem("The batch ends before it starts; check the two times.", "ended")
        if end - start > _LONGEST:
            raise InputProblem("That is more than 30 days in the dryer; check the two times.", "ended")
    soon = kitchen.now() + timedelta(days=1)
    if batch.state == FINISHED and any(t is not None and t > soon for t in (start, end)):
        raise InputProblem("A finished batch cannot lie in the future; check its times.", "started")


def _check_settings(kitchen: Kitchen, batch: Batch) -> None:
    heat = batch.set_temperature
    if heat is not None and not _COOLEST_C <= heat.si <= _HOTTEST_C:
        raise InputProblem(
            f"{heat.typed or f'{heat.si:.0f} °C'} is no temperature for drying food; did you mean the other scale? "
            "Write it like 135 F or 57 C.",
            "set_temperature",
        )
    for name, value in (
        ("kitchen_humidity_pct", batch.kitchen_humidity_pct),
        ("start_moisture_pct", batch.start_moisture_pct),
        ("target_moisture_pct", batch.target_moisture_pct),
    ):
        if value is not None and not 0 <= value < 100:
            raise InputProblem(f"{name[:-4].replace('_', ' ').capitalize()} lies between 0 and below 100 %.", name)
    start, target = batch.start_moisture_pct, batch.target_moisture_pct
    if start is not None and target is not None and target >= start:
        raise InputProblem("The target moisture must lie below the starting moisture.", "target_moisture_pct")
    if batch.rating is not None and not 1 <= batch.rating <= 5:
        raise InputProblem("A rating is 1 to 5.", "rating")
    if batch.trays is not None and batch.trays < 1:
        raise InputProblem("A batch fills at least one tray.", "trays")
    if batch.trays is not None and batch.trays > MOST_TRAYS:
        raise InputProblem(f"A dryer has at most {MOST_TRAYS} trays here, not {batch.trays}.", "trays")
    if batch.dryer is not None:
        dryer = kitchen.present(Dryer, batch.dryer, "dryer", "dryer")
        if batch.trays is not None and batch.trays > dryer.trays:
            raise InputProblem(f"The {dryer.name} has {dryer.trays} trays, not {batch.trays}.", "trays")
