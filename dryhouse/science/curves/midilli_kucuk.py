"""Midilli–Kucuk: MR = a exp(-k t^n) + b t. Fits almost anything, and must not be carried past the data."""

from __future__ import annotations

import numpy as np

from dryhouse.science.curves.model import Array, Model, Parameter, log_of


def curve(t: Array, p: Array) -> Array:
    """MR at time t (h)."""
    return np.asarray(p[..., 0:1] * np.exp(-p[..., 1:2] * t ** p[..., 2:3]) + p[..., 3:4] * t)


def both(t: Array, p: Array) -> tuple[Array, Array]:
    """MR and its slopes by a, k, n and b."""
    a, k, n, b = p.tolist()
    power = t**n
    decay = np.exp(-k * power)
    by_k = -a * power * decay
    return a * decay + b * t, np.array([decay, by_k, k * by_k * log_of(t), t])


def starts(k: float, n: float, last: float) -> Array:
    """Page's line with no drift, and slower and blunter curves whose drift takes the last point down."""
    rate = k ** (1.0 / n)
    rows = [[1.0, k, n, 0.0], [1.0, rate, 1.0, 0.0]]
    for power, share in ((0.6, -0.1), (0.9, -0.15), (1.2, 0.03)):
        rows.append([1.0, (0.8 * rate) ** power, power, share / last])
    return np.array(rows)


MODEL = Model(
    "Midilli–Kucuk",
    "MR = a exp(-k t^n) + b t",
    (
        Parameter("a", "", 0.2, 3.0),
        Parameter("k", "1/h^n", 1e-9, 1e4),
        Parameter("n", "", 0.1, 6.0),
        Parameter("b", "1/h", -20.0, 20.0),
    ),
    curve,
    both,
    starts,
    "Midilli, Kucuk & Yapar 2002; equation as listed in Sci. Rep. 15 (2025) s41598-025-29436-x, Table 3",
    needs=10,
)
