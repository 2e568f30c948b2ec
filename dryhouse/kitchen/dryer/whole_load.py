"""The whole load of a batch as one mass, whatever of it is on the dryer and on the scale.

Food that came off early, or went in later, belongs to the load all the same: what came off counts with its weight
when it did, what goes in later with its weight as it will go in. So the mass balance of the load stays exact, and
nothing jumps. Readings of single trays add up to the load once every tray was weighed in one round.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta

from dryhouse.kitchen.records import Batch, BatchEvent, Weighing
from dryhouse.kitchen.records.weighings import LOAD, TRAY, TRAY_IN, TRAY_OFF

ROUND = timedelta(minutes=45)
"""Trays weighed one after the other within this time are one round (our own choice)."""


@dataclass(frozen=True, slots=True)
class Aside:
    """What of the load is not on the dryer: (from when, how many grams, how many trays), ascending in time."""

    off: tuple[tuple[datetime, float, int], ...] = ()
    later: tuple[tuple[datetime, float, int], ...] = ()
    supposed: bool = False
    """Some of it was not weighed when it came off: its share of the load was taken."""

    def grams(self, at: datetime) -> float:
        """Grams of the load that are off the dryer at that moment."""
        return sum(g for since, g, _ in self.off if since <= at) + sum(
            g for until, g, _ in self.later if until > at
        )

    def trays(self, at: datetime) -> int:
        """How many of its trays are off the dryer then."""
        return sum(n for since, _, n in self.off if since <= at) + sum(
            n for until, _, n in self.later if until > at
        )


def aside_of(batch: Batch, weighings: Iterable[Weighing], events: Iterable[BatchEvent]) -> Aside:
    """What came off early and went in later. Where what came off was not weighed, it is its trays' share of the
    last weight of the load, or of what was loaded."""
    known = sorted(events, key=lambda e: (e.at, e.id))
    later = tuple((e.at, e.mass.si, e.trays or 1) for e in known if e.kind == TRAY_IN and e.mass is not None)
    loads = sorted((w for w in weighings if w.scope == LOAD and not w.left_out), key=lambda w: (w.at, w.id))
    off: list[tuple[datetime, float, int]] = []
    supposed = False
    for event in known:
        if event.kind != TRAY_OFF:
            continue
        trays = event.trays or 1
        grams = event.mass.si if event.mass is not None else None
        if grams is None:
            before = [w.net_g for w in loads if w.at <= event.at]
            on = before[-1] if before else batch.prepared_mass.si if batch.prepared_mass else None
            left = (batch.trays or 0) - sum(n for _, _, n in off)
            grams = on * trays / left if on is not None and left > trays else 0.0
            supposed = True
        off.append((event.at, grams, trays))
    return Aside(tuple(off), later, supposed)


@dataclass(frozen=True, slots=True)
class Round:
    """Every tray weighed once: together the load, in grams, in the middle of the time it took."""

    at: datetime
    net_g: float
    trays: int


def rounds_of(batch: Batch, weighings: Sequence[Weighing], aside: Aside) -> tuple[Round, ...]:
    """The complete rounds of readings of single trays, in order of time."""
    singles = sorted((w for w in weighings if w.scope == TRAY), key=lambda w: (w.at, w.id))
    vessels = {w.vessel for w in singles}
    if len(vessels) < 2:
        return ()
    every = max(batch.trays or 0, len(vessels))
    found, begun = [], dict[str, Weighing]()
    for weighing in singles:
        first = next(iter(begun.values()), weighing)
        if weighing.vessel in begun or weighing.at - first.at > ROUND:
            begun = {}
        begun[weighing.vessel] = weighing
        if len(begun) >= every - aside.trays(weighing.at):
            times = [w.at for w in begun.values()]
            middle = min(times) + (max(times) - min(times)) / 2
            found.append(Round(middle, sum(w.net_g for w in begun.values()), len(begun)))
            begun = {}
    return tuple(found)
