"""Nonlinear least squares: Levenberg–Marquardt with bounds, in plain NumPy, for any model and few parameters.

Method: Marquardt's damping scaled by the largest slopes seen (Moré 1978), Nielsen's rule for the damping (1999),
parameters on a bound and pushed outward held there, and at the end, where asked, steps by orthogonal factors so
that the answer is as exact as the residual allows. Checked against NIST's certified nonlinear regressions.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from operator import mul

import numpy as np

from dryhouse.science.curves.model import Array

Both = Callable[[Array], tuple[Array, Array]]
"""From parameters (p,) to the curve (n,) and its slopes (p, n), one row a parameter."""


@dataclass(frozen=True, slots=True)
class Solution:
    """Where the search ended: parameters (p,), sum of squared residuals, slopes (p, n), and whether it settled."""

    parameters: Array
    sse: float
    slopes: Array
    settled: bool
    rounds: int


@dataclass(frozen=True, slots=True)
class Effort:
    """How far a search goes: to the last figure, or as far as is ever shown.

    It ends when every step falls below `tolerance` of its parameter, or the gain below `gain_tolerance` of the sum.
    Less `damping` trusts the start more. `exact` adds the last steps by orthogonal factors; without it the last,
    tiny gain is reckoned and not computed again.
    """

    rounds: int = 400
    tolerance: float = 1e-13
    gain_tolerance: float = 1e-15
    damping: float = 1e-3
    exact: bool = True


TO_THE_LAST_FIGURE = Effort()


def least_squares(
    both: Both,
    y: Array,
    start: Array,
    low: Array | None = None,
    high: Array | None = None,
    effort: Effort = TO_THE_LAST_FIGURE,
) -> Solution:
    """The parameters that bring the curve closest to y (n,), from one start."""
    floor, roof = _limits(low, len(start), -np.inf), _limits(high, len(start), np.inf)
    bottom, top, least = floor.tolist(), roof.tolist(), effort.tolerance
    damped, settled, made = Damping(effort.damping), False, 0
    with np.errstate(all="ignore"):
        p = np.minimum(np.maximum(start, floor), roof)
        v = p.tolist()
        curve, slopes = both(p)
        residual = y - curve
        sse = float(residual @ residual)
        gradient, normal = _descent(v, bottom, top, slopes, residual)
        while made < effort.rounds and sse < math.inf and not settled:
            made += 1
            step = solve_small(damped.added(normal), gradient)
            if step is None:
                damped.up()
                continue
            gained = math.fsum(map(mul, step, gradient))
            goal = [min(max(a + s, lo), hi) for a, s, lo, hi in zip(v, step, bottom, top, strict=True)]
            if not effort.exact and gained <= effort.gain_tolerance * sse:
                p, sse, settled = np.array(goal), sse - gained, True
                break
            trial = np.array(goal)
            curve, there = both(trial)
            rest = y - curve
            found = float(rest @ rest)
            moved = [b - a for b, a in zip(goal, v, strict=True)]
            small = all(abs(s) <= least * (abs(a) + least) for s, a in zip(moved, v, strict=True))
            if found <= sse:
                damped.down(sse - found, moved, gradient)
                settled = small or sse - found <= effort.gain_tolerance * sse
                p, v, residual, sse, slopes = trial, goal, rest, found, there
                if not settled:
                    gradient, normal = _descent(v, bottom, top, slopes, residual)
            elif small or damped.now > 1e18:
                settled = small
                break
            else:
                damped.up()
        if effort.exact:
            p, sse, slopes = _polish(both, y, p, sse, slopes, floor, roof)
    return Solution(p, sse, slopes, settled, made)


class Damping:
    """Marquardt's damping, scaled by the largest slopes seen, by Nielsen's rule."""

    def __init__(self, now: float) -> None:
        self.now, self._growth = now, 2.0
        self._scale: list[float] = []

    def added(self, normal: list[list[float]]) -> list[list[float]]:
        """The matrix with the damping on its diagonal."""
        own = [row[i] for i, row in enumerate(normal)]
        self._scale = [max(pair) for pair in zip(own, self._scale or own, strict=True)]
        whole = [row.copy() for row in normal]
        for i, size in enumerate(self._scale):
            whole[i][i] += self.now * (size or 1.0)
        return whole

    def up(self) -> None:
        """After a step that made things worse, or could not be made."""
        self.now, self._growth = self.now * self._growth, self._growth * 2.0

    def down(self, gained: float, moved: list[float], gradient: list[float]) -> None:
        """After a step that did what it promised, more or less."""
        expected = math.fsum(
            m * (self.now * (s or 1.0) * m + g) for m, s, g in zip(moved, self._scale, gradient, strict=True)
        )
        gain = min(gained / expected, 1.0) if expected > 0 else 1.0
        self.now, self._growth = max(self.now * max(1.0 / 3.0, 1.0 - (2.0 * gain - 1.0) ** 3), 1e-15), 2.0


def _descent(
    v: list[float], bottom: list[float], top: list[float], slopes: Array, residual: Array
) -> tuple[list[float], list[list[float]]]:
    """The way down, and the products of the slopes: none along a bound that is pushed against."""
    gradient, normal = (slopes @ residual).tolist(), (slopes @ slopes.T).tolist()
    for i, a in enumerate(v):
        if (a <= bottom[i] and gradient[i] < 0) or (a >= top[i] and gradient[i] > 0):
            gradient[i], normal[i] = 0.0, [0.0 for _ in v]
            for row in normal:
                row[i] = 0.0
    return gradient, normal


def solve_small(matrix: list[list[float]], right: list[float]) -> list[float] | None:
    """x with `matrix` x = `right`, for a symmetric matrix that is positive (damped products of slopes), by
    elimination; None where it is not. For a handful of unknowns this is several times faster than a library's call.
    The matrix is used up."""
    x, count = right.copy(), len(right)
    for i in range(count):
        row = matrix[i]
        if not 0.0 < row[i] < math.inf:
            return None
        for below in range(i + 1, count):
            line = matrix[below]
            factor = line[i] / row[i]
            if factor:
                for k in range(i + 1, count):
                    line[k] -= factor * row[k]
                x[below] -= factor * x[i]
    for i in range(count - 1, -1, -1):
        row = matrix[i]
        for k in range(i + 1, count):
            x[i] -= row[k] * x[k]
        x[i] /= row[i]
    return x


def _limits(given: Array | None, count: int, otherwise: float) -> Array:
    return np.full(count, otherwise) if given is None else given


def _polish(
    both: Both, y: Array, p: Array, sse: float, slopes: Array, floor: Array, roof: Array
) -> tuple[Array, float, Array]:
    """A few undamped steps by orthogonal factors, kept while they do not make things worse."""
    for _ in range(3):
        size = np.sqrt(np.sum(slopes * slopes, axis=1))
        if not (np.isfinite(size).all() and (size > 0).all()) or (p <= floor).any() or (p >= roof).any():
            break
        q, r = np.linalg.qr(slopes.T / size)
        if np.abs(r.diagonal()).min() < 1e-13:
            break
        trial = p + np.linalg.solve(r, q.T @ (y - both(p)[0])) / size
        curve, there = both(trial)
        found = float((y - curve) @ (y - curve))
        if not found <= sse * (1 + 1e-12) or (trial < floor).any() or (trial > roof).any():
            break
        moved = float(np.max(np.abs(trial - p) / np.maximum(np.abs(p), 1e-300)))
        p, sse, slopes = trial, min(found, sse), there
        if moved < 1e-10:
            break
    return p, sse, slopes
