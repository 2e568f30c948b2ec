"""Page: MR = exp(-k t^n). The unit of k is time to the power -n, so k per hour^n = 60^n times k per minute^n."""

from __future__ import annotations

import numpy as np

from dryhouse.science.curves.model import Array, Model, Parameter, log_of


def curve(t: Array, p: Array) -> Array:
    """MR at time t (h)."""
    return np.asarray(np.exp(-p[..., 0:1] * t ** p[..., 1:2]))


def both(t: Array, p: Array) -> tuple[Array, Array]:
    """MR and its slopes by k and n."""
    k, n = p.tolist()
    power = t**n
    mr = np.exp(-k * power)
    by_k = -power * mr
    return mr, np.array([by_k, k * by_k * log_of(t)])


def starts(k: float, n: float, last: float) -> Array:
    """The straight line of ln(-ln MR) on ln t, and first order."""
    return np.array([[k, n], [k ** (1.0 / n), 1.0]])


def per_hour(k_per_minute: float, n: float) -> float:
    """k per hour^n from k per minute^n."""
    return float(k_per_minute * 60.0**n)


MODEL = Model(
    "Page",
    "MR = exp(-k t^n)",
    (Parameter("k", "1/h^n", 1e-9, 1e4), Parameter("n", "", 0.1, 6.0)),
    curve,
    both,
    starts,
    "Page 1949; equation as listed in Sci. Rep. 15 (2025) s41598-025-29436-x, Table 3",
    needs=5,
)
