"""What calls for her at the dryer and on the shelf, when, and what waits: quiet hours, and what she put off.

Never a word that food is done: a finish is a reason to weigh it and to check it by hand.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass, field
from datetime import UTC, datetime, time, timedelta

from dryhouse.kitchen.dryer.due_now import FINISH, PAST, Due, reminders_due
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.ports import BatchQuery
from dryhouse.kitchen.records import Batch, BatchEvent, Lot
from dryhouse.kitchen.records.batches import DRYING
from dryhouse.kitchen.records.weighings import REMIND
from dryhouse.kitchen.settings import preference
from dryhouse.kitchen.shelf.conditioning import conditioning_words
from dryhouse.science.errors import InputProblem

TIMER, CONDITIONING = "timer", "conditioning"
QUIET_KEY = "quiet_hours"
SNOOZE = timedelta(minutes=30)
_MOST_LOTS = 5000
"""With more the shelf is not gone through for a notice; it speaks of conditioning itself."""
MORNING = time(9, 0)
"""When the day's conditioning is spoken of (our own choice)."""


def alarms(kitchen: Kitchen) -> tuple[Due, ...]:
    """Everything that is due or will be, by time."""
    found = [*reminders_due(kitchen), *_timers(kitchen), *_conditioning(kitchen)]
    return tuple(sorted(found, key=lambda due: due.at))


def _timers(kitchen: Kitchen) -> list[Due]:
    """What she asked to be reminded of, such as the end of a soak."""
    ids = tuple(kitchen.journal.batch_ids(BatchQuery(states=(DRYING,))))
    if not ids:
        return []
    events = [e for e in kitchen.journal.where(BatchEvent, batch=ids) if e.kind == REMIND]
    batches = {b.id: b for b in kitchen.journal.where(Batch, id=ids)}
    return [
        Due(e.batch, TIMER, e.at, e.id, f"{e.note[:1].upper()}{e.note[1:]} (batch {e.batch}).")
        for e in events
        if e.batch in batches
    ]


def _conditioning(kitchen: Kitchen) -> list[Due]:
    """What conditioning asks for today: once a day, in the morning."""
    said = conditioning_words(kitchen) if kitchen.journal.highest_id(Lot) < _MOST_LOTS else ""
    if not said:
        return []
    here = kitchen.local(kitchen.now())
    at = here.replace(hour=MORNING.hour, minute=MORNING.minute, second=0, microsecond=0).astimezone(UTC)
    return [Due(0, CONDITIONING, at, here.date().toordinal(), said.replace("\n", " "))]


@dataclass(frozen=True, slots=True)
class QuietHours:
    """From when to when nothing is said, on her own clock; both the same means never."""

    begin: time = time(0, 0)
    end: time = time(0, 0)

    def at(self, moment: datetime) -> bool:
        """Whether a moment of her own clock lies in them."""
        now = moment.time()
        if self.begin <= self.end:
            return self.begin <= now < self.end
        return now >= self.begin or now < self.end


def read_quiet_hours(text: str) -> QuietHours:
    """`22:00-7:00`; empty means none. Raises InputProblem."""
    if not text.strip():
        return QuietHours()
    found = re.fullmatch(r"\s*(\d{1,2})(?::(\d\d))?\s*(?:-|–|to)\s*(\d{1,2})(?::(\d\d))?\s*", text)
    try:
        if found is None:
            raise ValueError(text)
        begin, end = (time(int(found[n]), int(found[n + 1] or 0)) for n in (1, 3))
    except ValueError:
        raise InputProblem(f"“{text}” are no quiet hours; write them like 22:00-7:00.", QUIET_KEY) from None
    return QuietHours(begin, end)


def quiet_hours(kitchen: Kitchen) -> QuietHours:
    """The quiet hours of this person; none where they cannot be read."""
    try:
        return read_quiet_hours(preference(kitchen, QUIET_KEY))
    except InputProblem:
        return QuietHours()


Key = tuple[int, str, int]


def key_of(due: Due) -> Key:
    """By what a thing is known again: said once, put off, or done by a newer weighing."""
    return due.batch, due.kind, due.after


@dataclass(slots=True)
class AlarmClock:
    """Which of the things that are due are to be said now: each once, none in quiet hours, one put off later
    again."""

    _said: set[Key] = field(default_factory=set)
    _put_off: dict[Key, datetime] = field(default_factory=dict)

    def ringing(self, dues: Iterable[Due], now: datetime, here: datetime, quiet: QuietHours) -> list[Due]:
        """What is to be said now; `here` is now on her own clock. Of one batch only the gravest."""
        if quiet.at(here):
            return []
        found = []
        for due in dues:
            key = key_of(due)
            again = self._put_off.get(key)
            if due.at <= now and (key not in self._said if again is None else again <= now):
                found.append(due)
        for due in found:
            self._said.add(key_of(due))
            self._put_off.pop(key_of(due), None)
        grave = {d.batch: d.kind for kind in (FINISH, PAST) for d in found if d.kind == kind}
        return [d for d in found if d.kind in (TIMER, CONDITIONING) or grave.get(d.batch, d.kind) == d.kind]

    def put_off(self, dues: Iterable[Due], now: datetime, by: timedelta = SNOOZE) -> None:
        """Say them again after a while."""
        for due in dues:
            self._put_off[key_of(due)] = now + by
