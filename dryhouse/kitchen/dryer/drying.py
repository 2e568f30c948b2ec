"""What a person does while a batch dries: start it, weigh it, note what happened, take it off.

Reading how a batch stands is `runs`. Every act here checks what was typed against the batch it belongs to
and answers with what it changed, so that undo takes back exactly that.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import UTC, datetime, timedelta

from dryhouse.kitchen.batches.log import BatchDraft, batch_named, check_draft, parts_of
from dryhouse.kitchen.batches.naming import batch_name
from dryhouse.kitchen.dryer.doubts import DoubtfulWeight, doubt_of
from dryhouse.kitchen.dryer.typed_readings import Reading
from dryhouse.kitchen.foods.settled import marked_settled
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.ports import BatchQuery, Done, Pending
from dryhouse.kitchen.records import Batch, BatchEvent, BatchPart, Lot, Weighing
from dryhouse.kitchen.records.batches import DRYING, FINISHED, PLANNED
from dryhouse.kitchen.records.problems import refuse
from dryhouse.kitchen.records.weighings import LOAD, TAKEN_OFF, TRAY
from dryhouse.kitchen.search_words import number_typed
from dryhouse.kitchen.settings import style
from dryhouse.science.errors import InputProblem, NotKnown
from dryhouse.science.quantities import Mass, Volume
from dryhouse.words.dates import clock, weekday_clock

_HEAVIEST_TARE_G = 20_000.0
"""Trays, jars and even the dryer weighed along come to less: our own choice, far above what any of them weighs."""
AHEAD = timedelta(minutes=5)
"""How far the clock of whoever types may run ahead of ours before a moment counts as not yet come."""


def start_batch(kitchen: Kitchen, draft: Batch, parts: Iterable[BatchPart] = ()) -> Done[Batch]:
    """Put a batch on the dryer: `draft` names at least the food; a draft without a start begins now.

    A planned batch is started by giving its own record back with its number; the start it was planned for is
    not when it began. `parts` are the ingredients of a mix; for a planned batch those already recorded stay.
    Raises InputProblem.
    """
    ingredients = tuple(parts)
    before = kitchen.present(Batch, draft.id, "batch", "batch") if draft.id else None
    as_planned = before is not None and before.started == draft.started
    started = (kitchen.now() if draft.started is None or as_planned else draft.started).astimezone(UTC)
    batch = replace(draft, state=DRYING, started=started, ended=None)
    batch = replace(batch, food=check_draft(kitchen, BatchDraft(batch, ingredients)))
    _check_start(kitchen, batch)
    pending = Pending()
    if before is not None:
        if before.state != PLANNED:
            raise InputProblem(f"Batch {draft.id} has been started already; weigh it, or start another.")
        pending.edit(before, batch)
    else:
        batch = replace(batch, id=kitchen.journal.next_id(Batch))
        pending.add(batch)
    first = kitchen.journal.next_id(BatchPart)
    pending.add(*(replace(p, id=first + n, batch=batch.id, position=n) for n, p in enumerate(ingredients)))
    return kitchen.commit(f"Started drying {batch_name(kitchen, batch)}, batch {batch.id}", pending)


def add_weighing(
    kitchen: Kitchen,
    batch: int,
    reading: Reading,
    *,
    keep: bool = False,
    replacing: int = 0,
) -> Done[Weighing]:
    """Record one reading of the scale.

    Without a scope it is of whatever this batch was last weighed by, at first the whole load; on a tray that is
    named it is of that tray. Without a tare the one of the last weighing on the same tray, else of the same
    scope, counts again; `Mass(0)` says there is none. A reading that can't be true raises DoubtfulWeight; with
    `keep` it is written and left out of the curve. `replacing` is the number of a weighing that it takes the
    place of.
    """
    former = kitchen.present(Weighing, replacing, "weighing") if replacing else None
    earlier = tuple(w for w in weighings_of(kitchen, batch) if w.id != replacing)
    weighing = made_weighing(kitchen, batch, earlier, reading, keep=keep)
    pending = Pending()
    if former is not None:
        pending.remove(former)
    pending.add(replace(weighing, id=kitchen.journal.next_id(Weighing)))
    name = batch_name(kitchen, kitchen.present(Batch, batch, "batch", "batch"))
    aside = ", left out of the curve" if weighing.left_out else ""
    return kitchen.commit(f"Recorded {_shown(kitchen, weighing)} for {name}{aside}", pending)


def _shown(kitchen: Kitchen, weighing: Weighing) -> str:
    """What the scale showed, as typed where it has its unit."""
    typed = weighing.gross.typed
    return typed if any(c.isalpha() for c in typed) else style(kitchen).show(weighing.gross)


def made_weighing(
    kitchen: Kitchen,
    batch: int,
    earlier: Sequence[Weighing],
    reading: Reading,
    *,
    keep: bool = False,
) -> Weighing:
    """A reading as it is to be written beside the earlier ones, without a number yet; see `add_weighing`."""
    weighed = batch_on_dryer(kitchen, batch)
    scope = reading.scope or scope_for(earlier, reading.vessel)
    tare = reading.tare
    if tare is None:
        tare = remembered_tare(earlier, scope, reading.vessel)
    moment = (reading.at or kitchen.now()).astimezone(UTC)
    weighing = Weighing(batch, moment, reading.gross, tare, scope, reading.heat, reading.note, reading.vessel)
    _check_weighing(kitchen, weighed, weighing)
    made = _kept_or_asked(kitchen, weighed, weighing, earlier, keep=keep)
    _refuse_same_moment(weighing, earlier)
    return made


def _kept_or_asked(
    kitchen: Kitchen, batch: Batch, weighing: Weighing, others: Sequence[Weighing], *, keep: bool
) -> Weighing:
    """The weighing as it is to be written. Raises DoubtfulWeight where it is doubted and not to be kept."""
    doubt = doubt_of(kitchen, batch, weighing, others)
    if doubt is not None and not keep:
        raise DoubtfulWeight(doubt)
    return replace(weighing, left_out=True) if doubt is not None else weighing


def correct_weighing(kitchen: Kitchen, corrected: Weighing, *, keep: bool = False) -> Done[Weighing]:
    """Put a weighing right: the record as it should be, with the number it has. Other numbers are judged as new
    ones are: where they can't be true DoubtfulWeight is raised, or with `keep` they are left out of the curve."""
    before = kitchen.journal.get(Weighing, corrected.id)
    if before is None:
        raise InputProblem("That weighing is no longer there; it may have been removed.")
    weighed = batch_on_dryer(kitchen, before.batch)
    corrected = replace(corrected, batch=before.batch)
    others = tuple(w for w in weighings_of(kitchen, before.batch) if w.id != corrected.id)
    _check_weighing(kitchen, weighed, corrected)
    _refuse_same_moment(corrected, others)
    if _numbers(corrected) != _numbers(before):
        corrected = _kept_or_asked(kitchen, weighed, replace(corrected, left_out=False), others, keep=keep)
    pending = Pending()
    pending.edit(before, corrected)
    return kitchen.commit(f"Corrected a weighing of {batch_name(kitchen, weighed)}", pending)


