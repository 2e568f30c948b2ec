"""Nonlinear least squares: Levenberg–Marquardt with bounds, in plain NumPy, for any model and few parameters.

Method: Marquardt's damping scaled by the largest column norms seen (Moré 1978), Nielsen's rule for the damping,
parameters on a bound and pushed outward held there, and a last step by orthogonal factors so that the answer
is as exact as the residual allows. Checked against the certified values of the NIST Statistical Reference Datasets.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from dryhouse.science.curves.model import Array

Curve = Callable[[Array], Array]


@dataclass(frozen=True, slots=True)
class Solution:
    """Where the search ended: parameters, sum of squared residuals, slopes there, and whether it settled."""

    parameters: Array
    sse: float
    jacobian: Array
    settled: bool
    rounds: int


def least_squares(
    curve: Curve,
    jacobian: Curve,
    y: Array,
    start: Array,
    low: Array | None = None,
    high: Array | None = None,
    *,
    rounds: int = 400,
    tolerance: float = 1e-13,
) -> Solution:
    """The parameters that make `curve(p)` (n,) come closest to y (n,), from one start.

    `jacobian(p)` is (n, len(p)). Ends when a step or the gain falls below `tolerance`, relative.
    """
    floor = np.full(start.shape, -np.inf) if low is None else low
    roof = np.full(start.shape, np.inf) if high is None else high
    p = np.minimum(np.maximum(start, floor), roof)
    with np.errstate(all="ignore"):
        residual = y - curve(p)
        sse = float(residual @ residual)
        slopes = jacobian(p)
        scale = np.zeros(len(p))
        damping, growth, settled, made = 1e-3, 2.0, False, 0
        while made < rounds:
            made += 1
            gradient = slopes.T @ residual
            free = ~(((p <= floor) & (gradient < 0)) | ((p >= roof) & (gradient > 0)))
            gradient = gradient * free
            normal = slopes.T @ slopes
            scale = np.maximum(scale, normal.diagonal())
            weight = np.where(scale > 0, scale, 1.0)
            if not np.isfinite(sse):
                break
            damped = normal * np.outer(free, free)
            damped.flat[:: len(p) + 1] += damping * weight + ~free
            try:
                step = np.linalg.solve(damped, gradient)
            except np.linalg.LinAlgError:
                damping, growth = damping * growth, growth * 2.0
                continue
            trial = np.minimum(np.maximum(p + step, floor), roof)
            step = trial - p
            rest = y - curve(trial)
            found = float(rest @ rest)
            small = bool(np.all(np.abs(step) <= tolerance * (np.abs(p) + tolerance)))
            if np.isfinite(found) and found <= sse:
                expected = float(step @ (damping * weight * step + gradient))
                gain = (sse - found) / expected if expected > 0 else 1.0
                settled = small or sse - found <= tolerance * sse * 1e-2
                p, residual, sse = trial, rest, found
                slopes = jacobian(p)
                damping *= max(1.0 / 3.0, 1.0 - (2.0 * min(gain, 1.0) - 1.0) ** 3)
                damping, growth = max(damping, 1e-15), 2.0
                if settled:
                    break
            elif small or damping > 1e18:
                settled = small
                break
            else:
                damping, growth = damping * growth, growth * 2.0
        p, sse, slopes = _polish(curve, jacobian, y, p, sse, slopes, floor, roof)
    return Solution(p, sse, slopes, settled, made)


def _polish(
    curve: Curve, jacobian: Curve, y: Array, p: Array, sse: float, slopes: Array, floor: Array, roof: Array
) -> tuple[Array, float, Array]:
    """A few undamped steps by orthogonal factors, kept while they do not make things worse."""
    for _ in range(3):
        size = np.sqrt(np.sum(slopes * slopes, axis=0))
        if not np.all(np.isfinite(size)) or not np.all(size > 0) or np.any(p <= floor) or np.any(p >= roof):
            break
        q, r = np.linalg.qr(slopes / size)
        if abs(r.diagonal()).min() < 1e-13:
            break
        trial = p + np.linalg.solve(r, q.T @ (y - curve(p))) / size
        rest = y - curve(trial)
        found = float(rest @ rest)
        if not found <= sse * (1 + 1e-12) or np.any(trial < floor) or np.any(trial > roof):
            break
        moved = float(np.max(np.abs(trial - p) / np.maximum(np.abs(p), 1e-300)))
        p, sse, slopes = trial, min(found, sse), jacobian(trial)
        if moved < 1e-10:
            break
    return p, sse, slopes


def from_many_starts(
    curve: Curve,
    jacobian: Curve,
    y: Array,
    starts: Array,
    low: Array | None = None,
    high: Array | None = None,
    *,
    rounds: int = 400,
) -> tuple[Solution, int]:
    """The best of several starts (s, len(p)), and how many of them ended at a clearly worse answer."""
    ends = [least_squares(curve, jacobian, y, s, low, high, rounds=rounds) for s in starts]
    ends = [e for e in ends if np.isfinite(e.sse)]
    if not ends:
        raise ValueError("no start gives a finite curve")
    best = min(ends, key=lambda e: e.sse)
    worse = sum(e.sse > best.sse * (1 + 1e-6) + 1e-300 for e in ends)
    return best, worse


def spread_starts(start: Array, factors: tuple[float, ...] = (1.0, 0.1, 10.0, 0.01, 100.0)) -> Array:
    """A start, and the same with each parameter in turn made smaller and larger: shape (1 + p(f-1), p)."""
    rows = [start]
    for i in range(len(start)):
        for factor in factors[1:]:
            row = start.copy()
            row[i] *= factor
            rows.append(row)
    return np.array(rows)
