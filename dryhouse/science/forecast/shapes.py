"""The shapes a drying curve may have, each scaled so that half of the free water is gone at time 1.

Two families, both with time written as a function of the free moisture ratio MR:

    Page             T = (-ln MR)^(1/n)
    two resistances  T = internal(MR; p) + b (1 - MR),  internal = (MR^(1-p) - 1)/(p - 1), or -ln MR for p = 1

The second is the constant-rate period and the falling-rate period as two resistances in series: b is how much
the evaporation at the surface counts against the movement of water inside, and p the order of the falling rate
(p < 1 ends sooner than first order, p > 1 drags on). b = 0, p = 1 is Lewis. Large b is a long constant rate.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

import numpy as np

from dryhouse.science.curves.model import Array

STEP = 0.02
"""Spacing of the table in ln(time / half-time)."""
FIRST, LAST = -6.0, 4.0
PAGE_N = tuple(np.round(np.arange(0.55, 1.96, 0.1), 2).tolist())
SURFACE_B = (0.0, 0.4, 1.0, 2.0, 4.0, 9.0)
ORDER_P = (0.5, 0.75, 1.0, 1.25, 1.5)


@dataclass(frozen=True, slots=True)
class Shapes:
    """Every shape in one table: `mr[s, j]` at ln(time/half-time) = FIRST + j STEP, and its prior weight."""

    names: tuple[str, ...]
    mr: Array
    log_prior: Array
    page_n: Array
    """The Page exponent that comes nearest to each shape, so that a prior on n can weigh every shape."""


@cache
def shapes() -> Shapes:
    """The table, made once."""
    x = np.asarray(FIRST + STEP * np.arange(round((LAST - FIRST) / STEP) + 1), dtype=np.float64)
    names, rows, prior = [], [], []
    for n in PAGE_N:
        names.append(f"Page n={n:g}")
        rows.append(np.exp(-np.log(2.0) * np.exp(n * x)))
        prior.append(-0.5 * ((n - 1.05) / 0.3) ** 2 - np.log(len(PAGE_N)))
    fine = 1.0 - np.concatenate((np.geomspace(1e-6, 0.5, 400), 1.0 - np.geomspace(0.499, 1e-9, 1200)))
    for p in ORDER_P:
        for b in SURFACE_B:
            names.append(f"resistances b={b:g} p={p:g}")
            log_time = np.log(resistances(fine, b, p) / resistances(np.array([0.5]), b, p))
            rows.append(np.interp(x, log_time, fine, left=1.0, right=0.0))
            prior.append(-0.5 * ((p - 1.0) / 0.3) ** 2 - np.log(len(SURFACE_B) * len(ORDER_P)))
    table = np.array(rows)
    return Shapes(tuple(names), table, np.array(prior), _nearest_n(x, table))


def resistances(mr: Array, b: float, p: float) -> Array:
    """Dimensionless time at which the free moisture ratio has fallen to `mr`."""
    internal = -np.log(mr) if p == 1.0 else (mr ** (1.0 - p) - 1.0) / (p - 1.0)
    return np.asarray(internal + b * (1.0 - mr))


def _nearest_n(x: Array, table: Array) -> Array:
    """n of the Page curve through MR 0.8 and 0.2 of each shape."""
    found = []
    for row in table:
        early, late = (np.interp(-v, -row, x) for v in (0.8, 0.2))
        found.append(np.log(np.log(0.2) / np.log(0.8)) / (late - early))
    return np.array(found)
