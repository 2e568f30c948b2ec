"""When somebody is at hand for the dryers: half-hours in which a load may be started, and taken off.

Time is cut into half-hours from a first moment on. A run begins while somebody may start one, lasts as long as its
food may take, and is taken off by somebody who is up and at home; in between it may run through the night, or not.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from datetime import datetime, timedelta

import numpy as np
from numpy.typing import NDArray

SLOT = timedelta(minutes=30)


@dataclass(frozen=True, slots=True)
class AtHand:
    """A stretch (UTC) in which somebody is up and at home: loads are taken off, and started where `starts`."""

    begin: datetime
    end: datetime
    starts: bool = True


@dataclass(frozen=True, slots=True)
class Hours:
    """When dryers are tended, over the time that is planned."""

    stretches: tuple[AtHand, ...]
    still: tuple[tuple[datetime, datetime], ...] = ()
    """Stretches in which no dryer runs: the nights, where nothing may run through them."""
    past_finish: timedelta = timedelta(hours=2)
    """How long a load may stay in the dryer past the longest it takes, until somebody is at hand."""


class Grid:
    """The half-hours from a first moment on, and what may be done at each."""

    def __init__(self, hours: Hours, base: datetime, until: datetime) -> None:
        self.base = base
        self.count = max(0, math.floor((until - base) / SLOT)) + 1
        self.starts = np.zeros(self.count, dtype=bool)
        at_hand = np.zeros(self.count, dtype=bool)
        for stretch in hours.stretches:
            span = slice(max(0, self.at_or_after(stretch.begin)), max(0, self.at_or_before(stretch.end) + 1))
            at_hand[span] = True
            if stretch.starts:
                self.starts[span] = True
        moments = np.where(at_hand, np.arange(self.count), self.count + 1)
        self._next = np.minimum.accumulate(moments[::-1])[::-1]
        """The first moment from each on at which somebody is at hand; beyond the end where there is none."""
        still = np.zeros(self.count, dtype=np.int64)
        for begin, end in hours.still:
            still[max(0, self.at_or_before(begin)) : max(0, self.at_or_after(end))] = 1
        self._still = np.concatenate(([0], np.cumsum(still)))
        """How many half-hours before each are still."""
        self._slack = hours.past_finish // SLOT
        self._ends: dict[int, NDArray[np.int64]] = {}

    def at_or_after(self, moment: datetime) -> int:
        """The first half-hour that is not before a moment."""
        return math.ceil((moment - self.base) / SLOT - 1e-9)

    def at_or_before(self, moment: datetime) -> int:
        """The last half-hour that is not after a moment."""
        return math.floor((moment - self.base) / SLOT + 1e-9)

    def moment(self, index: int) -> datetime:
        """The moment a half-hour begins."""
        return self.base + index * SLOT

    def slots(self, hours: float) -> int:
        """The half-hours that so many hours fill."""
        return max(1, math.ceil(hours * 2 - 1e-9))

    def ends(self, slots: int) -> NDArray[np.int64]:
        """For each start, when a run of so many half-hours is taken off; −1 where it may not start."""
        if slots not in self._ends:
            done = np.arange(self.count) + slots
            inside = done < self.count
            off = np.where(inside, self._next[np.minimum(done, self.count - 1)], self.count + 1)
            allowed = self.starts & (off <= self.count - 1) & (off - done <= self._slack)
            off = np.where(allowed, off, 0)
            runs_still = self._still[off] - self._still[np.arange(self.count)] > 0
            self._ends[slots] = np.where(allowed & ~runs_still, off, -1)
        return self._ends[slots]
