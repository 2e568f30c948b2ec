"""Logarithmic: MR = a exp(-k t) + c, first order towards a level c that need not be zero."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np

from dryhouse.science.curves.model import Array, Model, Parameter, Searched
from dryhouse.science.curves.separable import decays, separated


def curve(t: Array, p: Array) -> Array:
    """MR at time t (h)."""
    return np.asarray(p[..., 0:1] * np.exp(-p[..., 1:2] * t) + p[..., 2:3])


def both(t: Array, p: Array) -> tuple[Array, Array]:
    """MR and its slopes by a, k and c."""
    a, k, c = p.tolist()
    decay = np.exp(-k * t)
    falling = a * decay
    return falling + c, np.array([decay, -t * falling, np.ones(len(t))])


def search(t: Array, mr: Array, k: float, n: float, simpler: Sequence[float] = ()) -> Searched:
    """The rate alone is searched: a and c follow from it."""

    def shapes(q: list[float], rows: Array) -> None:
        decays(q, t, rows[:1], rows[2:3], rows[3:4])
        rows[1] = 1.0

    (a, rate, c) = MODEL.parameters
    found = separated(
        shapes, mr, [math.log(0.85) + math.log(k) / n], (a.low, a.high, c.low, c.high),
        math.log(rate.low), math.log(rate.high),
    )  # fmt: skip
    level = found.amplitudes
    return np.array([level[0], math.exp(found.searched[0]), level[1]]), found.sse, found.settled, found.rounds


MODEL = Model(
    "logarithmic",
    "MR = a exp(-k t) + c",
    (Parameter("a", "", 0.05, 20.0), Parameter("k", "1/h", 1e-6, 1e3), Parameter("c", "", -19.0, 0.95)),
    curve,
    both,
    None,
    "Yagcioglu et al. 1999; equation as listed in Sci. Rep. 15 (2025) s41598-025-29436-x, Table 3",
    needs=8,
    search=search,
)
