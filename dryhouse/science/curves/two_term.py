"""Two-term: MR = a exp(-k0 t) + b exp(-k1 t), a quick and a slow part, neither below nothing.

Ill-conditioned with few weighings; a run that starts slowly makes it fall together with Henderson–Pabis."""

from __future__ import annotations

import numpy as np

from dryhouse.science.curves.model import Array, Model, Parameter


def curve(t: Array, p: Array) -> Array:
    """MR at time t (h)."""
    return np.asarray(p[..., 0:1] * np.exp(-p[..., 1:2] * t) + p[..., 2:3] * np.exp(-p[..., 3:4] * t))


def both(t: Array, p: Array) -> tuple[Array, Array]:
    """MR and its slopes by a, k0, b and k1."""
    a, k0, b, k1 = p.tolist()
    quick, slow = np.exp(-k0 * t), np.exp(-k1 * t)
    first, second = a * quick, b * slow
    return first + second, np.array([quick, -t * first, slow, -t * second])


def starts(k: float, n: float, last: float) -> Array:
    """Quick parts of several shares at several ratios of the two rates; and two alike for a slow beginning.

    Such a run is fitted best by Henderson–Pabis with a and k a little above 1 and the rate of Page's line.
    """
    rate = k ** (1.0 / n)
    rows = [
        [share, rate * quick, 1.0 - share, rate * slow]
        for share in (0.15, 0.3, 0.5, 0.7)
        for quick, slow in ((1.4, 0.75), (2.0, 0.65), (3.0, 0.7), (3.0, 0.5), (10.0, 0.8))
    ]
    blunt = max(n - 1.0, 0.0)
    half, near = 0.5 + 0.17 * blunt, rate * (1.0 + 0.48 * blunt)
    rows.append([half, 1.005 * near, half, 0.995 * near])
    return np.array(rows)


MODEL = Model(
    "two-term",
    "MR = a exp(-k0 t) + b exp(-k1 t)",
    (
        Parameter("a", "", 0.0, 3.0),
        Parameter("k0", "1/h", 1e-6, 1e4),
        Parameter("b", "", 0.0, 3.0),
        Parameter("k1", "1/h", 1e-6, 1e4),
    ),
    curve,
    both,
    starts,
    "Henderson 1974; equation as listed in Sci. Rep. 15 (2025) s41598-025-29436-x, Table 3",
    needs=10,
)
