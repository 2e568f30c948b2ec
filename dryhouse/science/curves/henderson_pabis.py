"""Henderson–Pabis: MR = a exp(-k t), the first term of the diffusion series; it need not start at 1."""

from __future__ import annotations

import numpy as np

from dryhouse.science.curves.model import Array, Model, Parameter


def curve(t: Array, p: Array) -> Array:
    """MR at time t (h)."""
    return np.asarray(p[..., 0:1] * np.exp(-p[..., 1:2] * t))


def both(t: Array, p: Array) -> tuple[Array, Array]:
    """MR and its slopes by a and k."""
    a, k = p.tolist()
    decay = np.exp(-k * t)
    mr = a * decay
    return mr, np.array([decay, -t * mr])


def starts(k: float, n: float, last: float) -> Array:
    """Starting at 1 and a little to either side."""
    rate = k ** (1.0 / n)
    return np.array([[1.0, rate], [1.1, 1.15 * rate], [0.9, 0.85 * rate]])


MODEL = Model(
    "Henderson–Pabis",
    "MR = a exp(-k t)",
    (Parameter("a", "", 0.2, 3.0), Parameter("k", "1/h", 1e-6, 1e3)),
    curve,
    both,
    starts,
    "Henderson & Pabis 1961; equation as listed in Sci. Rep. 15 (2025) s41598-025-29436-x, Table 3",
    needs=5,
)
