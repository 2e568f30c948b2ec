"""Writing down what one line, or several pasted ones, say of a batch; and how they were understood, before that."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import datetime, timedelta

from dryhouse.kitchen.batches.naming import batch_name
from dryhouse.kitchen.dryer.doubts import DoubtfulWeight
from dryhouse.kitchen.dryer.drying import (
    add_weighing,
    made_weighing,
    remembered_tare,
    scope_for,
    weighings_of,
)
from dryhouse.kitchen.dryer.happenings import add_event
from dryhouse.kitchen.dryer.questions import Asked, answer
from dryhouse.kitchen.dryer.typed_happenings import ANSWERS, BRITTLE, WAS_OFF, Happening, read_happening
from dryhouse.kitchen.dryer.typed_readings import Notation, Reading, read_readings
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.ports import Done, Pending, Record
from dryhouse.kitchen.records import Batch, Weighing
from dryhouse.kitchen.records.weighings import LOAD, RAN, SAMPLE
from dryhouse.kitchen.typed_moments import Wall
from dryhouse.science.display import Style, counted
from dryhouse.words.dates import clock, weekday_clock

OF = {LOAD: "whole load", SAMPLE: "sample tray"}
"""What a scope is called; a single tray goes by its own name."""


Line = Happening | tuple[Reading, ...]
"""What a line says: something that happened, or readings of the scale."""


def read_line(wall: Wall, text: str, how: Notation, *, started: datetime | None = None) -> Line:
    """What was typed at the scale. Raises InputProblem."""
    return read_happening(wall, text, how) or read_readings(wall, text, how, started=started)


def note_happening(kitchen: Kitchen, batch: int, what: Happening) -> Done[Record]:
    """Write down what happened, or the answer to what is asked of the batch. Raises InputProblem."""
    if what.kind in ANSWERS:
        about = Asked.STOP if what.kind in (RAN, WAS_OFF) else Asked.LEVEL
        return answer(kitchen, batch, about, what.kind in (WAS_OFF, BRITTLE), at=what.at)
    return add_event(kitchen, batch, what)


def record_readings(
    kitchen: Kitchen, batch: int, readings: Sequence[Reading], *, keep: bool = False, replacing: int = 0
) -> Done[Weighing]:
    """Record readings in one act. One that can't be true raises DoubtfulWeight, and then nothing is written; with
    `keep` such ones are written and left out of the curve. `replacing` is for a single reading."""
    if len(readings) == 1:
        return add_weighing(kitchen, batch, readings[0], keep=keep, replacing=replacing)
    earlier = list(weighings_of(kitchen, batch))
    first = kitchen.journal.next_id(Weighing)
    fresh: list[Weighing] = []
    for number, reading in enumerate(readings):
        try:
            made = made_weighing(kitchen, batch, earlier, reading, keep=keep)
        except DoubtfulWeight as doubtful:
            doubt = doubtful.doubt
            raise DoubtfulWeight(
                replace(doubt, question=f"Line {number + 1}: {doubt.question}", replaces=0)
            ) from None
        fresh.append(replace(made, id=first + number))
        earlier = sorted([*earlier, fresh[-1]], key=lambda w: (w.at, w.id))
    pending = Pending()
    pending.add(*fresh)
    name = batch_name(kitchen, kitchen.present(Batch, batch, "batch", "batch"))
    left_out = sum(w.left_out for w in fresh)
    said = f", {left_out} of them left out of the curve" if left_out else ""
    return kitchen.commit(f"Recorded {counted(len(fresh), 'weighing')} of {name}{said}", pending)


def understood(
    kitchen: Kitchen, weighings: Sequence[Weighing], readings: Sequence[Reading], notation: Style
) -> str:
    """How readings were understood: `510 g net, yesterday 22:10, tray 3, tare 350 g as before`; of several the
    first and the last. `weighings` are those of the batch so far."""
    if len(readings) > 1:
        first, last = (_understood(kitchen, weighings, r, notation) for r in (readings[0], readings[-1]))
        return f"{counted(len(readings), 'reading')}: {first} … {last}"
    return _understood(kitchen, weighings, readings[0], notation)


def _when(kitchen: Kitchen, at: datetime) -> str:
    here, today = kitchen.local(at), kitchen.local(kitchen.now()).date()
    days = {today: clock(here), today - timedelta(days=1): f"yesterday {clock(here)}"}
    return days.get(here.date(), weekday_clock(here))


def _understood(kitchen: Kitchen, weighings: Sequence[Weighing], reading: Reading, notation: Style) -> str:
    scope = reading.scope or scope_for(weighings, reading.vessel)
    tare = reading.tare if reading.tare is not None else remembered_tare(weighings, scope, reading.vessel)
    said = [notation.mass(reading.gross.si)]
    if tare is not None and tare.si > 0:
        before = "" if reading.tare is not None else " as before"
        said = [
            f"{notation.mass(max(reading.gross.si - tare.si, 0.0))} net",
            f"tare {notation.mass(tare.si)}{before}",
        ]
    if reading.at is not None:
        said.append(_when(kitchen, reading.at))
    if reading.vessel or reading.scope:
        said.append(reading.vessel or OF.get(scope, scope))
    if reading.heat is not None:
        said.append(f"dryer {notation.temperature(reading.heat.si)}")
    return ", ".join((*said, *([f"“{reading.note}”"] if reading.note else [])))


def understood_happening(kitchen: Kitchen, what: Happening, notation: Style) -> str:
    """How a line about what happened was read: `tray taken off early, 88 g, 13:00`."""
    said = [what.kind if what.trays in (None, 1) else f"{what.kind} ({what.trays})"]
    said += [notation.temperature(what.temperature.si)] if what.temperature is not None else []
    said += [notation.mass(what.mass.si)] if what.mass is not None else []
    said += [f"to the {what.dryer}"] if what.dryer else []
    said += [_when(kitchen, what.at)] if what.at is not None else []
    return ", ".join((*said, *([f"“{what.note}”"] if what.note else [])))
