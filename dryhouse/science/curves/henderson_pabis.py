"""Henderson–Pabis: MR = a exp(-k t), the first term of the diffusion series; it need not start at 1."""

from __future__ import annotations

import numpy as np

from dryhouse.science.curves.model import Array, Model, Parameter, first_order_rate


def curve(t: Array, p: Array) -> Array:
    """MR at time t (h)."""
    return np.asarray(p[..., 0:1] * np.exp(-p[..., 1:2] * t))


def jacobian(t: Array, p: Array) -> Array:
    """Slopes of MR by a and k."""
    decay = np.exp(-p[1] * t)
    return np.column_stack((decay, -p[0] * t * decay))


def starts(t: Array, mr: Array) -> Array:
    """Starting at 1 and a little to either side."""
    k = first_order_rate(t, mr)
    return np.array([[1.0, k], [1.1, 1.15 * k], [0.9, 0.85 * k]])


MODEL = Model(
    "Henderson–Pabis",
    "MR = a exp(-k t)",
    (Parameter("a", "", 0.2, 3.0), Parameter("k", "1/h", 1e-6, 1e3)),
    curve,
    jacobian,
    starts,
    "Henderson & Pabis 1961; equation as listed in Sci. Rep. 15 (2025) s41598-025-29436-x, Table 3",
    needs=5,
)
