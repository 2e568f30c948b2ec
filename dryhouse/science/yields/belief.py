"""A belief about the logarithm of a ratio: normal–inverse-gamma, learned and foretold in closed form.

Model: each batch's log ratio y ~ N(μ, σ²); μ | σ² ~ N(mean, σ²/weight); σ² ~ InvGamma(shape, scale).
Update and predictive: Bernardo & Smith, Bayesian Theory (1994), section 5.2 and appendix A.2 (recalled). A batch
that counts for less than one enters its likelihood to that power, which keeps the closed form.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from dryhouse.science.yields.student import cdf, pdf, quantile

MIDDLE = 0.80
"""The share of outcomes an interval is meant to hold."""


@dataclass(frozen=True, slots=True)
class Predictive:
    """A Student-t distribution of the logarithm of what is asked for."""

    df: float
    centre: float
    spread: float
    """The scale of the t, in logarithms; zero where the value is exact."""

    def at(self, p: float) -> float:
        """The value (not its logarithm) that lies above a share p of outcomes."""
        if self.spread == 0:
            return math.exp(self.centre)
        return math.exp(self.centre + self.spread * quantile(p, self.df))

    def below(self, value: float) -> float:
        """The share of outcomes below this value (not its logarithm)."""
        if self.spread == 0:
            return float(math.log(value) >= self.centre)
        return cdf((math.log(value) - self.centre) / self.spread, self.df)

    @property
    def value(self) -> float:
        """The middle outcome."""
        return math.exp(self.centre)

    @property
    def low(self) -> float:
        """The lower end of the middle 80 %."""
        return self.at((1 - MIDDLE) / 2)

    @property
    def high(self) -> float:
        """The upper end of the middle 80 %."""
        return self.at((1 + MIDDLE) / 2)

    def times(self, factor: float) -> Predictive:
        """What is asked for, multiplied by an exact number."""
        return Predictive(self.df, self.centre + math.log(factor), self.spread)

    def inverse(self) -> Predictive:
        """One over what is asked for: the other direction."""
        return Predictive(self.df, -self.centre, self.spread)

    def and_(self, other: Predictive) -> Predictive:
        """The product of two independent unknowns, as the t whose middle 80 % is theirs.

        Its degrees of freedom are Welch's and Satterthwaite's (JCGM 100:2008, Guide to the Expression of
        Uncertainty in Measurement, G.4.1; recalled); its spread is not theirs, which is too narrow for a sum
        of two t's, but the one that holds the share it promises, to half a per cent.
        """
        centre = self.centre + other.centre
        narrow, wide = sorted((self, other), key=lambda p: p.spread)
        if narrow.spread == 0:
            return Predictive(wide.df, centre, wide.spread)
        variance = narrow.spread**2 + wide.spread**2
        df = variance**2 / (narrow.spread**4 / narrow.df + wide.spread**4 / wide.df)
        half = wide.spread * _half_width(narrow.df, narrow.spread / wide.spread, wide.df)
        return Predictive(df, centre, half / quantile((1 + MIDDLE) / 2, df))


_STEPS = 40


@lru_cache(maxsize=1024)
def _half_width(narrow_df: float, narrow_spread: float, wide_df: float) -> float:
    """Half the middle 80 % of a t of spread 1 plus an independent, narrower t.

    The narrower one is taken at 40 equally likely values; Newton's steps then find where the mean of the
    wider one's distribution function over them is 90 %.
    """
    p = (1 + MIDDLE) / 2
    shifts = [narrow_spread * quantile((k + 0.5) / _STEPS, narrow_df) for k in range(_STEPS)]
    half = math.hypot(quantile(p, wide_df), narrow_spread * quantile(p, narrow_df))
    for _ in range(20):
        missing = p - math.fsum(cdf(half - x, wide_df) for x in shifts) / _STEPS
        step = missing * _STEPS / math.fsum(pdf(half - x, wide_df) for x in shifts)
        half += step
        if abs(step) < 1e-9:
            break
    return half


@dataclass(frozen=True, slots=True)
class Belief:
    """What is believed of the log ratio: the four numbers of a normal–inverse-gamma distribution."""

    mean: float
    weight: float
    """How many batches the mean is worth."""
    shape: float
    """Half the degrees of freedom with which the batch-to-batch variance is known."""
    scale: float
    """Shape times the batch-to-batch variance that is expected."""

    def after(self, logs: Sequence[float], counts: Sequence[float] | None = None) -> Belief:
        """The belief after these log ratios, each counting as one batch or as the share given in `counts`."""
        counts = [1.0] * len(logs) if counts is None else counts
        n = math.fsum(counts)
        if n == 0:
            return self
        mean = math.fsum(c * y for c, y in zip(counts, logs, strict=True)) / n
        scatter = math.fsum(c * (y - mean) ** 2 for c, y in zip(counts, logs, strict=True))
        weight = self.weight + n
        pull = self.weight * n / weight * (mean - self.mean) ** 2
        return Belief(
            (self.weight * self.mean + n * mean) / weight,
            weight,
            self.shape + n / 2,
            self.scale + (scatter + pull) / 2,
        )

    def predictive(self) -> Predictive:
        """What the next batch will do."""
        variance = self.scale / self.shape * (1 + 1 / self.weight)
        return Predictive(2 * self.shape, self.mean, math.sqrt(variance))


def alone(logs: Sequence[float]) -> Predictive | None:
    """What these batches say with nothing beside them: the classical prediction, from two batches on.

    mean ± t(n − 1) · s · √(1 + 1/n). One batch shows no spread, so it makes no interval.
    """
    n = len(logs)
    if n < 2:
        return None
    mean = math.fsum(logs) / n
    variance = math.fsum((y - mean) ** 2 for y in logs) / (n - 1)
    return Predictive(n - 1, mean, math.sqrt(variance * (1 + 1 / n)))
