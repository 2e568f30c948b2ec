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
"""A stretch that lost less than this share of what the pace before would have taken is no drying."""
WENT_ON = 0.4
"""After a stop the pace is at least this share of the one before; else the load itself has slowed down."""
STILL_WET = 0.3
"""Share of the water there must be for the last stretch to be a stop: a load that is nearly dry levels off."""
SHORTEST_H = 0.75
"""Nothing shorter is asked about: it costs less than the doubt of a forecast, and is as often a slip of the pen."""
A_MINUTE = 1.0 / 60.0
SEEN_ON_THE_SCALE = 6.0
"""A stretch tells of a stop where at least so many steps of the scale should have gone."""


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
    """Stretches between weighings (first, last, pace in it over that before) that lost almost nothing.

    The pace is the fall of ln(m - target) an hour. A stretch counts where the pace before and after it is another:
    a load that slows down for good has not stopped, and one that is nearly dry levels off.
    """
    if len(m) < 3 or m[-1] <= target:
        return []
    left = np.log(np.maximum(m - target, 1e-6))
    pace = -np.diff(left) / np.diff(t)
    usual = pace[0]
    found: list[tuple[int, int, float]] = []
    begin = None
    for i in range(1, len(pace)):
        wanted = (m[i] - target) * (1.0 - np.exp(-max(usual, 0.0) * (t[i + 1] - t[i])))
        still = wanted > SEEN_ON_THE_SCALE * scale_step and m[i] - m[i + 1] < STOOD_STILL * wanted
        if still:
            begin = i if begin is None else begin
        else:
            if begin is not None and pace[i] >= WENT_ON * usual and t[i] - t[begin] >= SHORTEST_H:
                found.append(_stop(begin, i, t, left, usual))
            begin, usual = None, pace[i]
    wet = m[-1] - target > STILL_WET * (m[0] - target)
    if begin is not None and wet and t[-1] - t[begin] >= SHORTEST_H:
        found.append(_stop(begin, len(pace), t, left, usual))
    return found


def _unanswered(stop: tuple[int, int, float], t: Array, ran: Sequence[float]) -> tuple[int, int, float] | None:
    """What is left of a stretch after the last hour at which the dryer was known to run; None where too little."""
    begin, end, rate = stop
    known = [hour for hour in ran if t[begin] - A_MINUTE <= hour <= t[end] + A_MINUTE]
    if known:
        begin = int(np.searchsorted(t, max(known) + A_MINUTE, side="right")) - 1
    return (begin, end, rate) if t[end] - t[begin] >= SHORTEST_H else None


def _stop(begin: int, end: int, t: Array, left: Array, usual: float) -> tuple[int, int, float]:
    rate = (left[begin] - left[end]) / (t[end] - t[begin]) / usual
    return begin, end, float(np.clip(rate, 0.01, 1.0))
