"""When a scale that reports by itself stands still, and what else its readings tell.

A steady weight is the median of the readings of some seconds that lie close together. Food on a dryer gets
lighter, slowly: a sudden step is a tray that was lifted or a hand that leans on it, and what gets heavier is a
scale that drifts. Such readings are withheld. The borders here are our own choices.
"""

from __future__ import annotations

from collections import deque
from dataclasses import dataclass
from enum import StrEnum
from itertools import pairwise

WINDOW_S = 12.0
"""Readings of so many seconds are looked at together."""
FEWEST, MOST = 3, 200
SPREAD = 0.004
"""Readings are steady where four fifths of them lie within this share of the first weight, or within `LEAST_G`."""
LEAST_G = 2.0
STEP = 0.03
"""A change of more than this share of the first weight, beyond what drying could take, is no drying."""
FASTEST_PER_MIN = 0.006
"""No load on a home dryer loses more than this share of its first weight in a minute."""
RISE = 0.006
"""A rise of more than this share above the least weight seen is drift."""


class NoticeKind(StrEnum):
    """What is said of an instrument."""

    LIFTED = "something was lifted"
    BACK = "it is back"
    DOOR = "door opened"
    DRIFT = "the scale drifts"
    SILENT = "nothing comes"
    SPEAKS = "it comes again"
    GARBLED = "unreadable lines"
    OTHER_UNIT = "another unit"


@dataclass(frozen=True, slots=True)
class Standing:
    """What came of one reading: a steady weight in grams, and something to be said, where there is either."""

    steady: float | None = None
    notice: NoticeKind | None = None


NOTHING = Standing()


class SteadyScale:
    """Fed with readings in order of time; says when they stand still. Pure: time is what it is told."""

    def __init__(self, first_g: float | None = None) -> None:
        self.first = first_g
        """The first steady weight in grams, against which changes are judged."""
        self._recent: deque[tuple[float, float]] = deque(maxlen=MOST)
        self._last: tuple[float, float] | None = None
        self._least = float("inf")
        self._lifted = self._drifting = False

    def take(self, seconds: float, grams: float) -> Standing:
        """One reading, at a time in seconds that never goes back."""
        recent = self._recent
        recent.append((seconds, grams))
        while len(recent) > FEWEST and recent[0][0] < seconds - WINDOW_S:
            recent.popleft()
        if len(recent) < FEWEST:
            return NOTHING
        if recent[-1][0] - recent[0][0] > 2.0 * WINDOW_S:
            return self._judge(seconds, grams) if self._follow_each_other() else NOTHING
        values = sorted(g for _, g in recent)
        tenth = len(values) // 10
        middle = values[len(values) // 2]
        scale = self.first or abs(middle)
        if values[-1 - tenth] - values[tenth] > max(SPREAD * scale, LEAST_G):
            return NOTHING
        return self._judge(seconds, middle)

    def _follow_each_other(self) -> bool:
        """Whether the last readings of a slow logger, which are far apart, are what drying leaves of each other."""
        scale = self.first or abs(self._recent[0][1])
        last = list(self._recent)[-FEWEST:]
        return all(
            -scale * (SPREAD + FASTEST_PER_MIN * (b[0] - a[0]) / 60.0) <= b[1] - a[1] <= scale * SPREAD
            for a, b in pairwise(last)
        )

    def _judge(self, seconds: float, middle: float) -> Standing:
        if self._last is None or self.first is None:
            self.first = self.first or middle
            return self._accept(seconds, middle)
        since, last = self._last
        minutes = (seconds - since) / 60.0
        allowed = self.first * (STEP + FASTEST_PER_MIN * minutes)
        if not last - allowed <= middle <= last + self.first * STEP:
            was, self._lifted = self._lifted, True
            return NOTHING if was else Standing(notice=NoticeKind.LIFTED)
        if self._lifted:
            self._lifted = False
            return Standing(self._accept(seconds, middle).steady, NoticeKind.BACK)
        border = max(RISE * self.first, LEAST_G) * (0.5 if self._drifting else 1.0)
        if middle > self._least + border:
            was, self._drifting = self._drifting, True
            return NOTHING if was else Standing(notice=NoticeKind.DRIFT)
        self._drifting = False
        return self._accept(seconds, middle)

    def _accept(self, seconds: float, middle: float) -> Standing:
        self._last = (seconds, middle)
        self._least = min(self._least, middle)
        return Standing(middle)

    def begin_again(self) -> None:
        """Take what stands on the scale from now on as it is: something was taken off, or put on, for good."""
        self._recent.clear()
        self._last, self._least, self._lifted, self._drifting = None, float("inf"), False, False


@dataclass(slots=True)
class Thinned:
    """Keeps of steady weights what the curve needs: a new one where the weight changed, or after half an hour."""

    first_g: float
    every_s: float = 300.0
    """Never two within this time."""
    at_least_s: float = 1800.0
    """One at least so often."""
    change: float = 0.005
    """Share of the first weight by which it has to have changed."""
    last: tuple[float, float] | None = None

    def wants(self, seconds: float, grams: float) -> bool:
        """Whether this one is kept; then it is remembered as the last."""
        if self.last is not None:
            since, before = seconds - self.last[0], abs(grams - self.last[1])
            if since < self.every_s or (before < self.change * self.first_g and since < self.at_least_s):
                return False
        self.last = (seconds, grams)
        return True
