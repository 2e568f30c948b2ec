"""Fitting one drying curve model to one run, with its statistics and the warnings it deserves."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np

from dryhouse.science.curves.model import Array, Model, page_line
from dryhouse.science.curves.result import Fit
from dryhouse.science.curves.solver import Effort, Solution, least_squares
from dryhouse.science.messages import Message, message
from dryhouse.science.messages import MessageKind as Told

BELOW_NOTHING = -0.005
"""A moisture ratio further below zero than this is not rounding."""
_AHEAD = np.linspace(1.0, 3.0, 41)
"""How far past the last weighing a curve is looked at, as multiples of its hour."""


def fit(
    model: Model, hours: Array, mr: Array, line: tuple[float, float] | None = None, simpler: Fit | None = None
) -> Fit:
    """The model through the weighings by least squares; `hours` ascending from 0, `mr` (n,), n >= parameters.

    `line` (from `page_line`) and `simpler` (the fit of a model that this one contains) save work where they are
    known.
    """
    found = solve(model, hours, mr, line or page_line(hours, mr), simpler)
    n, p, sse = len(mr), len(model.parameters), found.sse
    about_mean = mr - mr.sum() / n
    spread = float(about_mean @ about_mean)
    values, errors = found.parameters.tolist(), standard_errors(found, n)
    warnings = beyond_the_data(model, found.parameters, float(hours[-1]))
    if any(e is None or e > abs(v) > 0 for v, e in zip(values, errors, strict=True)):
        warnings = (message(Told.NOT_PINNED_DOWN, model=model.name), *warnings)
    if not found.settled:
        warnings = (message(Told.NOT_SETTLED, model=model.name), *warnings)
    return Fit(
        name=model.name,
        formula=model.formula,
        parameters={q.name: (v, e) for q, v, e in zip(model.parameters, values, errors, strict=True)},
        units={q.name: q.unit for q in model.parameters},
        sse=sse,
        rmse=math.sqrt(sse / n),
        r2=1.0 - sse / spread if spread > 0 else 0.0,
        reduced_chi2=sse / (n - p) if n > p else None,
        aicc=aicc(sse, n, p),
        n=n,
        last_hour=float(hours[-1]),
        warnings=warnings,
    )


_OF_MANY = Effort(rounds=60, tolerance=1e-6, gain_tolerance=1e-6, exact=False)
_OF_FEW = replace(_OF_MANY, damping=1e-5)
"""A fit of few parameters starts next to its end."""


def solve(model: Model, hours: Array, mr: Array, line: tuple[float, float], simpler: Fit | None) -> Solution:
    """The best of the model's starts: all are compared on the data, and the search runs from the nearest.

    `line` is Page's k and n from `page_line`. Where the search ends worse than the `simpler` fit, of a model that
    this one contains, it runs from the next ones too. A model with a search of its own is left to that.
    """
    if model.search is not None:
        known = () if simpler is None else [value for value, _ in simpler.parameters.values()]
        found, sse, settled, rounds = model.search(hours, mr, *line, known)
        return Solution(found, sse, model.both(hours, found)[1], settled, rounds)
    assert model.starts is not None
    candidates = np.minimum(np.maximum(model.starts(*line, max(float(hours[-1]), 1e-9)), model.low), model.high)
    rest = mr - model.curve(hours, candidates)
    beat = simpler.sse if simpler is not None else math.inf if len(model.parameters) < 3 else 0.0
    best: Solution | None = None
    effort = _OF_MANY if len(model.low) > 3 else _OF_FEW
    for i in np.argsort((rest * rest).sum(axis=1))[:3]:
        end = least_squares(lambda p: model.both(hours, p), mr, candidates[i], model.low, model.high, effort)
        best = end if best is None or end.sse < best.sse else best
        if best.sse <= beat * (1 + 1e-5):
            break
    assert best is not None
    return best


def standard_errors(found: Solution, n: int) -> list[float | None]:
    """sqrt(diag((J'J)^-1) SSE/(n-p)); None where the slopes are degenerate or no freedom is left."""
    p = len(found.parameters)
    normal = found.slopes @ found.slopes.T
    size = np.sqrt(normal.diagonal())
    if n <= p or not size.min() > 0:
        return [None] * p
    correlated = normal / (size[:, None] * size)
    if p <= 2:
        apart = 1.0 - float(correlated[0, -1]) ** 2 if p == 2 else 1.0
        variance = np.full(p, 1.0 / apart if apart > 0.0 else math.inf)
    else:
        try:
            variance = np.linalg.inv(correlated).diagonal()
        except np.linalg.LinAlgError:
            return [None] * p
    if not (variance.min() > 0 and variance.max() < 1e13):
        return [None] * p
    errors: list[float | None] = (np.sqrt(variance * (found.sse / (n - p))) / size).tolist()
    return errors


def aicc(sse: float, n: int, p: int) -> float:
    """Akaike's criterion for small samples (Hurvich & Tsai 1989), the noise counted as a parameter."""
    q = p + 1
    if n - q - 1 <= 0:
        return math.inf
    return n * math.log(max(sse, 1e-300) / n) + 2 * q + 2 * q * (q + 1) / (n - q - 1)


def beyond_the_data(model: Model, parameters: Array, last_hour: float) -> tuple[Message, ...]:
    """What this fit would say past the last weighing that drying cannot do."""
    if model.name == "logarithmic" and parameters[2] < BELOW_NOTHING:
        return (message(Told.LEVELS_BELOW_ZERO, model=model.name, level=float(parameters[2])),)
    if model.name == "Midilli–Kucuk":
        later = model.curve(_AHEAD * max(last_hour, 1e-9), parameters)
        if later.min() < BELOW_NOTHING:
            return (message(Told.FALLS_BELOW_ZERO, model=model.name),)
        if (later[1:] - later[:-1]).max() > 1e-6:
            return (message(Told.RISES_AGAIN, model=model.name),)
    return ()
