"""What happens at the dryer beside weighing: turned, paused, heat changed, trays off early or in later, a note."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, timedelta

from dryhouse.kitchen.batches.dryers import find_dryer
from dryhouse.kitchen.batches.naming import batch_name
from dryhouse.kitchen.dryer.drying import batch_on_dryer, check_moment, events_of, loaded_g
from dryhouse.kitchen.dryer.running_time import paused_at
from dryhouse.kitchen.dryer.typed_happenings import Happening
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.ports import Done, Pending
from dryhouse.kitchen.records import Batch, BatchEvent
from dryhouse.kitchen.records.weighings import (
    EVENT_KINDS,
    HEAT_CHANGED,
    MOVED,
    NOTED,
    PAUSED,
    REMIND,
    RESUMED,
    TAKEN_OFF,
    TRAY_IN,
    TRAY_OFF,
)
from dryhouse.science.display import counted
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Mass

LONGEST_REMINDER = timedelta(hours=24)


def add_event(kitchen: Kitchen, batch: int, what: Happening) -> Done[BatchEvent]:
    """Note what happened. Food that is put in later is added to what the batch was loaded with; the note of trays
    that were moved names their dryer."""
    running = batch_on_dryer(kitchen, batch)
    note = find_dryer(kitchen, what.dryer).name if what.dryer else what.note.strip()
    at = (what.at or kitchen.now()).astimezone(UTC)
    event = BatchEvent(batch, at, what.kind, what.temperature, note, what.trays, what.mass)
    if event.kind != REMIND:
        check_moment(kitchen, running, event.at)
    _check(kitchen, running, event)
    pending = Pending()
    pending.add(replace(event, id=kitchen.journal.next_id(BatchEvent)))
    _add_to_load(pending, running, event, 1)
    return kitchen.commit(f"Noted “{event.kind}” for {batch_name(kitchen, running)}", pending)


def remove_event(kitchen: Kitchen, event: int) -> Done[BatchEvent]:
    """Take an event out, and with it what it added to the load; undo brings it back."""
    found = kitchen.present(BatchEvent, event, "event")
    pending = Pending()
    pending.remove(found)
    _add_to_load(pending, kitchen.present(Batch, found.batch, "batch", "batch"), found, -1)
    return kitchen.commit(f"Removed “{found.kind}”", pending)


def _add_to_load(pending: Pending, batch: Batch, event: BatchEvent, sign: int) -> None:
    """What is put in later belongs to what was loaded, where that is recorded."""
    if event.kind != TRAY_IN or event.mass is None or batch.prepared_mass is None:
        return
    grams = batch.prepared_mass.si + sign * event.mass.si
    trays = batch.trays + sign * (event.trays or 1) if batch.trays is not None else None
    pending.edit(batch, replace(batch, prepared_mass=Mass(grams, f"{grams:.6g} g"), trays=trays))


_ASKED_FOR = {
    HEAT_CHANGED: (
        "temperature", "Say what temperature the dryer was changed to, such as 135 F or 57 C.", "temperature",
    ),
    NOTED: ("note", "What should be noted? Type it, such as note: edges crisp already.", "note"),
    REMIND: ("note", "Say of what, and when within a day, such as soak 8 h or remind 14:30 turn trays.", "note"),
    TRAY_IN: ("mass", "What did the food that was put in weigh? Type it, such as tray in 250 g.", "mass"),
    MOVED: ("note", "Which dryer did they go to? Name it, such as 2 trays to the box dryer.", "dryer"),
}  # fmt: skip
"""What a happening says nothing without: its field, the sentence where it is missing, and the entry meant."""


def _check(kitchen: Kitchen, batch: Batch, event: BatchEvent) -> None:
    """Raises InputProblem for what cannot have happened to this batch at that moment."""
    kind = event.kind
    if kind == TAKEN_OFF or kind not in EVENT_KINDS:
        known = ", ".join(k for k in EVENT_KINDS if k != TAKEN_OFF)
        raise InputProblem(f"“{kind}” is not something that can be noted here; it is one of {known}.", "kind")
    needs, sentence, entry = _ASKED_FOR.get(kind, ("kind", "", ""))
    if not getattr(event, needs) or (kind == REMIND and event.at > kitchen.now() + LONGEST_REMINDER):
        raise InputProblem(sentence, entry)
    _check_trays(kitchen, batch, event)
    paused = paused_at(events_of(kitchen, batch.id), event.at)
    if kind == PAUSED and paused:
        raise InputProblem("This batch is paused already; resume it first.", "kind")
    if kind == RESUMED and not paused:
        raise InputProblem("This batch is not paused, so it cannot be resumed.", "kind")


def _check_trays(kitchen: Kitchen, batch: Batch, event: BatchEvent) -> None:
    """Raises InputProblem where more leaves the dryer than is in it."""
    kind, on = event.kind, batch.trays
    if kind in (TRAY_OFF, MOVED) and on is not None and (event.trays or 1) > on:
        raise InputProblem(f"This batch fills {counted(on, 'tray')}, not {event.trays}.", "trays")
    loaded = loaded_g(kitchen, batch)
    if kind == TRAY_OFF and event.mass is not None and loaded is not None and event.mass.si > loaded:
        raise InputProblem("That is more than all that was loaded; check the number and its unit.", "mass")