def _numbers(weighing: Weighing) -> tuple[object, ...]:
    """What makes a reading likely or not."""
    return weighing.gross.si, weighing.tare, weighing.at, weighing.scope, weighing.vessel


def leave_out(kitchen: Kitchen, *ids: int, out: bool = True) -> Done[Weighing]:
    """Leave weighings out of curve, verdict and forecast without removing them; or, with `out` false, take them
    in. Raises InputProblem."""
    found = [w for i in ids if (w := kitchen.journal.get(Weighing, i)) is not None and w.left_out != out]
    if not found:
        raise InputProblem("There is no such weighing to leave out." if out else "That weighing counts already.")
    pending = Pending()
    for weighing in found:
        pending.edit(weighing, replace(weighing, left_out=out))
    name = batch_name(kitchen, kitchen.present(Batch, found[0].batch, "batch", "batch"))
    what = "a weighing" if len(found) == 1 else f"{len(found)} weighings"
    return kitchen.commit(f"Left {what} of {name} out" if out else f"Took {what} of {name} in", pending)


def remove_weighing(kitchen: Kitchen, *ids: int) -> Done[Weighing]:
    """Take weighings out; undo brings them back. Raises InputProblem."""
    found = [w for i in ids if (w := kitchen.journal.get(Weighing, i)) is not None]
    if not found:
        raise InputProblem("There is no such weighing to remove.")
    pending = Pending()
    pending.remove(*found)
    name = batch_name(kitchen, kitchen.present(Batch, found[0].batch, "batch", "batch"))
    what = f"{len(found)} weighings"
    if len(found) == 1:
        (one,) = found
        what = f"the {clock(kitchen.local(one.at))} weighing ({_shown(kitchen, one)})"
    return kitchen.commit(f"Removed {what} of {name}", pending)


