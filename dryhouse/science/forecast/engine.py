"""The exact posterior of a run on a grid: shape of the curve, half-time, level it settles at, size of the errors.

A load of net mass m0 is written as w = m/m0, and w(t) = w_end + (1 - w_end) MR(t / half-time).

Two kinds of error. The scale (and the handling) gives each weighing an independent error. The model is wrong
as well, and for that the run's own clock may go wrong: the logarithm of time wanders as a random walk, its
variance growing by tau^2 for each unit of ln t. Nothing is lost at the start and nothing at the end, where a
wrong clock does not matter. The walk is pinned at the last weighing, and from there on the finish is off by
tau L^0.7 with L = ln(t_finish / t_last): a little more than a walk's L^0.5 far ahead and less close by, since a
run that changes its pace keeps the new one for a while. Both sizes are weighed by what the run shows.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from dryhouse.science.curves.model import Array
from dryhouse.science.forecast.shapes import FIRST, STEP, Shapes, shapes

TAU = np.array([0.03, 0.09, 0.17])
"""Sizes of the clock's error: on whole published runs these make 8 in 10 finishes fall in the 80 % band."""
GROWTH = 0.7
"""Power of ln(time ahead) by which the clock's error grows past the last weighing."""
FARTHEST = 3.5
"""ln(time ahead), or behind, past which the clock's error grows no more."""
TAU_PRIOR = np.array([0.35, 0.4, 0.25])
MOST_CELLS = 6000
"""Where more cells than these matter, so many are drawn in proportion to their weight, evenly."""
TAILS = 4.0
"""Degrees of freedom of the expected half-time: what was expected gives way to weighings that contradict it."""
NOISE = np.array([1.0, 3.0, 8.0])
NOISE_PRIOR = np.array([0.5, 0.35, 0.15])


@dataclass(frozen=True, slots=True)
class Posterior:
    """Cells: shape number, ln half-time (h), settling level w_end, tau; and their weights, summing to 1."""

    shape: NDArray[np.intp]
    log_half: Array
    level: Array
    tau: Array
    weight: Array
    last_hour: float
    solids: Array
    """The dry matter that goes with each cell's level, at nodes of equal weight: (cells, nodes)."""
    number: NDArray[np.intp]
    """Which of the levels each cell has."""


@dataclass(frozen=True, slots=True)
class Levels:
    """The levels a load may settle at, and the dry matter that goes with each, as shares of the first mass."""

    at: Array
    log_weight: Array
    solids: Array
    """The dry matter that goes with each level, at nodes of equal weight: (levels, nodes)."""
    shares: Array
    share_given: Array
    """The weight of each of `shares` where the level is known: (levels, shares)."""


@dataclass(frozen=True, slots=True)
class Expectation:
    """What is thought before the weighings are looked at, on the grid's own terms.

    ln half-time is held at `log_half` with `sd_log_half`; each shape has a further log weight; the settling
    levels considered have log weights and dry matter. `noise` is one weighing's error as a share of m0.
    """

    log_half: float
    sd_log_half: float
    shape_weight: Array
    levels: Levels
    noise: float


@dataclass(frozen=True, slots=True)
class Ground:
    """Where the weight lies: the ln half-times to look at, and -dMR/d ln t along the best rough curve."""

    log_half: Array
    slope: Array


