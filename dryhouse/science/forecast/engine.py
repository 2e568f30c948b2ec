"""The posterior of a run: shape of the curve, half-time, level it settles at, size of the errors.

A load of net mass m0 is written as w = m/m0, and w(t) = w_end + (1 - w_end) MR(t / half-time).

Two kinds of error. The scale (and the handling) gives each weighing an independent error. The model is wrong
as well, and for that the run's own clock may go wrong: the logarithm of time wanders as a random walk, its
variance growing by tau^2 for each unit of ln t. Nothing is lost at the start and nothing at the end, where a
wrong clock does not matter. The walk is pinned at the last weighing. Both sizes are weighed by what the run shows.

Shapes, levels and sizes lie on a grid. The half-time does not: once shape and level are given, the last weighing
fixes it within the scale's error, so it is found there by least squares and its spread is kept (Laplace's
approximation, exact for a straight line). So is a small bend of the shape, ln(time / half-time) stretched by a
factor near one, so that no step between two shapes is too coarse for a fine scale either: what the shapes on the
grid cannot follow would else be taken for errors of the clock, and widen every band.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

import numpy as np
from numpy.typing import NDArray

from dryhouse.science.curves.model import Array
from dryhouse.science.dry_matter import normal_cdf
from dryhouse.science.forecast.shapes import FIRST, STEP, Shapes, shapes

TAU = np.array([0.006, 0.05, 0.25])
"""Sizes of the clock's error, some fourfold apart and alike beforehand: a run that keeps its law, one whose air
and load change a little on the way, one that is turned, crowded or interrupted."""
BEND_SD = 0.02
"""Spread of the logarithm of the factor that stretches ln(time / half-time): a fifth of a step of Page's n."""
FARTHEST = 3.5
"""ln(time ahead), or behind, past which the clock's error grows no more."""
MOST_CELLS = 3000
"""So many cells are drawn in proportion to their weight, evenly."""
TAILS = 4.0
"""Degrees of freedom of the expected half-time: what was expected gives way to weighings that contradict it."""
NOISE = np.array([1.0, 3.0])
NOISE_PRIOR = np.array([0.8, 0.2])
"""Some weigh in haste: one in five with three times the error."""
FINE = 0.01
"""A spread of ln half-time that is not worth nodes of its own."""
AT_ONCE = 35
"""So many shapes are fitted at once."""
UNSEEN = 41
"""Half-times looked at where nothing was weighed after the start."""


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
    stretch: Array
    """By how much each cell's ln(time / half-time) is longer than its shape's."""


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

    def pull(self, log_half: Array) -> Array:
        """Log weight of a half-time beforehand: Student's t."""
        off = (log_half - self.log_half) / self.sd_log_half
        return np.asarray(-0.5 * (TAILS + 1.0) * np.log1p(off**2 / TAILS))


@dataclass(frozen=True, slots=True)
class Errors:
    """The errors of the weighings: their covariance is turned so that it is diagonal for every size of them."""

    turn: Array | None
    """None where it is so as it is."""
    variance: Array
    """(weighings, sizes of noise x tau)."""


@dataclass(frozen=True, slots=True)
class Found:
    """For every shape and level and size of error: the best ln half-time and bend, how the two hang together, and
    the log likelihood."""

    log_half: Array
    spread: Array
    bend: Array
    lean: Array
    """By how much the bend moves with ln half-time."""
    own_spread: Array
    """Spread of the bend where ln half-time is given."""
    log: Array


def errors_of(hours: Array, w: Array, expected: Expectation) -> Errors | None:
    """The errors of the weighings, by a rough look; None where nothing was weighed after the
    start. `hours` ascending from 0, `w` the masses over the first."""
    if len(hours) < 2:
        return None
    t, y = thinned(hours[1:], w[1:])
    loose = Errors(None, np.full((len(t), 1), expected.noise * 3.0) ** 2)
    at = expected.levels.at
    return _errors(shapes(), t, _fitted(shapes(), t, y, at, expected.noise, loose), at, expected)


def posterior(hours: Array, w: Array, expected: Expectation, errors: Errors | None) -> Posterior:
    """Every cell that matters, with the weighings' own `errors_of` them."""
    table = shapes()
    if errors is None:
        return _unseen(table, expected)
    t, y = thinned(hours[1:], w[1:])
    found = _fitted(table, t, y, expected.levels.at, expected.noise, errors)
    return _collect(table, found, expected, float(hours[-1]))


def thinned(t: Array, y: Array, most: int = 24) -> tuple[Array, Array]:
    """At most `most` points: neighbours averaged, the last one kept as it is."""
    if len(t) <= most:
        return t, y
    parts = np.array_split(np.arange(len(t) - 1), most - 1)
    mean_t = np.array([t[p].mean() for p in parts] + [t[-1]])
    return mean_t, np.array([y[p].mean() for p in parts] + [y[-1]])


