"""Least squares where two parameters only scale: these are solved for at once, and only the others are searched.

Method: variable projection (Golub & Pereyra 1973): the two amplitudes that fit best between their bounds belong to
every trial, so that a valley in which rate and amplitude move together is one step wide. Where the sum of squares
curves upward the step is Newton's, else by Kaufman's slopes (1975), both with Marquardt's damping. All products of
a trial are made at once, and the rest is reckoned with a handful of numbers.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from operator import mul

import numpy as np

from dryhouse.science.curves.model import Array
from dryhouse.science.curves.solver import Damping, solve_small

Shapes = Callable[[list[float], Array], None]
"""From the searched parameters (q,), into rows (2 + 2 q, n): the two shapes, and the slope and the curvature of the
shape that each parameter bends, the first parameter the first shape."""
Box = tuple[float, float, float, float]
"""Lowest and highest of the first amplitude, and of the second."""

ROUNDS = 60
GAIN = 1e-7
"""A step that gains less than this part of the sum of squares ends the search."""
LONGEST = 2.0
"""A rate changes by no more than this in its logarithm, a factor of seven, in one step."""


@dataclass(frozen=True, slots=True)
class Separated:
    """Where the search ended: what was searched, the amplitudes, the sum of squares, and whether it settled."""

    searched: list[float]
    amplitudes: tuple[float, float]
    sse: float
    settled: bool
    rounds: int


def separated(shapes: Shapes, y: Array, start: Sequence[float], box: Box, low: float, high: float) -> Separated:
    """The search from one start, each searched parameter between `low` and `high`."""
    rows = np.empty((2 * len(start) + 3, len(y)))
    rows[-1] = y
    q = [min(max(v, low), high) for v in start]
    here, damping, made, settled = _Trial(shapes, rows, q, box), Damping(1e-3), 0, False
    gradient, matrix = here.descent(q, low, high)
    while made < ROUNDS and damping.now < 1e18 and not settled:
        made += 1
        step = solve_small(damping.added(matrix), gradient)
        if step is None:
            damping.up()
            continue
        if sum(map(mul, step, gradient)) <= GAIN * here.sse:
            settled = True
            break
        goal = [min(max(v + min(max(s, -LONGEST), LONGEST), low), high) for v, s in zip(q, step, strict=True)]
        there = _Trial(shapes, rows, goal, box)
        gained = here.sse - there.sse
        if gained < 0.0:
            damping.up()
            continue
        damping.down(gained, [g - v for g, v in zip(goal, q, strict=True)], gradient)
        settled = gained <= GAIN * here.sse
        q, here = goal, there
        if not settled:
            gradient, matrix = here.descent(q, low, high)
    return Separated(q, here.amplitudes, here.sse, settled, made)


def amplitudes(
    g00: float, g01: float, g11: float, c0: float, c1: float, box: Box
) -> tuple[tuple[float, float], tuple[bool, bool]]:
    """The two amplitudes between their bounds that fit best, and which of them are free of a bound, by the products
    of the shapes with each other and with what was seen."""
    apart = g00 * g11 - g01 * g01
    if apart > 1e-12 * g00 * g11:
        a, b = (c0 * g11 - c1 * g01) / apart, (c1 * g00 - c0 * g01) / apart
        if box[0] < a < box[1] and box[2] < b < box[3]:
            return (a, b), (True, True)
    edges = [(a, min(max((c1 - g01 * a) / g11, box[2]), box[3]) if g11 > 0.0 else box[2]) for a in box[:2]]
    edges += [(min(max((c0 - g01 * b) / g00, box[0]), box[1]) if g00 > 0.0 else box[0], b) for b in box[2:]]
    a, b = min(edges, key=lambda e: e[0] * (e[0] * g00 + 2 * (e[1] * g01 - c0)) + e[1] * (e[1] * g11 - 2 * c1))
    return (a, b), (box[0] < a < box[1], box[2] < b < box[3] and not box[0] < a < box[1])


def decays(q: Sequence[float], t: Array, shape: Array, slope: Array, curvature: Array) -> None:
    """exp(-k t) of rates k, told by their logarithms, with slope and curvature by these."""
    past = np.multiply.outer(np.exp(q), -t)
    np.exp(past, out=shape)
    np.multiply(past, shape, out=slope)
    past += 1.0
    np.multiply(past, slope, out=curvature)


MULTIPLES = 1.4 ** np.arange(-9.0, 13.0)
"""Rates that are looked at first, as multiples of one that is near."""


def one_decay(t: Array, y: Array, near: float, size: tuple[float, float], bounds: tuple[float, float]) -> Separated:
    """A single exponential: its rate, told by the logarithm as `near` and the bounds are, and its amplitude."""
    past = np.exp(-math.exp(near) * MULTIPLES[:, None] * t)
    fits = np.maximum(past @ y, 0.0) ** 2 / (past * past).sum(axis=1)
    start = near + math.log(MULTIPLES[int(fits.argmax())])

    def shapes(q: list[float], rows: Array) -> None:
        decays(q, t, rows[:1], rows[2:3], rows[3:4])
        rows[1] = 0.0

    return separated(shapes, y, [start], (*size, 0.0, 0.0), *bounds)


class _Trial:
    """The curve at one trial, with the amplitudes that fit best there."""

    def __init__(self, shapes: Shapes, rows: Array, q: list[float], box: Box) -> None:
        shapes(q, rows)
        self.products = m = (rows @ rows.T).tolist()
        self.amplitudes, self.free = amplitudes(m[0][0], m[0][1], m[1][1], m[0][-1], m[1][-1], box)
        rest = rows[-1] - np.dot(self.amplitudes, rows[:2])
        self.sse = float(rest @ rest)

    def descent(self, q: list[float], low: float, high: float) -> tuple[list[float], list[list[float]]]:
        """The way down for the searched parameters, and the matrix of the step: none along a bound that is pushed
        against."""
        m, (a, b), number = self.products, self.amplitudes, range(len(q))
        size = self.amplitudes

        def left(row: list[float]) -> float:
            """A row times what the amplitudes leave."""
            return row[-1] - a * row[0] - b * row[1]

        slope = [left(m[2 + i]) for i in number]
        bend = [left(m[2 + len(q) + i]) for i in number]
        gradient = [size[i] * slope[i] for i in number]
        along = [[size[i] * m[2 + i][0], size[i] * m[2 + i][1]] for i in number]
        square = [[size[i] * size[k] * m[2 + i][2 + k] for k in number] for i in number]
        bent_along, bent_square = [row.copy() for row in along], [row.copy() for row in square]
        for i in number:
            bent_along[i][i] -= slope[i]
            bent_square[i][i] -= size[i] * bend[i]
        inverse = self._inverse()
        matrix = _without(bent_along, bent_square, inverse)
        if matrix[0][0] <= 0 or (len(q) > 1 and matrix[0][0] * matrix[1][1] <= matrix[0][1] * matrix[1][0]):
            matrix = _without(along, square, inverse)
        for i in number:
            if (q[i] <= low and gradient[i] < 0) or (q[i] >= high and gradient[i] > 0):
                gradient[i], matrix[i] = 0.0, [0.0 for _ in number]
                for row in matrix:
                    row[i] = 0.0
        return gradient, matrix

    def _inverse(self) -> tuple[float, float, float]:
        """Of the products of the shapes whose amplitudes are free."""
        (g00, g01, *_), (_, g11, *_) = self.products[:2]
        if self.free == (True, True):
            apart = g00 * g11 - g01 * g01
            return g11 / apart, -g01 / apart, g00 / apart
        return (1.0 / g00 if self.free[0] else 0.0, 0.0, 1.0 / g11 if self.free[1] else 0.0)


def _without(
    along: list[list[float]], square: list[list[float]], inverse: tuple[float, float, float]
) -> list[list[float]]:
    """The squares without what the free amplitudes make up for."""
    left = []
    for row, (x, y) in zip(square, along, strict=True):
        first, second = x * inverse[0] + y * inverse[1], x * inverse[1] + y * inverse[2]
        left.append([v - first * z[0] - second * z[1] for v, z in zip(row, along, strict=True)])
    return left
