"""Logging a tray batch: the main act, and its editing and removing."""

from __future__ import annotations

from dataclasses import dataclass, replace

from dryhouse.kitchen.batches.loads import load_for
from dryhouse.kitchen.batches.naming import batch_name
from dryhouse.kitchen.foods.catalog import food
from dryhouse.kitchen.foods.settled import marked_settled
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.ports import BatchQuery, Change, Done, Pending, Record
from dryhouse.kitchen.records import Batch, BatchEvent, BatchPart, Lot, MealPart, Weighing
from dryhouse.kitchen.records.problems import problems, refuse
from dryhouse.kitchen.records.shapes import shapes
from dryhouse.kitchen.search_words import numbered
from dryhouse.science.errors import InputProblem
from dryhouse.words.dates import day_words
from dryhouse.words.names import called


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

    Habits are remembered: cut, thickness, pretreatment, dryer, trays, set temperature. Nothing that was measured
    is, and nothing that answers a stop: what the food was made from and how it was heated are asked every time.
    """
    known = food(kitchen, text)
    last = last_batch_of(kitchen, known.slug)
    if last is None:
        return BatchDraft(Batch(known.slug))
    return BatchDraft(Batch(known.slug, **{name: getattr(last, name) for name in HABITS}))


HABITS = tuple(shape.name for shape in shapes(Batch) if shape.about.kept)
"""The fields that are remembered from batch to batch of one food."""


def draft_like(kitchen: Kitchen, batch: Batch) -> BatchDraft:
    """The same again: a new batch done as this one was, with its name and, of a mix, its ingredients.

    Nothing that was measured is taken over, and nothing that answers a stop.
    """
    habits = {name: getattr(batch, name) for name in ("title", *HABITS)}
    return BatchDraft(Batch(batch.food, **habits), parts_of(kitchen, batch.id))


def filled_like(draft: BatchDraft, former: BatchDraft) -> BatchDraft:
    """The draft, with what it leaves open as in the former one."""
    mine, theirs = draft.batch, former.batch
    open_ = {n: getattr(theirs, n) for n in ("title", *HABITS) if getattr(mine, n) in (None, "")}
    return BatchDraft(replace(mine, **open_), draft.parts or former.parts)


def parts_of(kitchen: Kitchen, batch: int) -> tuple[BatchPart, ...]:
    """The ingredients of a mix, in order; none for a single food."""
    return tuple(sorted(kitchen.journal.where(BatchPart, batch=batch), key=lambda p: p.position))


def batch_named(kitchen: Kitchen, text: str) -> Batch:
    """The batch of this number, as it was typed. Raises NotKnown."""
    return numbered(kitchen, Batch, text, "batch")


def log_batch(kitchen: Kitchen, draft: BatchDraft) -> Done[Batch]:
    """Record a batch. Raises InputProblem, naming the field, where something in it cannot be right."""
    known = check_draft(kitchen, draft)
    id = kitchen.journal.next_id(Batch)
    pending = Pending()
    pending.add(replace(_marked_tested(draft.batch), food=known, id=id), *_numbered(kitchen, draft.parts, id))
    name = called(draft.batch, food(kitchen, known).name)
    return kitchen.commit(f"Logged {name}, batch {id}", pending)


def _marked_tested(batch: Batch, before: Batch | None = None) -> Batch:
    """A batch with a dry-matter test is one whose moisture was tested; without it again, what it was."""
    if batch.test_dry is not None:
        return replace(batch, start_moisture_tested=True)
    taken_out = before is not None and before.test_dry is not None
    return replace(batch, start_moisture_tested=None) if taken_out and batch.start_moisture_pct is None else batch


def edit_batch(kitchen: Kitchen, id: int, draft: BatchDraft) -> Done[Batch]:
    """Change a batch and its ingredients to what the draft says. Its lots become lots of the right food with it."""
    before = kitchen.present(Batch, id, "batch", "batch")
    draft = replace(draft, batch=_marked_tested(draft.batch, before))
    known = check_draft(kitchen, draft)
    after = marked_settled(kitchen, replace(draft.batch, food=known, id=id))
    pending = Pending()
    pending.edit(before, after)
    if known != before.food:
        _rename_lots(kitchen, id, before.food, known, pending)
    old = parts_of(kitchen, id)
    if [replace(p, id=0, batch=0) for p in old] != [replace(p, id=0, batch=0) for p in draft.parts]:
        if not pending.changes:
            pending.changes.append(Change(before, after))  # the act is about the batch, whose ingredients changed
        pending.remove(*old)
        pending.add(*_numbered(kitchen, draft.parts, id))
    return kitchen.commit(f"Changed batch {id}", pending)


def _rename_lots(kitchen: Kitchen, batch: int, was: str, food: str, pending: Pending) -> None:
    """The lots of a batch whose food was put right; meals that named one of them name only their own food."""
    for lot in kitchen.journal.where(Lot, batch=batch, food=was):
        pending.edit(lot, replace(lot, food=food))
        for part in kitchen.journal.where(MealPart, lot=lot.id):
            pending.edit(part, replace(part, lot=None))


def _told_apart(kitchen: Kitchen, batch: Batch) -> str:
    """`batch 12, apple of 10 Nov 2026`."""
    of = "" if batch.started is None else f" of {day_words(kitchen.local(batch.started).date())}"
    return f"batch {batch.id}, {batch_name(kitchen, batch)}{of}"


def delete_batch(kitchen: Kitchen, *ids: int) -> Done[Record]:
    """Remove batches with their ingredients, weighings and events. Their lots stay on the shelf, without them.

    Raises InputProblem for a mix with lots: only the batch says what is in them. Then none is removed.
    """
    pending = Pending()
    one = kitchen.journal.get(Batch, ids[0]) if len(set(ids)) == 1 else None
    for id in dict.fromkeys(ids):
        _delete(kitchen, id, pending)
    said = f"{len(set(ids))} batches" if one is None else _told_apart(kitchen, one)
    return kitchen.commit(f"Removed {said}", pending)


def _delete(kitchen: Kitchen, id: int, pending: Pending) -> None:
    batch = kitchen.present(Batch, id, "batch", "batch")
    lots, ingredients = kitchen.journal.where(Lot, batch=id), parts_of(kitchen, id)
    if lots and ingredients:
        raise InputProblem(
            f"Lots of batch {id} are on record, and only the batch says what is in them: it stays. "
            "Change it instead."
        )
    for lot in lots:
        pending.edit(lot, replace(lot, batch=None))
    pending.remove(*kitchen.journal.where(Weighing, batch=id))
    pending.remove(*kitchen.journal.where(BatchEvent, batch=id))
    pending.remove(*ingredients, batch)


def _numbered(kitchen: Kitchen, parts: tuple[BatchPart, ...], batch: int) -> list[BatchPart]:
    first = kitchen.journal.next_id(BatchPart)
    return [replace(p, id=first + i, batch=batch, position=i) for i, p in enumerate(parts)]


def check_draft(kitchen: Kitchen, draft: BatchDraft) -> str:
    """The slug of the draft's food; raises InputProblem for the first thing that cannot be right."""
    batch = draft.batch
    known = food(kitchen, batch.food).slug if batch.food.strip() else ""
    around = kitchen.around()
    refuse(replace(batch, food=known), around)
    for part in draft.parts:
        slug = food(kitchen, part.food).slug
        for problem in problems(replace(part, food=slug), around):
            if problem.field != "batch":
                raise InputProblem(problem.said, "parts")
    _check_target(kitchen, replace(batch, food=known), draft.parts)
    return known


def _check_target(kitchen: Kitchen, batch: Batch, parts: tuple[BatchPart, ...]) -> None:
    """Raises InputProblem where the moisture to dry to is no drier than what was loaded."""
    wanted = batch.target_moisture_pct
    load = None if wanted is None else load_for(kitchen, batch, parts)
    if load is not None and wanted is not None and wanted >= load.moisture_pct:
        raise InputProblem(
            f"The moisture to dry to ({wanted:g} %) is not below that of what was loaded "
            f"({load.moisture_pct:.0f} %).",
            "target_moisture_pct",
        )