def clock_error(log_ahead: Array) -> Array:
    """Size of the clock's error, in units of tau, this far ahead of the last weighing in ln(time)."""
    return np.asarray(np.sqrt(np.clip(log_ahead, 0.0, FARTHEST)))


def _errors(table: Shapes, t: Array, near: Found, at_levels: Array, expected: Expectation) -> Errors:
    """The scale's error and the clock's, which moves a weighing by the slope of the best rough curve there."""
    log = near.log[..., 0] + (table.log_prior + expected.shape_weight)[:, None]
    shape, level = np.unravel_index(np.argmax(log), log.shape)
    stretch = np.exp(near.bend[shape, level, 0])
    at = (np.log(t) - near.log_half[shape, level, 0]) / stretch
    middles = FIRST + STEP * (np.arange(table.mr.shape[1] - 1) + 0.5)
    slope = np.interp(at, middles, -np.diff(table.mr[shape]) / STEP) / stretch
    back = np.minimum(np.log(t[-1] / t), FARTHEST)
    pull = slope * (1.0 - float(at_levels[level]))
    size, turn = np.linalg.eigh(pull[:, None] * np.minimum(back[:, None], back[None, :]) * pull[None, :])
    noise = (expected.noise * NOISE) ** 2
    variance = noise[None, :, None] + np.maximum(size, 0.0)[:, None, None] * (TAU**2)[None, None, :]
    return Errors(turn, variance.reshape(len(t), -1))


def _fitted(table: Shapes, t: Array, y: Array, levels: Array, noise: float, errors: Errors) -> Found:
    """Every shape at every level: a few shapes at a time, so that what is reckoned with stays at hand."""
    lost = np.clip((y[-1] - levels) / (1.0 - levels), 1e-4, 1.0 - noise)
    half, size = np.log(t[-1]) - _passing(table, lost), np.log(errors.variance).sum(axis=0)
    parts = [slice(first, first + AT_ONCE) for first in range(0, len(half), AT_ONCE)]
    every = [_moved(_Cells(table, part, t, y, levels, errors), half[part], size) for part in parts]
    return Found(*(np.moveaxis(np.concatenate(a, axis=1), 0, -1).copy() for a in zip(*every, strict=True)))


def _moved(cells: _Cells, half: Array, size: Array) -> tuple[Array, ...]:
    """The half-time through the last weighing, and no bend: both moved by two steps of least squares on all."""
    bend, held = np.zeros(half.shape), BEND_SD**-2
    for _ in range(2):
        own, to_half, to_bend, square, mixed, bent = cells.products(half, bend)
        square, bent, to_bend = square + 1e-9, bent + held, to_bend - held * bend
        area = square * bent - mixed * mixed
        move, twist = (bent * to_half - mixed * to_bend) / area, (square * to_bend - mixed * to_half) / area
        log = own + held * (bend * bend) - to_half * move - to_bend * twist + np.log(area / held)
        log = -0.5 * (log + size[:, None, None])
        best = np.argmax(log, axis=0)[None]
        last, last_bend = half, bend
        half = half + np.clip(np.take_along_axis(move, best, axis=0)[0], -1.0, 1.0)
        bend = _held(bend + np.take_along_axis(twist, best, axis=0)[0])
    return (
        last + np.clip(move, -1.0, 1.0),
        np.sqrt(bent / area),
        _held(last_bend + twist),
        -mixed / bent,
        bent**-0.5,
        log,
    )


class _Cells:
    """Some shapes at every level, beside the weighings. Arrays are (weighings, cells), and used again and again: a
    fresh one of that size costs as much as what is reckoned with it."""

    def __init__(self, table: Shapes, part: slice, t: Array, y: Array, levels: Array, errors: Errors) -> None:
        mr, step = table.mr[part], table.step[part]
        self.sizes = len(mr), len(levels)
        self.wide = mr.shape[1]
        self.rows = np.repeat(self.wide * np.arange(self.sizes[0]), self.sizes[1])
        self.log_t = np.log(t)[:, None]
        level = np.tile(levels, self.sizes[0])
        self.away, self.rest = y[:, None] - level, 1.0 - level
        self.mr, self.step = mr.ravel(), step.ravel()
        self.inverse, self.turn = 1.0 / errors.variance.T, None if errors.turn is None else errors.turn.T
        self.place, self.work = np.empty(self.away.shape), np.empty(self.away.shape)

    def products(self, half: Array, bend: Array) -> list[Array]:
        """Where each cell has this ln half-time and bend: how far it is from the weighings, the slopes of that by
        the half-time and by the bend, and their products, weighed by the errors; (sizes, shapes, levels) each."""
        place, work, stretch = self.place, self.work, np.exp(bend).ravel()
        at = (self.log_t - half.ravel()) / stretch
        np.subtract(at, FIRST, out=place)
        place /= STEP
        np.clip(place, 0.0, self.wide - 1.001, out=place)
        base = place.astype(np.intp)
        place -= base
        base += self.rows
        pull, off = self.step.take(base), self.mr.take(base)
        off += np.multiply(place, pull, out=work)
        off *= self.rest
        np.subtract(self.away, off, out=off)
        pull *= self.rest / -STEP
        curl = np.multiply(at, pull, out=at)
        pull /= stretch
        if self.turn is not None:
            off, pull, curl = self.turn @ off, self.turn @ pull, self.turn @ curl

        def product(a: Array, b: Array) -> Array:
            return np.asarray((self.inverse @ np.multiply(a, b, out=work)).reshape(-1, *self.sizes))

        pairs = ((off, off), (off, pull), (off, curl), (pull, pull), (pull, curl), (curl, curl))
        return [product(a, b) for a, b in pairs]


