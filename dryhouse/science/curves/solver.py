"""Nonlinear least squares: Levenberg–Marquardt with bounds, in plain NumPy, for any model and few parameters.

Method: Marquardt's damping scaled by the largest slopes seen (Moré 1978), Nielsen's rule for the damping (1999),
parameters on a bound and pushed outward held there, and at the end, where asked, steps by orthogonal factors so
that the answer is as exact as the residual allows. Checked against NIST's certified nonlinear regressions.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

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


def least_squares(
    both: Both,
    y: Array,
    start: Array,
    low: Array | None = None,
    high: Array | None = None,
    *,
    rounds: int = 400,
    tolerance: float = 1e-13,
    gain_tolerance: float = 1e-15,
    damping: float = 1e-3,
    exact: bool = True,
) -> Solution:
    """The parameters that bring the curve closest to y (n,), from one start. Less `damping` trusts the start more.

    Ends when every step falls below `tolerance` of its parameter, or the gain below `gain_tolerance` of the sum.
    `exact` adds the last steps by orthogonal factors; without it the last, tiny gain is reckoned and not
    computed again.
    """
    floor, roof = _limits(low, len(start), -np.inf), _limits(high, len(start), np.inf)
    bottom, top = floor.tolist(), roof.tolist()
    p = np.minimum(np.maximum(start, floor), roof)
    diagonal = slice(None, None, len(p) + 1)
    growth, settled, made, fresh = 2.0, False, 0, True
    with np.errstate(all="ignore"):
        curve, slopes = both(p)
        residual = y - curve
        sse = float(residual @ residual)
        scale = np.zeros(len(p))
        while made < rounds and sse < np.inf:
            made += 1
            if fresh:
                gradient, normal = slopes @ residual, slopes @ slopes.T
                scale = np.maximum(scale, normal.flat[diagonal])
                weight = scale + (scale == 0.0)
                if any(v <= lo or v >= hi for v, lo, hi in zip(p.tolist(), bottom, top, strict=True)):
                    held = ((p <= floor) & (gradient < 0)) | ((p >= roof) & (gradient > 0))
                    gradient = np.where(held, 0.0, gradient)
                    normal = np.where(held[:, None] | held[None, :], 0.0, normal)
            damped = normal.copy()
            damped.flat[diagonal] += damping * weight
            try:
                step = np.linalg.solve(damped, gradient)
            except np.linalg.LinAlgError:
                damping, growth, fresh = damping * growth, growth * 2.0, False
                continue
            gained = float(step @ gradient)
            if not exact and gained <= gain_tolerance * sse:
                p, sse, settled = np.minimum(np.maximum(p + step, floor), roof), sse - gained, True
                break
            trial = np.minimum(np.maximum(p + step, floor), roof)
            step = trial - p
            curve, there = both(trial)
            rest = y - curve
            found = float(rest @ rest)
            small = all(
                abs(s) <= tolerance * (abs(v) + tolerance) for s, v in zip(step.tolist(), p.tolist(), strict=True)
            )
            fresh = found <= sse
            if fresh:
                expected = float(step @ (damping * weight * step + gradient))
                gain = min((sse - found) / expected, 1.0) if expected > 0 else 1.0
                settled = small or sse - found <= gain_tolerance * sse
                p, residual, sse, slopes = trial, rest, found, there
                damping = max(damping * max(1.0 / 3.0, 1.0 - (2.0 * gain - 1.0) ** 3), 1e-15)
                growth = 2.0
                if settled:
                    break
            elif small or damping > 1e18:
                settled = small
                break
            else:
                damping, growth = damping * growth, growth * 2.0
        if exact:
            p, sse, slopes = _polish(both, y, p, sse, slopes, floor, roof)
    return Solution(p, sse, slopes, settled, made)


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
