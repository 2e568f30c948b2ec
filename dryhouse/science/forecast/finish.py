"""From the posterior to answers: when the target is reached, and the mass on the way."""

from __future__ import annotations

from functools import cache

import numpy as np
from numpy.typing import NDArray

from dryhouse.science.curves.model import Array
from dryhouse.science.forecast.answer import Finish
from dryhouse.science.forecast.engine import Posterior, clock_error
from dryhouse.science.forecast.shapes import FIRST, STEP, Shapes

QUANTILES = np.array([0.10, 0.25, 0.50, 0.75, 0.90])
_CLOCKS = 3
"""Errors of the clock looked at for every cell and dry matter: over thousands of these they are spread evenly."""


def changed_pace(share: Array) -> Array:
    """The clock's error, in units of its size, that this share of runs stay below.

    Student's t with two degrees of freedom, its middle 90 % as wide as the normal distribution's (1.64 / 2.92):
    most runs keep their pace, and now and then one changes it.
    """
    return np.asarray(0.563 * (2.0 * share - 1.0) / np.sqrt(2.0 * share * (1.0 - share)))


def log_time_at(table: Shapes, shape: NDArray[np.intp], mr: Array) -> Array:
    """ln(time/half-time) at which each cell's curve passes `mr`; inf where it never does."""
    out = np.full(mr.shape, np.inf)
    x = FIRST + STEP * np.arange(table.mr.shape[1])
    for s in np.flatnonzero(np.bincount(shape)):
        of = shape == s
        row = table.mr[s]
        out[of] = np.interp(-mr[of], -row, x)
        out[of & (mr <= row[-1])] = np.inf
    out[mr <= 0] = np.inf
    return out


def finish_times(table: Shapes, found: Posterior, wet: float) -> tuple[Array, Array]:
    """Weighted finish times (h) to a target moisture of `wet` (wet basis, as a fraction); inf where never reached.

    Every cell has the dry matter that goes with its level, so that the target mass moves with it. The clock's own
    error past the last weighing is drawn evenly. Times before the last weighing are dropped, since the target
    had not been reached by then; if all are, it is due now.
    """
    aim = found.solids / (1.0 - wet)
    level = found.level[:, None]
    mr = (aim - level) / (1.0 - level)
    nodes = aim.shape[1]
    shape = np.repeat(found.shape, nodes)
    centre = log_time_at(table, shape, mr.ravel()) * np.repeat(found.stretch, nodes)
    centre = centre + np.repeat(found.log_half, nodes)
    begun = np.log(found.last_hour) if found.last_hour > 0 else None
    ahead = np.maximum(centre - begun, 0.0) if begun is not None else np.full(centre.shape, 1.0)
    spread = np.repeat(found.tau, nodes) * clock_error(np.where(np.isfinite(ahead), ahead, 0.0))
    log_time = centre[:, None] + spread[:, None] * _clock_errors(len(centre) * _CLOCKS).reshape(-1, _CLOCKS)
    share = np.repeat(found.weight, nodes)[:, None] / (nodes * _CLOCKS)
    weight = np.broadcast_to(share, log_time.shape)
    good = np.ones(log_time.shape, bool) if begun is None else log_time > begun + 1e-3
    if begun is not None and not good.any():
        log_time, good = np.full(log_time.shape, begun + 1e-3), ~good
    time = np.exp(np.minimum(log_time[good], 50.0))
    return np.where(time > 1e15, np.inf, time), weight[good]


def weighted_quantiles(values: Array, weight: Array, at: Array = QUANTILES) -> Array:
    """Quantiles of a weighted sample by linear interpolation of its running weight."""
    order = np.argsort(values)
    value, run = values[order], np.cumsum(weight[order])
    run = (run - 0.5 * weight[order]) / run[-1]
    place = np.searchsorted(run, at)
    right = np.minimum(place, len(value) - 1)
    left = np.maximum(right - 1, 0)
    gap = run[right] - run[left]
    part = np.where(gap > 0, np.clip((at - run[left]) / np.where(gap > 0, gap, 1.0), 0.0, 1.0), 0.0)
    with np.errstate(invalid="ignore"):
        between = value[left] + part * (value[right] - value[left])
    return np.where(np.isfinite(value[right]), between, value[right])


def finish(times: Array, weight: Array) -> Finish:
    """The five quantiles of the finish."""
    return Finish(*(float(q) for q in weighted_quantiles(times, weight)))


def sample_cells(found: Posterior, count: int) -> tuple[NDArray[np.intp], Array]:
    """Cell numbers in proportion to their weight at even spacing, and an error of the clock for each."""
    run = np.cumsum(found.weight)
    cells = np.searchsorted(run, (np.arange(count) + 0.5) / count * run[-1])
    cells = np.minimum(cells, len(run) - 1)
    return cells, _clock_errors(count)


def mr_along(table: Shapes, shape: NDArray[np.intp], at: Array) -> Array:
    """MR of each cell's own shape at its own ln(time/half-time): `at` is (cells, times)."""
    place = np.clip((at - FIRST) / STEP, 0.0, table.mr.shape[1] - 1.001)
    base = place.astype(np.intp)
    part = place - base
    row = shape[:, None]
    return np.asarray((1.0 - part) * table.mr[row, base] + part * table.mr[row, base + 1])


def paths(table: Shapes, found: Posterior, hours: Array, count: int = 400) -> tuple[Array, Array]:
    """w = m/m0 at these hours (all past the last weighing) along sampled curves: (count, len(hours)); and the dry
    matter of each curve as a share of m0."""
    cells, error = sample_cells(found, count)
    begun = max(found.last_hour, 1e-9)
    log_hours = np.log(np.maximum(hours, 1e-9))
    ahead = log_hours - np.log(begun) if found.last_hour > 0 else np.ones(len(hours))
    wander = found.tau[cells, None] * error[:, None] * clock_error(ahead)[None, :]
    at = (log_hours[None, :] - wander - found.log_half[cells, None]) / found.stretch[cells, None]
    mr = mr_along(table, found.shape[cells], at)
    level = found.level[cells, None]
    w = level + (1.0 - level) * mr
    solids = found.solids[cells, (np.arange(count) * 3) % found.solids.shape[1]]
    return np.asarray(np.minimum.accumulate(w, axis=1)), solids


@cache
def _clock_errors(count: int) -> Array:
    """Errors of the clock in an order that is spread evenly wherever it is cut (golden ratio steps)."""
    return changed_pace(np.asarray(((np.arange(count) + 0.5) * 0.6180339887498949) % 1.0, dtype=np.float64))
