"""Lewis: first-order drying, MR = exp(-k t)."""

from __future__ import annotations

import numpy as np

from dryhouse.science.curves.model import Array, Model, Parameter


def curve(t: Array, p: Array) -> Array:
    """MR at time t (h)."""
    return np.asarray(np.exp(-p[..., 0:1] * t))


def both(t: Array, p: Array) -> tuple[Array, Array]:
    """MR and its slope by k."""
    mr = np.exp(-p[0] * t)
    return mr, np.array([-t * mr])


def starts(k: float, n: float, last: float) -> Array:
    """The rate at which MR passes 1/e, and half and twice of it."""
    return float(k ** (1.0 / n)) * np.array([[1.0], [0.5], [2.0]])


MODEL = Model(
    "Lewis",
    "MR = exp(-k t)",
    (Parameter("k", "1/h", 1e-6, 1e3),),
    curve,
    both,
    starts,
    "Lewis 1921; equation as listed in Sci. Rep. 15 (2025) s41598-025-29436-x, Table 3",
    needs=5,
)
