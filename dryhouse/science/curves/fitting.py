"""Fitting one drying curve model to one run, with its statistics and the warnings it deserves."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np

from dryhouse.science.curves.model import Array, Model
from dryhouse.science.curves.result import Fit
from dryhouse.science.curves.solver import Solution, least_squares


def fit(model: Model, hours: Array, mr: Array) -> Fit:
    """The model through the weighings by least squares; `hours` ascending from 0, `mr` (n,), n >= parameters."""
    found = solve(model, hours, mr)
    n, p = len(mr), len(model.parameters)
    sse = found.sse
    spread = float(np.sum((mr - mr.mean()) ** 2))
    errors = standard_errors(found, n)
    warnings = []
    if not found.settled:
        warnings.append(f"{model.name}: the search did not settle; its parameters are not to be trusted.")
    if any(e is None or (abs(v) > 0 and e > abs(v)) for v, e in zip(found.parameters, errors, strict=True)):
        warnings.append(f"{model.name}: the weighings do not pin down every parameter.")
    fitted = Fit(
        name=model.name,
        formula=model.formula,
        parameters={
            q.name: (float(v), e) for q, v, e in zip(model.parameters, found.parameters, errors, strict=True)
        },
        units={q.name: q.unit for q in model.parameters},
        sse=sse,
        rmse=math.sqrt(sse / n),
        r2=1.0 - sse / spread if spread > 0 else 0.0,
        reduced_chi2=sse / (n - p) if n > p else None,
        aicc=aicc(sse, n, p),
        n=n,
        last_hour=float(hours[-1]),
        warnings=tuple(warnings),
    )
    return replace(fitted, warnings=(*fitted.warnings, *beyond_the_data(fitted)))


def solve(model: Model, hours: Array, mr: Array) -> Solution:
    """The best of the model's starts: all are tried on the data, the search runs from the two best."""
    candidates = model.starts(hours, mr)
    low, high = model.low, model.high
    candidates = np.minimum(np.maximum(candidates, low), high)
    rest = mr - model.curve(hours, candidates)
    order = np.argsort(np.einsum("ij,ij->i", rest, rest))
    ends = []
    for i in order[: 2 if len(low) > 2 else 1]:
        end = least_squares(
            lambda p: model.curve(hours, p),
            lambda p: model.jacobian(hours, p),
            mr,
            candidates[i],
            low,
            high,
            rounds=120,
            tolerance=1e-9,
        )
        ends.append(end)
    best = min(ends, key=lambda e: e.sse)
    if model.name == "two-term" and best.parameters[1] < best.parameters[3]:
        order = np.array([2, 3, 0, 1])
        best = replace(best, parameters=best.parameters[order], jacobian=best.jacobian[:, order])
    return best


def standard_errors(found: Solution, n: int) -> list[float | None]:
    """sqrt(diag((J'J)^-1) SSE/(n-p)); None where the slopes are degenerate or no freedom is left."""
    p = len(found.parameters)
    if n <= p:
        return [None] * p
    size = np.sqrt(np.sum(found.jacobian**2, axis=0))
    if not np.all(size > 0):
        return [None] * p
    _, r = np.linalg.qr(found.jacobian / size)
    if np.abs(r.diagonal()).min() < 1e-10:
        return [None] * p
    inverse = np.linalg.inv(r)
    errors = np.sqrt(np.sum(inverse**2, axis=1) * found.sse / (n - p)) / size
    return [float(e) for e in errors]


def aicc(sse: float, n: int, p: int) -> float:
    """Akaike's criterion for small samples (Hurvich & Tsai 1989), the noise counted as a parameter."""
    q = p + 1
    if n - q - 1 <= 0:
        return math.inf
    return n * math.log(max(sse, 1e-300) / n) + 2 * q + 2 * q * (q + 1) / (n - q - 1)


def beyond_the_data(fitted: Fit) -> tuple[str, ...]:
    """What this fit would say past the last weighing that drying cannot do."""
    values = {name: value for name, (value, _) in fitted.parameters.items()}
    if fitted.name == "logarithmic" and values["c"] < -0.005:
        return (
            f"logarithmic: its curve levels off at MR {values['c']:.3f}, below zero water; "
            "it holds only between the weighings.",
        )
    if fitted.name == "Midilli–Kucuk":
        later = fitted.at(np.linspace(fitted.last_hour, 3.0 * max(fitted.last_hour, 1e-9), 41))
        if later.min() < -0.005:
            return ("Midilli–Kucuk: past the last weighing its curve falls below zero water; never read it there.",)
        if np.any(np.diff(later) > 1e-6):
            return ("Midilli–Kucuk: past the last weighing its curve rises again; never read it there.",)
    if fitted.name == "two-term":
        later = fitted.at(np.linspace(fitted.last_hour, 3.0 * max(fitted.last_hour, 1e-9), 41))
        if later.min() < -0.005 or np.any(np.diff(later) > 1e-6):
            return ("two-term: past the last weighing its curve is not one that drying can follow.",)
    return ()
