"""Henderson–Pabis: MR = a exp(-k t), the first term of the diffusion series; it need not start at 1."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np

from dryhouse.science.curves.model import Array, Model, Parameter, Searched
from dryhouse.science.curves.separable import one_decay


def curve(t: Array, p: Array) -> Array:
    """MR at time t (h)."""
    return np.asarray(p[..., 0:1] * np.exp(-p[..., 1:2] * t))


def both(t: Array, p: Array) -> tuple[Array, Array]:
    """MR and its slopes by a and k."""
    a, k = p.tolist()
    decay = np.exp(-k * t)
    mr = a * decay
    return mr, np.array([decay, -t * mr])


def search(t: Array, mr: Array, k: float, n: float, simpler: Sequence[float] = ()) -> Searched:
    """The rate alone is searched: a follows from it."""
    a, rate = MODEL.parameters
    found = one_decay(t, mr, math.log(k) / n, (a.low, a.high), (math.log(rate.low), math.log(rate.high)))
    fitted = np.array([found.amplitudes[0], math.exp(found.searched[0])])
    return fitted, found.sse, found.settled, found.rounds


MODEL = Model(
    "Henderson–Pabis",
    "MR = a exp(-k t)",
    (Parameter("a", "", 0.2, 3.0), Parameter("k", "1/h", 1e-6, 1e3)),
    curve,
    both,
    None,
    "Henderson & Pabis 1961; equation as listed in Sci. Rep. 15 (2025) s41598-025-29436-x, Table 3",
    needs=5,
    search=search,
)
