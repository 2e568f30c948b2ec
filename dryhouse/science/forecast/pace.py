"""The run's own clock: hours as they pass, and hours of drying at the pace the dryer has now.

The laws of drying know one heat and a dryer that runs. So the weighings are put on a clock on which an hour at
another heat counts for as much as the food's activation energy says (Arrhenius: the rate moves by exp(-Ea/(n R)
(1/T2 - 1/T1)), n Page's usual exponent), and an hour in which the dryer stood still counts for the little that was
lost in it. What is forecast on that clock is told in hours as they pass; from the last change on both run alike.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import ArrayLike

from dryhouse.science.curves.model import Array
from dryhouse.science.forecast.priors import MIDDLE_80, USUAL_N, arrhenius_step
from dryhouse.science.values import Fact
from dryhouse.science.workings import StepKind as Kind
from dryhouse.science.workings import Workings, step

SAME_HEAT_C = 1.0
"""Heats no further apart are one: no dryer's dial is truer."""
STOOD_STILL = 0.2
"""Where nothing was weighed after it, a stretch below this share of the pace before is asked about."""
SLOWED = 0.45
"""A stretch between two weighings may hold a part of a stop: below this share of the pace before it and of the one
after it, it is asked about. A load that only slows down keeps more from one weighing to the next."""
STILL_WET = 0.3
"""Share of the water there must be for the last stretch to be a stop: a load that is nearly dry levels off."""
SHORTEST_H = 0.75
"""Nothing shorter is asked about: it costs less than the doubt of a forecast, and is as often a slip of the pen."""
A_MINUTE = 1.0 / 60.0
SEEN_ON_THE_SCALE = 6.0
"""A stretch tells of a stop where at least so many steps of the scale should have gone; shorter ones are joined."""


@dataclass(frozen=True, slots=True)
class Heating:
    """The dryer's heat: from each hour (ascending from 0) on so many °C; and the activation energy, kJ/mol."""

    hours: tuple[float, ...]
    celsius: tuple[float, ...]
    energy: Fact

    @property
    def changed(self) -> bool:
        """Whether there was more than one heat."""
        return max(self.celsius) - min(self.celsius) > SAME_HEAT_C

    def rates(self, energy_kj_mol: float) -> list[float]:
        """The pace at each heat over that at the last."""
        last = self.celsius[-1]
        return [float(np.exp(arrhenius_step(energy_kj_mol, last, heat) / USUAL_N)) for heat in self.celsius]

    def doubt(self, since: float) -> float:
        """Spread of ln of the last change of pace, by that of the energy; 0 where it came before `since`."""
        if not self.changed or self.hours[-1] <= since:
            return 0.0
        low, high = self.energy.low or self.energy.value, self.energy.high or self.energy.value
        return abs(arrhenius_step((high - low) / MIDDLE_80, self.celsius[-2], self.celsius[-1])) / USUAL_N

    def workings(self) -> Workings:
        """The changes and what they make of the pace."""
        if not self.changed:
            return ()
        energy = (self.energy.value, "kJ/mol", self.energy.source)
        rates, heats = self.rates(self.energy.value), list(zip(self.hours, self.celsius, strict=True))
        return tuple(
            step(Kind.HEAT_FOLLOWED, rates[i + 1] / rates[i], at=(at, "h"), from_heat=(before, "degC"),
                 to_heat=(after, "degC"), energy=energy)
            for i, ((_, before), (at, after)) in enumerate(pairwise(heats))
            if abs(after - before) > SAME_HEAT_C
        )[-MOST_CHANGES:]  # fmt: skip


MOST_CHANGES = 4
"""So many changes of heat are written out in the workings, the last ones."""


@dataclass(frozen=True, slots=True)
class Pace:
    """Hours as they pass and hours of drying at these knots, both from 0; past the last both grow alike."""

    hours: Array
    drying: Array

    def drying_at(self, hours: ArrayLike) -> Array:
        """Hours of drying at these hours."""
        return _along(np.asarray(hours, dtype=float), self.hours, self.drying)

    def hours_at(self, drying: ArrayLike) -> Array:
        """The hours at which so much drying is reached."""
        return _along(np.asarray(drying, dtype=float), self.drying, self.hours)


def _along(at: Array, start: Array, end: Array) -> Array:
    with np.errstate(invalid="ignore"):
        return np.asarray(np.where(at > start[-1], end[-1] + (at - start[-1]), np.interp(at, start, end)))


