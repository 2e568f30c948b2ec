"""What a drying curve model is: a formula over arrays, its slopes, its parameters and where to start."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]


Searched = tuple[Array, float, bool, int]
"""The parameters found, the sum of squares they leave, whether the search settled, and in how many rounds."""


@dataclass(frozen=True, slots=True)
class Parameter:
    """One parameter of a model with the bounds it is kept in. `unit` uses h for hours; empty is a plain number."""

    name: str
    unit: str
    low: float
    high: float


@dataclass(frozen=True, slots=True)
class Model:
    """One thin-layer drying model, MR as a function of time in hours.

    `curve(t, p)` takes p with the parameters along the last axis and broadcasts over any axes before it,
    giving shape (..., len(t)). `both(t, p)` takes one parameter vector and gives the curve and its slopes, one
    row a parameter: (len(t),) and (len(p), len(t)). `starts(k, n, last)` gives candidate parameter vectors,
    shape (candidates, len(p)), from Page's line through the data and the last time; a model without them has a
    `search` of its own.
    """

    name: str
    formula: str
    parameters: tuple[Parameter, ...]
    curve: Callable[[Array, Array], Array]
    both: Callable[[Array, Array], tuple[Array, Array]]
    starts: Callable[[float, float, float], Array] | None
    source: str
    needs: int
    """Weighings below which the model is not fitted: more parameters than they carry."""
    search: Callable[[Array, Array, float, float, Sequence[float]], Searched] | None = None
    """From times, moisture ratios, Page's k and n, and the parameters of a simpler model's fit (empty where there
    is none) to the best there are."""

    low: Array = field(init=False, repr=False, compare=False)
    high: Array = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        object.__setattr__(self, "low", np.array([p.low for p in self.parameters]))
        object.__setattr__(self, "high", np.array([p.high for p in self.parameters]))


def page_line(t: Array, mr: Array) -> tuple[float, float]:
    """k (per h^n) and n of the straight line ln(-ln MR) = ln k + n ln t through the middle of the data.

    Uses the points with t > 0 and 0.01 < MR < 0.99; (1/last time, 1) where fewer than two remain.
    """
    usable = (t > 0) & (mr > 0.01) & (mr < 0.99)
    if np.count_nonzero(usable) < 2:
        return 1.0 / max(float(t[-1]), 1e-9), 1.0
    x, y = np.log(t[usable]), np.log(-np.log(mr[usable]))
    spread = x - x.mean()
    square = float(spread @ spread)
    n = float(spread @ y) / square if square > 0 else 1.0
    n = min(max(n, 0.2), 4.0)
    return float(np.exp(y.mean() - n * x.mean())), n


def log_of(t: Array) -> Array:
    """ln t, with 0 where t is 0 (there t^n ln t is 0 as well)."""
    return np.log(np.where(t > 0, t, 1.0))
