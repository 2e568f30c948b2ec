"""Student's t for any positive number of degrees of freedom, in plain Python.

SciPy would do, but loading it costs more than the whole answer at the command line. The tests hold this
against `scipy.stats`.
"""

from __future__ import annotations

import math
from functools import lru_cache

_TINY = 1e-300
_CLOSE = 1e-15


def cdf(t: float, df: float) -> float:
    """P(T ≤ t), by the incomplete beta function (Abramowitz & Stegun 26.7.1).

    Near the middle the share between −t and t is I_y(½, ν/2) with y = t²/(ν+t²); far out it is the tails that are
    I_x(ν/2, ½) with x = ν/(ν+t²). Each is taken where it keeps its digits.
    """
    square = t * t
    if square < df:
        half = 0.5 * _incomplete_beta(0.5, df / 2.0, square / (df + square))
        return 0.5 + math.copysign(half, t)
    tail = 0.5 * _incomplete_beta(df / 2.0, 0.5, df / (df + square))
    return 1.0 - tail if t > 0 else tail


def pdf(t: float, df: float) -> float:
    """The density at t."""
    log_norm = math.lgamma((df + 1) / 2) - math.lgamma(df / 2) - 0.5 * math.log(df * math.pi)
    return math.exp(log_norm - (df + 1) / 2 * math.log1p(t * t / df))


@lru_cache(maxsize=4096)
def quantile(p: float, df: float) -> float:
    """The t that P(T ≤ t) = p, for 0 < p < 1 and df > 0.

    Right of zero the distribution function is concave, so Newton's steps from zero climb to the root
    and never pass it.
    """
    if not 0 < p < 1 or df <= 0:
        raise ValueError("a quantile needs 0 < p < 1 and positive degrees of freedom")
    if p < 0.5:
        return -quantile(1.0 - p, df)
    t = 0.0
    for _ in range(200):
        step = (p - cdf(t, df)) / pdf(t, df)
        t += step
        if abs(step) <= 1e-13 * max(t, 1.0):
            break
    return t


def _incomplete_beta(a: float, b: float, x: float) -> float:
    """The regularised incomplete beta I_x(a, b), by the continued fraction of Abramowitz & Stegun 26.5.8."""
    if x <= 0 or x >= 1:
        return 0.0 if x <= 0 else 1.0
    front = math.exp(math.lgamma(a + b) - math.lgamma(a) - math.lgamma(b) + a * math.log(x) + b * math.log1p(-x))
    if x < (a + 1) / (a + b + 2):
        return front * _fraction(a, b, x) / a
    return 1.0 - front * _fraction(b, a, 1.0 - x) / b


def _fraction(a: float, b: float, x: float) -> float:
    """The continued fraction itself, by Lentz's way of running it forwards."""
    c, d = 1.0, 1.0 - (a + b) * x / (a + 1)
    d = 1.0 / (d if abs(d) > _TINY else _TINY)
    value = d
    for m in range(1, 1000):
        for term in (
            m * (b - m) * x / ((a + 2 * m - 1) * (a + 2 * m)),
            -(a + m) * (a + b + m) * x / ((a + 2 * m) * (a + 2 * m + 1)),
        ):
            d = 1.0 + term * d
            d = 1.0 / (d if abs(d) > _TINY else _TINY)
            c = 1.0 + term / c
            c = c if abs(c) > _TINY else _TINY
            value *= c * d
        if abs(c * d - 1.0) < _CLOSE:
            break
    return value
