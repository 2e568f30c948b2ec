"""The shapes a drying curve may have, each as moisture ratio against time, time 1 being when half is gone (about).

Four families of laws:

1. Resistances in series: water moves inside and leaves the surface, and the times of the two add up,

       T(MR) = internal(MR; p) + b (1 - MR),     internal = (MR^(1-p) - 1)/(p - 1), or -ln MR where p = 1

   b is the resistance of the surface over that inside (large: a long constant rate, and at 30 nearly a straight
   line to the end). Nothing is known of it beforehand, so the half decades from 1/20 to 50 are alike. p is the
   order of the falling rate: 1 is Lewis, and the more a slice shrinks the sooner it ends, down to 1/4; these are
   alike too.
2. Page's law, MR = exp(-k t^n), which published tables fit most often.
3. The two periods of the textbooks: a constant rate down to a critical moisture ratio c, and from there on a rate
   in proportion to the moisture. Rarely so sharp in food, but a run that falls by the ruler follows it to the end.
4. Two parts that dry side by side, MR = a exp(-t) + (1 - a) exp(-t/q): thin slices and thick ones on one tray. Its
   tail is the longest of all, so it is rare beforehand, and is believed where the weighings show it.

A run need not start in step: `d` is a head start (loose surface water, d > 0) or a lag (cold food, d < 0), in
half-times, that builds up over the first tenth of a half-time or over the lag itself. What lies between the shapes
is reached by bending them a little (`engine.BEND_SD`).

The weights are round numbers held against made runs, most of them of laws that are not among these
(`tests/benchmarks`); published runs only judge them.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from itertools import product

import numpy as np

from dryhouse.science.curves.model import Array

STEP = 0.02
"""Spacing of the table in ln(time / half-time)."""
FIRST, LAST = -6.0, 4.0
SURFACE_B = (0.1, 0.3, 1.0, 3.0, 10.0, 30.0)
ORDERS = (0.25, 0.5, 0.75, 1.0)
PAGE_SHARE = 0.4
"""Weight of Page's law: published tables fit it most often."""
PAGE_N, PAGE_SD = 1.12, 0.12
"""Page's exponent in the middle of published whole runs of slices and pieces, and the spread of the middle ones
(0.75 to 1.39; the outer ones are near laws of the other families too)."""
PAGE_NODES = (0.8, 0.9, 1.0, 1.1, 1.2, 1.3, 1.45)
SHARP_SHARE = 0.08
"""Weight of the two periods: a sharp end of the constant rate is the exception."""
CRITICAL = (0.04, 0.1, 0.2)
"""Critical moisture ratios of the two periods; rounder ones are near the resistances."""
PARTS_SHARE = 0.01
"""Weight of the two parts."""
PARTS = ((0.9, 2.5), (0.75, 3.0))
"""Share of the quicker part, and by how much the other one is slower."""
STARTS = {-0.4: 0.2, -0.15: 0.25, 0.0: 0.4, 0.1: 0.15}
"""Head starts and lags, with weights: most runs start nearly in step; cold trays are commoner than wet ones."""
_HEAD_START_OVER = 0.1


@dataclass(frozen=True, slots=True)
class Shapes:
    """Every shape in one table: `mr[s, j]` at ln(time/half-time) = FIRST + j STEP, and its log prior weight."""

    mr: Array
    step: Array
    """From each place of it to the next."""
    log_prior: Array
    page_n: Array
    """The Page exponent that comes nearest to each shape, so that a prior on n can weigh every shape."""


@cache
def shapes() -> Shapes:
    """The table, made once."""
    x = np.asarray(FIRST + STEP * np.arange(round((LAST - FIRST) / STEP) + 1), dtype=np.float64)
    starts = [(_in_step(x, d), weight) for d, weight in STARTS.items()]
    fine = 1.0 - np.concatenate((np.geomspace(1e-6, 0.5, 400), 1.0 - np.geomspace(0.499, 1e-9, 1200)))
    rows, prior = [], []
    for clock, share in _laws(fine):
        for start, weight in starts:
            rows.append(np.interp(start, clock, fine, left=1.0, right=0.0))
            prior.append(np.log(weight * share))
    table, log_prior = np.array(rows), np.array(prior)
    log_prior -= np.log(np.exp(log_prior).sum())
    return Shapes(table, np.diff(table, axis=1, append=table[:, -1:]), log_prior, _nearest_n(x, table))


def _laws(mr: Array) -> list[tuple[Array, float]]:
    """ln(time/half-time) of every law at these moisture ratios, and its prior weight."""
    found = []
    each = (1.0 - PAGE_SHARE - SHARP_SHARE - PARTS_SHARE) / len(SURFACE_B) / len(ORDERS)
    for b, p in product(SURFACE_B, ORDERS):
        time, half = resistances(mr, b, p), resistances(np.array([0.5]), b, p)
        found.append((np.log(time / half), each))
    likely = np.exp(-0.5 * ((np.array(PAGE_NODES) - PAGE_N) / PAGE_SD) ** 2)
    likely = likely * np.gradient(np.array(PAGE_NODES))
    for n, weight in zip(PAGE_NODES, likely / likely.sum(), strict=True):
        found.append((np.log(-np.log(mr) / np.log(2.0)) / n, PAGE_SHARE * weight))
    for c in CRITICAL:
        time = np.log(two_periods(mr, c) / two_periods(np.array([0.5]), c))
        found.append((time, SHARP_SHARE / len(CRITICAL)))
    for quick, slower in PARTS:
        time = two_parts(mr, quick, slower)
        found.append((np.log(time / two_parts(np.array([0.5]), quick, slower)), PARTS_SHARE / len(PARTS)))
    return found


def resistances(mr: Array, b: float, p: float) -> Array:
    """Dimensionless time at which the free moisture ratio has fallen to `mr`."""
    internal = -np.log(mr) if p == 1.0 else (mr ** (1.0 - p) - 1.0) / (p - 1.0)
    return np.asarray(internal + b * (1.0 - mr))


def two_periods(mr: Array, c: float) -> Array:
    """Dimensionless time at which the moisture ratio has fallen to `mr` where the rate is constant down to `c`."""
    return np.asarray(np.where(mr > c, 1.0 - mr, 1.0 - c - c * np.log(np.minimum(mr, c) / c)))


def two_parts(mr: Array, quick: float, slower: float) -> Array:
    """Dimensionless time at which the moisture ratio has fallen to `mr` where this share dries at rate 1, and the
    rest so many times slower."""
    time = np.concatenate(([0.0], np.geomspace(1e-7, 40.0 * slower, 4000)))
    left = np.log(quick * np.exp(-time) + (1.0 - quick) * np.exp(-time / slower))
    return np.interp(-np.log(mr), -left, time)


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