@dataclass(frozen=True, slots=True)
class CameOff:
    """What a batch came to when it was taken off. What is not said stays unrecorded, or as it was."""

    dried_mass: Mass | None = None
    dried_volume: Volume | None = None
    energy_kwh: float | None = None
    notes: str | None = None
    rating: int | None = None
    felt: str = ""

    def finished(self, batch: Batch) -> Batch:
        """The batch as it is when it has come off so; when that was is not said here."""
        return replace(
            batch,
            state=FINISHED,
            dried_mass=self.dried_mass or batch.dried_mass,
            dried_volume=self.dried_volume or batch.dried_volume,
            energy_kwh=batch.energy_kwh if self.energy_kwh is None else self.energy_kwh,
            notes=batch.notes if self.notes is None else self.notes,
            rating=batch.rating if self.rating is None else self.rating,
            felt=self.felt or batch.felt,
        )


_NOT_LOOKED_AT = CameOff()


def take_off(
    kitchen: Kitchen, batch: int, came: CameOff = _NOT_LOOKED_AT, *, at: datetime | None = None
) -> Done[Batch]:
    """Finish a batch, now where no moment is given. Raises InputProblem."""
    running = kitchen.present(Batch, batch, "batch", "batch")
    if running.state != DRYING:
        raise InputProblem(f"Batch {batch} is {running.state}, not drying; only a running batch can be taken off.")
    at = (at or kitchen.now()).astimezone(UTC)
    check_moment(kitchen, running, at)
    after = replace(came.finished(running), ended=at)
    pending = Pending()
    pending.edit(running, marked_settled(kitchen, after))
    pending.add(BatchEvent(batch, at, TAKEN_OFF, id=kitchen.journal.next_id(BatchEvent)))
    return kitchen.commit(f"Took {batch_name(kitchen, running)} off the dryer", pending)


def reopen(kitchen: Kitchen, batch: int) -> Done[Batch]:
    """Put a finished batch back on the dryer. What it weighed dried stays, as a weighing of that moment.

    Raises InputProblem.
    """
    finished = kitchen.present(Batch, batch, "batch", "batch")
    if finished.state != FINISHED:
        raise InputProblem(f"Batch {batch} is {finished.state}; only a finished batch can be put back.")
    if kitchen.journal.where(Lot, batch=batch):
        raise InputProblem("Some of this batch is packed; take the packing back before drying it further.")
    pending = Pending()
    back = replace(finished, state=DRYING, ended=None, dried_mass=None, dried_volume=None, felt="", settled=None)
    pending.edit(finished, back)
    pending.remove(*(e for e in events_of(kitchen, batch) if e.kind == TAKEN_OFF))
    if finished.dried_mass is not None and finished.ended is not None:
        earlier = weighings_of(kitchen, batch)
        if not any(w.at == finished.ended and w.scope == LOAD for w in earlier):
            tare = remembered_tare(earlier, LOAD)
            gross = Mass(finished.dried_mass.si + tare.si) if tare else finished.dried_mass
            number = kitchen.journal.next_id(Weighing)
            pending.add(
                Weighing(batch, finished.ended, gross, tare, LOAD, note="weighed when taken off", id=number)
            )
    return kitchen.commit(f"Put {batch_name(kitchen, finished)} back on the dryer", pending)


# --- reading what the acts need ----------------------------------------------------------------------------


def running_batch_named(kitchen: Kitchen, text: str) -> Batch:
    """The batch of this number, or the one on a dryer whose food or title has this name. Raises InputProblem."""
    if number_typed(text) is not None:
        return batch_named(kitchen, text)
    ids = kitchen.journal.batch_ids(BatchQuery(text=text, states=(DRYING,)))
    if len(ids) == 1:
        return kitchen.present(Batch, ids[0], "batch", "batch")
    if ids:
        listed = ", ".join(str(i) for i in sorted(ids))
        raise InputProblem(f"More than one running batch is called “{text}” ({listed}); give its number.", "batch")
    raise NotKnown(f"No running batch is called “{text}”.", "batch")