def _held(bend: Array) -> Array:
    return np.clip(bend, -3.0 * BEND_SD, 3.0 * BEND_SD)


def _passing(table: Shapes, mr: Array) -> Array:
    """ln(time/half-time) at which each shape passes these moisture ratios: (shapes, ratios)."""
    x = FIRST + STEP * np.arange(table.mr.shape[1])
    return np.array([np.interp(-mr, -row, x) for row in table.mr])


def _collect(table: Shapes, found: Found, expected: Expectation, last_hour: float) -> Posterior:
    """Prior times likelihood: an even draw of the cells that carry all but a thousandth of the weight."""
    log = found.log + (table.log_prior + expected.shape_weight)[:, None, None]
    log = log + expected.levels.log_weight[None, :, None]
    log = log + np.repeat(np.log(NOISE_PRIOR), len(TAU))
    pulled = (log + expected.pull(found.log_half)).ravel()
    keep = np.flatnonzero(pulled > pulled.max() - 9.0)
    spread = np.minimum(found.spread.ravel()[keep], 3.0)
    nodes, share = _nodes(bool(np.average(spread, weights=np.exp(pulled[keep] - pulled.max())) > FINE))
    moved = spread[:, None] * nodes
    half = found.log_half.ravel()[keep, None] + moved
    weight = np.exp(log.ravel()[keep, None] - pulled.max() + expected.pull(half)) * share
    bend = found.bend.ravel()[keep, None] + found.lean.ravel()[keep, None] * moved
    keep, half, bend = np.repeat(keep, len(nodes)), half.ravel(), bend.ravel()
    run = np.cumsum(weight.ravel())
    drawn = np.searchsorted(run, (np.arange(MOST_CELLS) + 0.5) / MOST_CELLS * run[-1])
    keep, half, bend = keep[drawn], half[drawn], bend[drawn]
    bend = _held(bend + found.own_spread.ravel()[keep] * even_normal(MOST_CELLS))
    s, c, m = np.unravel_index(keep, log.shape)
    return _cells(s, half, c, TAU[m % len(TAU)], last_hour, expected, np.exp(bend))


def _nodes(spread: bool) -> tuple[Array, Array]:
    """Where to look at the half-time of a cell, in units of its spread, and the weights of these."""
    if not spread:
        return np.zeros(1), np.ones(1)
    nodes, share = np.polynomial.hermite_e.hermegauss(7)
    return nodes, share / share.sum()


def _unseen(table: Shapes, expected: Expectation) -> Posterior:
    """What was expected beforehand, on half-times over all that it allows."""
    half = expected.log_half + expected.sd_log_half * np.linspace(-5.0, 5.0, UNSEEN)
    log = (
        (table.log_prior + expected.shape_weight)[:, None, None, None]
        + expected.pull(half)[None, :, None, None]
        + np.repeat(expected.levels.log_weight[:, None], len(TAU), axis=1)
    )
    run = np.cumsum(np.exp(log - log.max()).ravel())
    drawn = np.searchsorted(run, (np.arange(MOST_CELLS) + 0.5) / MOST_CELLS * run[-1])
    s, h, c, m = np.unravel_index(drawn, log.shape)
    stretch = np.exp(BEND_SD * even_normal(MOST_CELLS))
    return _cells(s, half[h], c, TAU[m], 0.0, expected, stretch)


def _cells(
    shape: NDArray[np.intp],
    log_half: Array,
    level: NDArray[np.intp],
    tau: Array,
    last_hour: float,
    expected: Expectation,
    stretch: Array,
) -> Posterior:
    levels = expected.levels
    weight = np.full(len(shape), 1.0 / len(shape))
    return Posterior(
        shape, log_half, levels.at[level], tau, weight, last_hour, levels.solids[level], level, stretch
    )


@cache
def even_normal(count: int) -> Array:
    """Numbers as a normal distribution has them, in an order that is even wherever it is cut (golden ratio)."""
    z = np.linspace(-4.5, 4.5, 1801)
    share = ((np.arange(count) + 0.5) * 0.6180339887498949) % 1.0
    return np.asarray(np.interp(share, normal_cdf(z), z))
