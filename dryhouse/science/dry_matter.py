"""How much dry matter is in a load: one belief that every figure shares.

A table's figure for the solids of a food is the middle of what such food turns out to hold, and the food on
these trays is one such. The belief is the distribution of s = S/m0, the dry matter as a share of the load's first
net mass, on a fine grid of ln s. It starts from the food (a log-normal with the spread of published samples) and is
updated, by Bayes' rule and nothing else, by what this load shows:

- a weight: food never weighs less than its dry matter and the water it holds in the warm dry air, S (1 + X_e);
- a level that the curve settles at: S (1 + X_e) itself, so that level and dry matter are one unknown;
- a dry-matter test: a weighed sample dried to constant weight;
- how a cooled piece feels, which is weak evidence of its moisture.

Moisture, verdict, target, finish, yield, water and keep-by are all read from it. All masses here are shares of m0.
"""

from __future__ import annotations

import math
from dataclasses import astuple, dataclass
from functools import cache, lru_cache
from itertools import pairwise

import numpy as np
from numpy.typing import ArrayLike, NDArray

from dryhouse.science.dry_matter_test import TESTED_SD
from dryhouse.science.statuses import Feel
from dryhouse.science.values import MIDDLE_80_SD

Array = NDArray[np.float64]

NODES = 321
REACH = 4.5
"""How many standard deviations of ln s the grid spans either way."""
DRIEST, WETTEST = 0.985, 0.005
"""No load on trays holds more, or less, of dry matter than this."""
SETTLES = (0.04, 0.02, 0.09)
"""Where the chamber's air is not known: the moisture (dry basis) that food settles at in warm dry air, with its
middle 80 %. An assumption, from the isotherms of `gab.csv` at 45 to 60 °C and 5 to 20 % relative humidity."""
QUANTILES = (0.10, 0.50, 0.90)
EXACT = 1e-3
"""Spread of ln s where the starting moisture is taken as it is."""


_BORDERS = ((11.0, 1.4), (18.0, 2.0), (25.0, 2.5), (40.0, 4.0))
"""Moisture (% wet basis) at which one feel gives way to the next, and how gradually. Common practice, no source:
extension tables call vegetables brittle at about 10 % and fruit leathery to pliable at 15 to 20 %; the widths
are an assumption."""


def feel_given(moisture_pct: ArrayLike, feel: Feel) -> Array:
    """Probability that a cooled piece of this moisture (% wet basis) is said to feel so: neighbours overlap."""
    m = np.asarray(moisture_pct, dtype=np.float64)
    above = [
        np.ones_like(m),
        *(1.0 / (1.0 + np.exp(-(m - at) / width)) for at, width in _BORDERS),
        np.zeros_like(m),
    ]
    number = list(Feel).index(feel)
    return np.asarray(above[number] - above[number + 1])


@dataclass(frozen=True, slots=True)
class Between:
    """A middle value and the middle 80 % around it."""

    low: float
    value: float
    high: float


@dataclass(frozen=True, slots=True)
class Belief:
    """What is thought of s: ascending shares, their weights (summing to 1), and how likely the weights of this load
    were before they were seen (1 where none were)."""

    shares: Array
    weight: Array
    expected: float = 1.0

    def _given(self, likelihood: Array, *, surprise: bool = False) -> Belief:
        weight = self.weight * likelihood
        total = float(weight.sum())
        if total <= 0.0 or not math.isfinite(total):
            return Belief(self.shares, self.weight, 0.0 if surprise else self.expected)
        return Belief(self.shares, weight / total, self.expected * total if surprise else self.expected)

    def weighed(self, mass: float, step: float, settles: tuple[float, float, float] = SETTLES) -> Belief:
        """After a net mass was read on a scale of this step: it holds all the dry matter, and a little water."""
        nodes, share = equilibrium_nodes(settles)
        off = (mass - self.shares[:, None] * (1.0 + nodes)) / max(step, 1e-6)
        return self._given(normal_cdf(off) @ share, surprise=True)

    def settled(self, level: float, sd: float, settles: tuple[float, float, float] = SETTLES) -> Belief:
        """After the curve was seen to settle at this level, with its standard deviation."""
        nodes, share = equilibrium_nodes(settles)
        off = (level - self.shares[:, None] * (1.0 + nodes)) / max(sd, 1e-6)
        return self._given(np.exp(-0.5 * off**2) @ share)

    def tested(self, share: float, log_sd: float = TESTED_SD) -> Belief:
        """After a sample of the load, dried to constant weight, held this share of dry matter. A test that the
        former belief all but ruled out stands by itself."""
        found = prior_belief(100.0 * share, log_sd)
        prior = np.interp(found.shares, self.shares, self.weight, left=0.0, right=0.0)
        joined = found._given(prior)
        return Belief(joined.shares, joined.weight, self.expected)

    def felt(self, feel: Feel, mass: float) -> Belief:
        """After a cooled piece felt so when the load weighed this much."""
        return self._given(feel_given(100.0 * np.clip(1.0 - self.shares / mass, 0.0, 1.0), feel))

    def scaled(self, factor: float) -> Belief:
        """The same dry matter as a share of another mass: the shares times this factor."""
        return Belief(self.shares * factor, self.weight, self.expected)

    def moisture(self, mass: float) -> Between:
        """Moisture (% wet basis) of the load when it weighs this much: never below nought."""
        low, middle, high = (100.0 * max(1.0 - s / mass, 0.0) for s in self.quantiles(QUANTILES[::-1]))
        return Between(low, middle, high)

    def target(self, moisture_pct: float) -> Between:
        """The mass at which the load holds this moisture (% wet basis)."""
        low, middle, high = (s / (1.0 - moisture_pct / 100.0) for s in self.quantiles(QUANTILES))
        return Between(low, middle, high)

    def dry_probability(self, mass: float, target_pct: float) -> float:
        """Probability that a load of this mass is at its target moisture or below: P(s >= m (1 - M_t))."""
        return 1.0 - self._below(mass * (1.0 - target_pct / 100.0))

    def quantiles(self, at: ArrayLike) -> list[float]:
        """Shares below which these parts of the weight lie."""
        return [float(q) for q in np.interp(np.asarray(at), self._run(), self.shares)]

    @property
    def between(self) -> Between:
        """Its middle and the middle 80 %: short enough to be kept with a batch (`belief_between`)."""
        return Between(*self.quantiles(QUANTILES))

    def _run(self) -> Array:
        run = np.cumsum(self.weight)
        return np.asarray((run - 0.5 * self.weight) / run[-1])

    def _below(self, share: float) -> float:
        return float(np.interp(share, self.shares, self._run(), left=0.0, right=1.0))

    @property
    def middle(self) -> float:
        """The median share."""
        return self.quantiles([0.5])[0]

    @property
    def log_sd(self) -> float:
        """Standard deviation of ln s."""
        logs = np.log(self.shares)
        mean = float(self.weight @ logs)
        return math.sqrt(max(float(self.weight @ (logs - mean) ** 2), 0.0))