def ground(hours: Array, w: Array, expected: Expectation) -> Ground | None:
    """The half-times that matter, found on a coarse grid; None where nothing was weighed after the start."""
    if len(hours) < 2:
        return None
    table, levels = shapes(), expected.levels
    wide = _log_half_grid(expected, hours, w)
    t, y = thinned(hours[1:], w[1:])
    coarse, few = wide[::4], replace(expected, levels=replace(levels, at=levels.at[::3]))
    rough = _likelihood(table, t, y, coarse, few, expected.noise * NOISE, np.zeros(1), np.ones(1), None)
    peak = np.max(rough, axis=(2, 3))
    best_shape, best_half = np.unravel_index(np.argmax(peak), peak.shape)
    slope = _slope(table, int(best_shape), t, float(coarse[best_half]))
    floor = np.array([max(expected.noise * 2.0, 0.01) * 2.0])
    seen = np.max(_likelihood(table, t, y, coarse, few, floor, TAU[-1:], np.ones(1), slope), axis=(2, 3))
    worth = np.max(seen + (table.log_prior + expected.shape_weight)[:, None], axis=0)
    near = coarse[worth > worth.max() - 14.0]
    step = wide[1] - wide[0]
    grid = wide[(wide >= near.min() - 4 * step) & (wide <= near.max() + 4 * step)]
    return Ground(grid[:: len(grid) // 60] if len(grid) > 90 else grid, slope)


def posterior(hours: Array, w: Array, expected: Expectation, where: Ground | None) -> Posterior:
    """Every cell that matters. `hours` ascending from 0, `w` the masses over the first; `where`, their `ground`."""
    table = shapes()
    prior_shape = table.log_prior + expected.shape_weight
    if where is None:
        return _collect(table, _log_half_grid(expected, hours, w)[::6], expected, prior_shape, None, 0.0)
    t, y = thinned(hours[1:], w[1:])
    found = _likelihood(
        table, t, y, where.log_half, expected, expected.noise * NOISE, TAU, NOISE_PRIOR, where.slope
    )
    return _collect(table, where.log_half, expected, prior_shape, found, float(hours[-1]))


def thinned(t: Array, y: Array, most: int = 24) -> tuple[Array, Array]:
    """At most `most` points: neighbours averaged, the last one kept as it is."""
    if len(t) <= most:
        return t, y
    parts = np.array_split(np.arange(len(t) - 1), most - 1)
    mean_t = np.array([t[p].mean() for p in parts] + [t[-1]])
    return mean_t, np.array([y[p].mean() for p in parts] + [y[-1]])


def _log_half_grid(expected: Expectation, hours: Array, w: Array) -> Array:
    """ln half-time over all that the prior or the data allow, in steps of two table steps."""
    low, high = expected.log_half - 4.0 * expected.sd_log_half, expected.log_half + 4.0 * expected.sd_log_half
    lost = 1.0 - w[-1]
    if len(hours) > 1 and lost > 0:
        guess = float(np.log(hours[-1] * min(max(0.5 * (1.0 - expected.levels.at.mean()) / lost, 0.1), 200.0)))
        low, high = min(guess - 1.5, high - 1.0), max(guess + 1.5, low + 1.0)
        low, high = max(low, guess - 3.5), min(high, guess + 3.5)
    return np.arange(low, high, 2 * STEP)


def clock_error(log_ahead: Array) -> Array:
    """Size of the clock's error, in units of tau, this far ahead of the last weighing in ln(time)."""
    return np.asarray(np.clip(log_ahead, 0.0, FARTHEST) ** GROWTH)


def rows_at(table: Shapes, log_times: Array) -> Array:
    """MR of every shape at these ln(time/half-time): shape (shapes, *log_times.shape)."""
    place = np.clip((log_times - FIRST) / STEP, 0.0, table.mr.shape[1] - 1.001)
    base = place.astype(np.intp)
    part = place - base
    return np.asarray((1.0 - part) * table.mr[:, base] + part * table.mr[:, base + 1])


def _slope(table: Shapes, shape: int, t: Array, log_half: float) -> Array:
    """-dMR/d ln t along the best rough curve."""
    at = np.log(t) - log_half
    before, after = (rows_at(table, at + d)[shape] for d in (-0.1, 0.1))
    return np.asarray((before - after) / 0.2)


def _likelihood(
    table: Shapes,
    t: Array,
    y: Array,
    log_half: Array,
    expected: Expectation,
    noise: Array,
    tau: Array,
    noise_prior: Array,
    slope: Array | None,
) -> Array:
    """log p(weighings | shape, half-time, level, tau), the noise summed out: (shapes, halves, levels, taus)."""
    n = len(t)
    mr = rows_at(table, np.log(t)[:, None] - log_half[None, :])
    levels = expected.levels.at
    span = 1.0 - levels
    if slope is None:
        turn, size = np.eye(n), np.zeros(n)
    else:
        back = np.minimum(np.log(t[-1] / t), FARTHEST)
        walk = np.minimum(back[:, None], back[None, :])
        weight = slope * float(span.mean())
        size, turn = np.linalg.eigh(weight[:, None] * walk * weight[None, :])
        size = np.maximum(size, 0.0)
    data = turn.T @ (y[:, None] - levels[None, :])
    curve = np.einsum("ij,sik->sjk", turn, mr, optimize=True)
    variance = noise[None, :, None] ** 2 + np.multiply.outer(size, tau**2)[:, None, :]
    variance = variance.reshape(n, -1)
    inverse = 1.0 / variance
    square = np.einsum("sik,im->skm", curve**2, inverse, optimize=True)
    own = np.einsum("il,im->lm", data**2, inverse)
    mixed = inverse[:, None, :] * data[:, :, None]
    cross = np.einsum("sik,ilm->sklm", curve, mixed, optimize=True)
    chi2 = own + (span**2)[:, None] * square[:, :, None, :] - 2.0 * span[:, None] * cross
    log = -0.5 * (chi2 + np.log(variance).sum(axis=0))
    log = log.reshape(*log.shape[:3], len(noise), len(tau)) + np.log(noise_prior)[:, None]
    top = log.max(axis=3, keepdims=True)
    return np.asarray(np.log(np.exp(log - top).sum(axis=3)) + top[..., 0, :])


def _collect(
    table: Shapes, log_half: Array, expected: Expectation, prior_shape: Array, found: Array | None, last_hour: float
) -> Posterior:
    """Prior times likelihood: the cells that carry all but a thousandth of the weight, or an even draw of them."""
    pull = -0.5 * (TAILS + 1.0) * np.log1p(((log_half - expected.log_half) / expected.sd_log_half) ** 2 / TAILS)
    log = (
        prior_shape[:, None, None, None]
        + pull[None, :, None, None]
        + expected.levels.log_weight[None, None, :, None]
        + np.log(TAU_PRIOR)
    )
    if found is not None:
        log = log + found
    log = log - log.max()
    keep = np.flatnonzero(log.ravel() > -9.0)
    weight = np.exp(log.ravel()[keep])
    if len(keep) > MOST_CELLS:
        run = np.cumsum(weight)
        keep = keep[np.searchsorted(run, (np.arange(MOST_CELLS) + 0.5) / MOST_CELLS * run[-1])]
        weight = np.ones(MOST_CELLS)
    s, h, c, m = np.unravel_index(keep, log.shape)
    return Posterior(
        np.asarray(s),
        log_half[h],
        expected.levels.at[c],
        TAU[m],
        weight / weight.sum(),
        last_hour,
        expected.levels.solids[c],
        c,
    )
