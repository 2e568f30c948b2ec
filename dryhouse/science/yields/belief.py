"""A belief about the logarithm of a ratio: normal–inverse-gamma, learned and foretold in closed form.

Model: each batch's log ratio y ~ N(μ, σ²); μ | σ² ~ N(mean, σ²/weight); σ² ~ InvGamma(shape, scale).
Update and predictive: Bernardo & Smith, Bayesian Theory (1994), section 5.2 and appendix A.2 (recalled). A batch
that counts for less than one enters its likelihood to that power, which keeps the closed form.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from dryhouse.science.yields.student import cdf, quantile

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
        """The product of two independent unknowns.

        Variances of the logarithms add; the degrees of freedom are Welch's and Satterthwaite's, as in the
        Guide to the Expression of Uncertainty in Measurement (JCGM 100:2008, G.4.1; recalled).
        """
        parts = [p for p in (self, other) if p.spread > 0]
        if len(parts) < 2:
            return Predictive((parts or [self])[0].df, self.centre + other.centre, self.spread + other.spread)
        variance = sum(p.spread**2 for p in parts)
        df = variance**2 / sum(p.spread**4 / p.df for p in parts)
        return Predictive(df, self.centre + other.centre, math.sqrt(variance))


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