def pace_of(
    t: Array, m: Array, target: float, scale_step: float, heating: Heating | None, ran: Sequence[float] = ()
) -> tuple[Pace, Stops]:
    """The clock of a run weighed `m` at the hours `t`, and the stretches in which the dryer seems to have stood
    still (from, to: in hours as they pass). Up to an hour in `ran` a stretch that it lies in is known not to be
    one: the dryer was running."""
    knots, rates = np.zeros(1), [1.0]
    if heating is not None and heating.changed:
        knots, rates = np.array(heating.hours), heating.rates(heating.energy.value)
    steps = np.diff(knots) * np.array(rates[:-1])
    heat = Pace(knots, np.concatenate(([0.0], np.cumsum(steps))))
    warm = heat.drying_at(t)
    found = [left for stop in stops(warm, m, target, scale_step) if (left := _unanswered(stop, t, ran))]
    at = np.union1d(t, knots)
    drying = heat.drying_at(at)
    for begin, end, rate in found:
        inside = np.clip(drying, warm[begin], warm[end]) - warm[begin]
        drying = drying - (1.0 - rate) * inside
    return Pace(at, drying), tuple((float(t[begin]), float(t[end])) for begin, end, _ in found)


Stops = tuple[tuple[float, float], ...]


def stops(t: Array, m: Array, target: float, scale_step: float) -> list[tuple[int, int, float]]:
    """Stretches between weighings (first, last, pace in it over that around it) that lost far too little.

    The pace is the fall of ln(m - target) an hour. A stretch counts where the pace before and after it is another:
    a load that slows down for good has not stopped, and one that is nearly dry levels off.
    """
    if len(m) < 3 or m[-1] <= target:
        return []
    seen = SEEN_ON_THE_SCALE * scale_step
    left = np.log(np.maximum(m - target, 1e-6))
    first = np.flatnonzero(m[0] - m > seen)
    if not len(first):
        return []
    at = int(first[0])
    usual = float(left[0] - left[at]) / float(t[at])
    found: list[tuple[int, int, float]] = []
    slow: list[tuple[int, int, float]] = []
    while (to := _seen_from(at, t, m - target, usual, seen)) is not None:
        pace = float((left[at] - left[to]) / (t[to] - t[at]))
        if pace < SLOWED * usual:
            slow.append((at, to, pace / usual))
        else:
            if slow and usual > 0:
                found += _stretch(slow, t, left, min(usual, pace), SLOWED)
            slow, usual = [], pace
        at = to
    moved = [i for i, (_, _, share) in enumerate(slow) if share >= STOOD_STILL]
    slow = slow[moved[-1] + 1 :] if moved else slow
    if slow and m[-1] - target > STILL_WET * (m[0] - target):
        found += _stretch(slow, t, left, usual, STOOD_STILL)
    return found


def _seen_from(at: int, t: Array, free: Array, usual: float, seen: float) -> int | None:
    """The next weighing by which the scale should have seen something go at the usual pace; None where there is
    none. One that lies well above is a wrong reading and no stop."""
    should = free[at] * (1.0 - np.exp(-max(usual, 0.0) * (t[at + 1 :] - t[at])))
    enough = np.flatnonzero((should > seen) & (free[at + 1 :] <= free[at] + seen))
    return at + 1 + int(enough[0]) if len(enough) else None


def _stretch(
    slow: list[tuple[int, int, float]], t: Array, left: Array, usual: float, most: float
) -> list[tuple[int, int, float]]:
    """The slow stretches as one, where it is long enough and its pace is below this share of the usual one."""
    begin, end = slow[0][0], slow[-1][1]
    share = float((left[begin] - left[end]) / (t[end] - t[begin]) / usual)
    return (
        [(begin, end, float(np.clip(share, 0.01, 1.0)))] if share < most and t[end] - t[begin] >= SHORTEST_H else []
    )


def _unanswered(stop: tuple[int, int, float], t: Array, ran: Sequence[float]) -> tuple[int, int, float] | None:
    """What is left of a stretch after the last hour at which the dryer was known to run; None where too little."""
    begin, end, rate = stop
    known = [hour for hour in ran if t[begin] - A_MINUTE <= hour <= t[end] + A_MINUTE]
    if known:
        begin = int(np.searchsorted(t, max(known) + A_MINUTE, side="right")) - 1
    return (begin, end, rate) if t[end] - t[begin] >= SHORTEST_H else None
