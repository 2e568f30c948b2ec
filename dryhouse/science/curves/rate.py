"""Drying rate against moisture, and the periods of drying where the weighings show them.

Constant-rate period: the surface is wet and the rate does not change. Falling-rate period: the rate falls with
the moisture. With first-order falling rate from the critical moisture ratio c on,

    MR = 1 - r t                         while MR >= c
    MR = c exp(-(t - (1 - c)/r) r/c)     after that

as in Geankoplis, Transport Processes and Separation Process Principles, ch. 9.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from dryhouse.science.curves.fitting import aicc
from dryhouse.science.curves.model import Array
from dryhouse.science.messages import Message, message
from dryhouse.science.messages import MessageKind as Told

FEWEST = 6
"""Weighings needed before two periods are told apart."""
_MOST = 300
"""Weighings looked at; of a longer run as many as these, evenly chosen."""
_CRITICAL = np.linspace(0.05, 0.95, 46)
_SOONEST = 1e-4
"""The share of a run in which 40 % of the free water is gone, at the least."""
CLEARLY = 6.0
"""By how much AICc must prefer two periods to plain first order (about 20 to 1)."""


@dataclass(frozen=True, slots=True)
class Rates:
    """Water lost per hour between neighbouring weighings: at these hours, these moistures, this fast."""

    hours: Array
    moisture_db: Array
    grams_per_hour: Array


def rates(hours: ArrayLike, grams: ArrayLike, dry_matter_g: float) -> Rates:
    """The rate between each weighing and the next, at the middle of the two. `dry_matter_g` turns mass into X."""
    t, m = np.asarray(hours, dtype=float), np.asarray(grams, dtype=float)
    step = np.diff(t)
    return Rates(
        hours=t[:-1] + step / 2,
        moisture_db=(m[:-1] + m[1:]) / (2 * dry_matter_g) - 1.0,
        grams_per_hour=-np.diff(m) / step,
    )


def two_periods(t: Array, rate: Array, critical: Array) -> Array:
    """MR at times t for constant rates (per h) and critical moisture ratios that broadcast with it."""
    late = np.maximum(t - (1.0 - critical) / rate, 0.0)
    return np.where(late > 0, critical * np.exp(-late * rate / critical), 1.0 - rate * t)


def periods(hours: ArrayLike, mr: ArrayLike) -> Message:
    """The two periods where the weighings show them, else why they are not told apart."""
    t, y = np.asarray(hours, dtype=float), np.asarray(mr, dtype=float)
    if len(t) < FEWEST:
        return message(Told.TOO_FEW_FOR_PERIODS, fewest=FEWEST)
    if len(t) > _MOST:
        kept = np.linspace(0, len(t) - 1, _MOST).round().astype(int)
        t, y = t[kept], y[kept]
    if y[-1] > 0.9 or t[-1] <= 0:
        return message(Told.TOO_EARLY_FOR_PERIODS)
    last = float(t[-1])
    centre = max(float(np.interp(-0.6, -np.minimum.accumulate(y), t)) or last, last * _SOONEST)
    base = 0.4 / centre
    rate, critical, sse = _search(t, y, base * np.geomspace(0.3, 3.0, 60), _CRITICAL)
    rate, critical, sse = _search(
        t, y, rate * np.linspace(0.95, 1.05, 41), np.clip(critical + np.linspace(-0.02, 0.02, 41), 0.02, 0.98)
    )
    grid = base * np.geomspace(0.3, 10.0, 400)
    lewis = float(np.min(np.sum((y - np.exp(-grid[:, None] * t)) ** 2, axis=1)))
    until = (1.0 - critical) / rate
    inside = int(np.count_nonzero(t <= until))
    if aicc(lewis, len(t), 1) - aicc(sse, len(t), 2) < CLEARLY or inside < 3 or critical > 0.93:
        return message(Told.NO_CONSTANT_RATE)
    if until >= t[-2]:
        return message(Told.CONSTANT_SO_FAR)
    share, kink = (100.0 * rate, "%"), (100.0 * critical, "%")
    return message(Told.TWO_PERIODS, until=(until, "h"), rate=share, critical=kink)


def _search(t: Array, y: Array, rates_: Array, criticals: Array) -> tuple[float, float, float]:
    """The best pair on a grid."""
    curve = two_periods(t, rates_[:, None, None], criticals[None, :, None])
    sse = np.sum((y - curve) ** 2, axis=2)
    i, j = np.unravel_index(int(np.argmin(sse)), sse.shape)
    return float(rates_[i]), float(criticals[j]), float(sse[i, j])
