"""Logarithmic: MR = a exp(-k t) + c, first order towards a level c that need not be zero."""

from __future__ import annotations

import numpy as np

from dryhouse.science.curves.model import Array, Model, Parameter


def curve(t: Array, p: Array) -> Array:
    """MR at time t (h)."""
    return np.asarray(p[..., 0:1] * np.exp(-p[..., 1:2] * t) + p[..., 2:3])


def both(t: Array, p: Array) -> tuple[Array, Array]:
    """MR and its slopes by a, k and c."""
    a, k, c = p.tolist()
    decay = np.exp(-k * t)
    falling = a * decay
    return falling + c, np.array([decay, -t * falling, np.ones(len(t))])


def starts(k: float, n: float, last: float) -> Array:
    """Levels from well below zero water to above it, each starting at 1."""
    level = np.array([-1.0, -0.3, -0.1, 0.0, 0.15])
    rate = np.array([0.4, 0.65, 0.85, 1.0, 1.5]) * k ** (1.0 / n)
    return np.column_stack((1.0 - level, rate, level))


MODEL = Model(
    "logarithmic",
    "MR = a exp(-k t) + c",
    (Parameter("a", "", 0.05, 20.0), Parameter("k", "1/h", 1e-6, 1e3), Parameter("c", "", -19.0, 0.95)),
    curve,
    both,
    starts,
    "Yagcioglu et al. 1999; equation as listed in Sci. Rep. 15 (2025) s41598-025-29436-x, Table 3",
    needs=8,
)
