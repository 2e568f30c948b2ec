"""The clock of a batch: hours the dryer ran, worked out in UTC, pauses left out.

Nothing ticks here. Hours follow from what was recorded, so a clock survives a restart and a change of
summer time by construction.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime, timedelta

from dryhouse.kitchen.records.weighings import PAUSED, RESUMED, BatchEvent


def paused_at(events: Iterable[BatchEvent], moment: datetime) -> bool:
    """Whether the batch stood paused at that moment."""
    marks = [e for e in events if e.kind in (PAUSED, RESUMED) and e.at <= moment]
    return bool(marks) and max(marks, key=lambda e: (e.at, e.id)).kind == PAUSED


@dataclass(frozen=True, slots=True)
class Clock:
    """When a batch started and the stretches during which it stood still."""

    started: datetime
    pauses: tuple[tuple[datetime, datetime | None], ...] = ()
    """From when to when; the last may still be open."""

    def hours(self, moment: datetime) -> float:
        """Hours of drying up to a moment; never less than none."""
        still = timedelta()
        for begin, end in self.pauses:
            if begin < moment:
                still += min(end or moment, moment) - max(begin, self.started)
        return max(0.0, (moment - self.started - still).total_seconds() / 3600)

    def moment(self, hours: float) -> datetime:
        """The moment at which so many hours of drying are reached, as far as pauses that are over tell."""
        at = self.started + timedelta(hours=hours)
        for begin, end in self.pauses:
            if end is None or begin >= at:
                break
            at += end - max(begin, self.started)
        return at

    @property
    def paused_since(self) -> datetime | None:
        """When the present pause began, or None while the batch runs."""
        return self.pauses[-1][0] if self.pauses and self.pauses[-1][1] is None else None

    @property
    def paused_hours(self) -> float:
        """Hours of the pauses that are over."""
        return sum((end - begin).total_seconds() for begin, end in self.pauses if end) / 3600


def clock_of(started: datetime, events: Iterable[BatchEvent]) -> Clock:
    """The clock of a batch from its start and its events, in any order."""
    pauses: list[tuple[datetime, datetime | None]] = []
    since: datetime | None = None
    for event in sorted(events, key=lambda e: (e.at, e.id)):
        if event.kind == PAUSED and since is None:
            since = max(event.at, started)
        elif event.kind == RESUMED and since is not None:
            pauses.append((since, event.at))
            since = None
    if since is not None:
        pauses.append((since, None))
    return Clock(started, tuple(pauses))
