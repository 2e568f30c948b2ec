"""Two-term: MR = a exp(-k0 t) + b exp(-k1 t), a quick and a slow part. Ill-conditioned with few weighings."""

from __future__ import annotations

import numpy as np

from dryhouse.science.curves.model import Array, Model, Parameter, first_order_rate


def curve(t: Array, p: Array) -> Array:
    """MR at time t (h)."""
    return np.asarray(p[..., 0:1] * np.exp(-p[..., 1:2] * t) + p[..., 2:3] * np.exp(-p[..., 3:4] * t))


def jacobian(t: Array, p: Array) -> Array:
    """Slopes of MR by a, k0, b and k1."""
    a, k0, b, k1 = p
    quick, slow = np.exp(-k0 * t), np.exp(-k1 * t)
    return np.column_stack((quick, -a * t * quick, slow, -b * t * slow))


def starts(t: Array, mr: Array) -> Array:
    """A quick part of a fifth, a half or four fifths, at several ratios of the two rates."""
    k = first_order_rate(t, mr)
    rows = [
        [share, k * quick, 1.0 - share, k * slow]
        for share in (0.2, 0.5, 0.8)
        for quick, slow in ((1.5, 0.7), (3.0, 0.5), (10.0, 0.8))
    ]
    rows.append([-0.5, 2.0 * k, 1.5, 1.2 * k])
    return np.array(rows)


MODEL = Model(
    "two-term",
    "MR = a exp(-k0 t) + b exp(-k1 t)",
    (
        Parameter("a", "", -20.0, 20.0),
        Parameter("k0", "1/h", 1e-6, 1e4),
        Parameter("b", "", -20.0, 20.0),
        Parameter("k1", "1/h", 1e-6, 1e4),
    ),
    curve,
    jacobian,
    starts,
    "Henderson 1974; equation as listed in Sci. Rep. 15 (2025) s41598-025-29436-x, Table 3",
    needs=10,
)
