"""What comes out of fitting drying curves: one `Fit` a model, and the `CurveSet` of a run."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from dryhouse.science.curves.model import Array
from dryhouse.science.curves.models import model
from dryhouse.science.messages import Message


@dataclass(frozen=True, slots=True)
class Fit:
    """One model fitted to one run by least squares on MR.

    `parameters` maps a name to (value, standard error); the error is None where the data leave it open.
    With N weighings and p parameters: `rmse` = sqrt(SSE/N); `reduced_chi2` = SSE/(N-p), None where N = p;
    `r2` = 1 - SSE/sum((MR - mean MR)^2); `aicc` = N ln(SSE/N) + 2(p+1) + 2(p+1)(p+2)/(N-p-2), counting the
    noise as a parameter, infinite where N is too small for it. Papers define RMSE in two ways
    (SSE/N and SSE/(N-p)): compare it across papers only after checking which.
    """

    name: str
    formula: str
    parameters: Mapping[str, tuple[float, float | None]]
    units: Mapping[str, str]
    sse: float
    rmse: float
    r2: float
    reduced_chi2: float | None
    aicc: float
    n: int
    last_hour: float
    warnings: tuple[Message, ...] = ()

    @property
    def values(self) -> Array:
        """The parameters alone, in the order of the formula."""
        return np.array([value for value, _ in self.parameters.values()])

    def at(self, hours: ArrayLike) -> Array:
        """MR by this fit at these times (h from the first weighing)."""
        return model(self.name).curve(np.asarray(hours, dtype=float), self.values)


@dataclass(frozen=True, slots=True)
class CurveSet:
    """Every model fitted to a run, and which one to show.

    `fits` holds those the weighings carry; `chosen` is the best of them by AICc, None where nothing was
    fitted. `why` says why this one, or why none. `warnings` are about the weighings.
    """

    hours: tuple[float, ...]
    mr: tuple[float, ...]
    fits: tuple[Fit, ...]
    chosen: Fit | None
    why: Message
    warnings: tuple[Message, ...] = ()

    def fit(self, name: str) -> Fit | None:
        """The fit of that model, or None where it was not fitted."""
        return next((f for f in self.fits if f.name == name), None)