@lru_cache(maxsize=1024)
def prior_belief(solids_pct: float, log_sd: float) -> Belief:
    """What a food's own figure says of a load: solids in % with the spread of their logarithm, cut off where no
    load can be. Raises ValueError for solids that are no percentage."""
    if not 0.0 < solids_pct < 100.0:
        raise ValueError(f"solids of {solids_pct} %")
    middle, spread = math.log(solids_pct / 100.0), max(log_sd, 1e-4)
    logs = np.linspace(middle - REACH * spread, middle + REACH * spread, NODES)
    logs = np.clip(logs, math.log(WETTEST), math.log(max(DRIEST, min(solids_pct / 100.0 + 1e-3, 0.9999))))
    logs = logs[np.diff(logs, prepend=-np.inf) > 0.0]
    weight = np.exp(-0.5 * ((logs - middle) / spread) ** 2)
    return Belief(np.exp(logs), weight / weight.sum())


def exactly(share: float) -> Belief:
    """The belief of one who knows the dry matter, as a share of the load. Raises ValueError as `prior_belief`."""
    return prior_belief(100.0 * share, EXACT)


@lru_cache(maxsize=1024)
def belief_between(share: Between) -> Belief:
    """The belief with this middle share and this middle 80 %: log-normal on either side, each with its own spread,
    since a level leaves more room below it than above. Raises ValueError for what is no such share."""
    if not 0.0 < share.low <= share.value <= share.high < 1.0:
        raise ValueError(f"dry matter of {share}")
    below, above = (max(math.log(b / a), 1e-6) / MIDDLE_80_SD for a, b in pairwise(astuple(share)))
    z = np.linspace(-REACH, REACH, NODES)
    shares = np.exp(math.log(share.value) + np.where(z < 0.0, below, above) * z)
    held = shares < max(DRIEST, share.high)
    weight = np.exp(-0.5 * z[held] ** 2)
    return Belief(shares[held], weight / weight.sum())


@cache
def equilibrium_nodes(settles: tuple[float, float, float]) -> tuple[Array, Array]:
    """Five settling moistures (dry basis) and their weights: log-normal through the middle and the middle 80 %."""
    nodes, weight = np.polynomial.hermite_e.hermegauss(5)
    return settles[0] * np.exp(_settles_log_sd(settles) * nodes), weight / weight.sum()


def settles_density(moisture: Array, settles: tuple[float, float, float]) -> Array:
    """How densely the load's settling moisture (dry basis) lies here: the same log-normal."""
    positive, sd = np.maximum(moisture, 1e-9), _settles_log_sd(settles)
    off = np.log(positive / settles[0]) / sd
    return np.asarray(np.exp(-0.5 * off * off) / (positive * sd * math.sqrt(2.0 * math.pi)))


def _settles_log_sd(settles: tuple[float, float, float]) -> float:
    _, low, high = settles
    return max(math.log(max(high, 1e-4) / max(low, 1e-4)) / (2 * 1.2815515655446004), 1e-3)


def normal_cdf(z: Array) -> Array:
    """The normal distribution's probability below z, by the error function's rational approximation (Abramowitz and
    Stegun, Handbook of Mathematical Functions, 7.1.26: within 1.5e-7)."""
    x = np.abs(z) / math.sqrt(2.0)
    t = 1.0 / (1.0 + 0.3275911 * x)
    poly = t * (0.254829592 + t * (-0.284496736 + t * (1.421413741 + t * (-1.453152027 + t * 1.061405429))))
    erf = 1.0 - poly * np.exp(-np.minimum(x * x, 700.0))
    return np.asarray(0.5 * (1.0 + np.sign(z) * erf))