def weighings_of(kitchen: Kitchen, batch: int) -> tuple[Weighing, ...]:
    """The weighings of a batch in the order they were made."""
    return tuple(sorted(kitchen.journal.where(Weighing, batch=batch), key=lambda w: (w.at, w.id)))


def events_of(kitchen: Kitchen, batch: int) -> tuple[BatchEvent, ...]:
    """The events of a batch in the order they happened."""
    return tuple(sorted(kitchen.journal.where(BatchEvent, batch=batch), key=lambda e: (e.at, e.id)))


def remembered_tare(weighings: Iterable[Weighing], scope: str, vessel: str = "") -> Mass | None:
    """The tare of the last weighing on that tray or in that jar; where none is named, of that scope; or None."""
    known = reversed(tuple(weighings))
    if vessel:
        return next((w.tare for w in known if w.vessel == vessel), None)
    return next((w.tare for w in known if w.scope == scope), None)


def scope_for(weighings: Sequence[Weighing], vessel: str = "") -> str:
    """What a reading is of, where that is not said: as that tray was weighed before, a tray of its own where one is
    named, else as the last reading; at first the whole load."""
    before = next((w.scope for w in reversed(weighings) if w.vessel == vessel), None)
    if before is not None and (vessel or before != TRAY):
        return before
    if vessel:
        return TRAY if vessel.startswith("tray") else LOAD
    return next((w.scope for w in reversed(weighings) if w.scope != TRAY), LOAD)


def loaded_g(kitchen: Kitchen, batch: Batch) -> float | None:
    """Grams recorded as loaded: weighed, out of the pot, or the ingredients of a mix; None where none is."""
    weighed = batch.prepared_mass or batch.cooked_mass_out
    if weighed is not None:
        return weighed.si
    parts = parts_of(kitchen, batch.id)
    return sum(p.mass.si for p in parts) if parts else None


def far_too_heavy(kitchen: Kitchen, batch: Batch, weighing: Weighing) -> str:
    """Why a reading cannot be right, where it is past what was loaded and any tare; else nothing."""
    loaded = loaded_g(kitchen, batch)
    if loaded is None or weighing.net_g <= loaded + _HEAVIEST_TARE_G:
        return ""
    notation = style(kitchen)
    return (
        f"{_said(weighing.gross)} is far more than the {notation.mass(loaded)} that was loaded, whatever tray or "
        "jar was weighed along; check the number and its unit."
    )


# --- checks ------------------------------------------------------------------------------------------------


def _said(mass: Mass) -> str:
    return mass.typed or f"{mass.si:.0f} g"


def batch_on_dryer(kitchen: Kitchen, batch: int) -> Batch:
    """The batch, where it has been started. Raises InputProblem."""
    found = kitchen.present(Batch, batch, "batch", "batch")
    if found.state == PLANNED:
        raise InputProblem(f"Batch {batch} is planned and not yet started; start it first.", "batch")
    return found


def _check_start(kitchen: Kitchen, batch: Batch) -> None:
    assert batch.started is not None
    if batch.started > kitchen.now() + AHEAD:
        raise InputProblem("The start has not come yet; leave it empty to start now.", "started")


def check_moment(kitchen: Kitchen, batch: Batch, at: datetime) -> None:
    """Raises InputProblem where a moment has not come yet, or lies before the batch."""
    if at > kitchen.now() + AHEAD:
        raise InputProblem("That moment has not come yet; leave the time empty for now.", "at")
    if batch.started is not None and at < batch.started:
        meant, began = (weekday_clock(kitchen.local(moment)) for moment in (at, batch.started))
        raise InputProblem(
            f"{meant} is before the batch was started ({began}); correct the time or the start.", "at"
        )


def _check_weighing(kitchen: Kitchen, batch: Batch, weighing: Weighing) -> None:
    check_moment(kitchen, batch, weighing.at)
    refuse(weighing, kitchen.around())
    if doubt := far_too_heavy(kitchen, batch, weighing):
        raise InputProblem(doubt, "gross")


def _refuse_same_moment(weighing: Weighing, others: Iterable[Weighing]) -> None:
    if any((w.at, w.scope, w.vessel) == (weighing.at, weighing.scope, weighing.vessel) for w in others):
        raise InputProblem(
            "There is a weighing of that moment already; correct that one, or change the time.", "at"
        )
