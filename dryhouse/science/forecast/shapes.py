"""The shapes a drying curve may have, each as moisture ratio against time, time 1 being when half is gone (about).

Water meets two resistances in series, evaporation at the surface and movement inside, and their times add up:

    T(MR) = internal(MR; p) + b (1 - MR),     internal = (MR^(1-p) - 1)/(p - 1), or -ln MR where p = 1

b is how much the surface counts: large b is a long constant-rate period before the falling rate, b = 0 none.
p is the order of the falling rate: 1 is Lewis, p < 1 ends sooner (as shrinking slices do), p > 1 drags on.
b = 0 with p = 1 is Lewis; b between 0.5 and 4 comes close to Page with n from 1.1 to 1.4.

A run need not start in step: `d` is a head start (loose surface water, d > 0) or a lag (cold food, d < 0), in
half-times, that builds up over the first tenth of a half-time or over the lag itself.

Prior weights, from fitting whole published runs: the falling rate is near first order and ends a little sooner than
that, a few runs fall nearly straight to the end; no b stands out; most runs start nearly in step.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

import numpy as np

from dryhouse.science.curves.model import Array

STEP = 0.02
"""Spacing of the table in ln(time / half-time)."""
FIRST, LAST = -6.0, 4.0
SURFACE_B = (0.0, 0.5, 1.0, 2.0, 4.0, 10.0)
ORDER_WEIGHT = {0.0: 0.05, 0.25: 0.04, 0.5: 0.05, 0.75: 0.25, 1.0: 0.50, 1.25: 0.10, 1.5: 0.01}
"""Orders of the falling rate and their prior weight; order 0 is a straight line to the end."""
START_D = (-0.1, -0.04, 0.0, 0.04, 0.1, 0.2)
START_WEIGHT = (0.1, 0.2, 0.3, 0.2, 0.15, 0.05)
_HEAD_START_OVER = 0.1


@dataclass(frozen=True, slots=True)
class Shapes:
    """Every shape in one table: `mr[s, j]` at ln(time/half-time) = FIRST + j STEP, and its log prior weight."""

    b: Array
    p: Array
    mr: Array
    log_prior: Array
    page_n: Array
    """The Page exponent that comes nearest to each shape, so that a prior on n can weigh every shape."""


@cache
def shapes() -> Shapes:
    """The table, made once."""
    x = np.asarray(FIRST + STEP * np.arange(round((LAST - FIRST) / STEP) + 1), dtype=np.float64)
    starts = [_in_step(x, d) for d in START_D]
    fine = 1.0 - np.concatenate((np.geomspace(1e-6, 0.5, 400), 1.0 - np.geomspace(0.499, 1e-9, 1200)))
    order, surface, rows, prior = [], [], [], []
    for p, share in ORDER_WEIGHT.items():
        surfaces = SURFACE_B if p > 0.0 else SURFACE_B[:1]
        for b in surfaces:
            log_time = np.log(resistances(fine, b, p) / resistances(np.array([0.5]), b, p))
            for start, weight in zip(starts, START_WEIGHT, strict=True):
                rows.append(np.interp(start, log_time, fine, left=1.0, right=0.0))
                prior.append(np.log(weight * share / len(surfaces)))
                order.append(p)
                surface.append(b)
    table, log_prior = np.array(rows), np.array(prior)
    log_prior -= np.log(np.exp(log_prior).sum())
    return Shapes(np.array(surface), np.array(order), table, log_prior, _nearest_n(x, table))


def resistances(mr: Array, b: float, p: float) -> Array:
    """Dimensionless time at which the free moisture ratio has fallen to `mr`."""
    internal = -np.log(mr) if p == 1.0 else (mr ** (1.0 - p) - 1.0) / (p - 1.0)
    return np.asarray(internal + b * (1.0 - mr))


def _in_step(log_time: Array, d: float) -> Array:
    """ln of the time a run would show had it started in step."""
    time = np.exp(log_time)
    over = _HEAD_START_OVER if d >= 0 else -d
    return np.asarray(np.log(np.maximum(time + d * (1.0 - np.exp(-time / over)), 1e-9)))


def _nearest_n(x: Array, table: Array) -> Array:
    """n of the Page curve through MR 0.8 and 0.2 of each shape."""
    found = []
    for row in table:
        early, late = (np.interp(-v, -row, x) for v in (0.8, 0.2))
        found.append(np.log(np.log(0.2) / np.log(0.8)) / (late - early))
    return np.array(found)
