"""When will it be done? `forecast` puts the weighings, the dry matter and what is known beforehand together."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from dryhouse.science.curves.model import Array
from dryhouse.science.errors import InputProblem
from dryhouse.science.forecast.answer import Bands, Equilibrium, Finish, Forecast, Prior
from dryhouse.science.forecast.engine import Expectation, posterior
from dryhouse.science.forecast.finish import finish, finish_times, paths, weighted_quantiles
from dryhouse.science.forecast.shapes import shapes
from dryhouse.science.values import Basis


def forecast(
    hours: ArrayLike,
    grams: ArrayLike,
    *,
    dry_matter_g: float,
    target_moisture_pct: float,
    dry_matter_sd_g: float = 0.0,
    equilibrium: Equilibrium | None = None,
    prior: Prior | None = None,
    resolution_g: float | None = None,
    basis: tuple[Basis, ...] = (),
) -> Forecast:
    """The finish of a run and its mass on the way.

    `hours` ascend and count from the first weighing; `grams` are net masses. `dry_matter_g` is the dry matter
    of the load by its starting moisture, with `dry_matter_sd_g` where that is only known roughly (0: the target
    is the mass that the starting moisture entered makes it). `target_moisture_pct` is wet basis.
    `resolution_g` is the scale's step; guessed from the weighings where None. `basis` says where the dry
    matter and target come from. Raises InputProblem where the weighings or moistures cannot be used.
    """
    t, m = _checked(hours, grams, dry_matter_g, target_moisture_pct)
    table = shapes()
    step = resolution_g or guessed_resolution(m)
    w = m / m[0]
    dry = dry_matter_g / m[0]
    target = dry / (1.0 - target_moisture_pct / 100.0)
    target_g = target * m[0]
    told = _expectation(t, w, dry, dry_matter_sd_g / m[0], target, equilibrium, prior, step / m[0])
    reached = _crossing(t, m, target_g)
    found = posterior(t, w, told)
    if reached is not None:
        last = float(t[-1])
        done = Finish(*([reached] * 5))
        later = np.linspace(last, last * 1.5 + 1e-6, 40)
        again = None
    else:
        aims, shares = _targets(target, dry, dry_matter_sd_g / m[0])
        times, weight = finish_times(table, found, aims, shares)
        done = finish(times, weight)
        end = done.high80 if np.isfinite(done.high80) else 4.0 * done.median if np.isfinite(done.median) else 10.0
        later = np.linspace(float(t[-1]), max(1.15 * end, float(t[-1]) * 1.05 + 1e-6), 60)
        again = done.low50 if np.isfinite(done.low50) else None
    along = m[0] * paths(table, found, later)
    even = np.full(len(along), 1.0 / len(along))
    rows = np.array([weighted_quantiles(column, even) for column in along.T]).T
    return Forecast(
        finish=done,
        target_g=float(target_g),
        dry_matter_g=float(dry_matter_g),
        reached_at=reached,
        weigh_again_at=again,
        mass=Bands(later, *rows),
        sentence="",
        basis=basis,
        workings=(),
    )


def guessed_resolution(grams: Array) -> float:
    """The scale's step as the weighings show it: the largest of 10, 5, 2, 1, 0.5 … g that divides every one."""
    for step in (10.0, 5.0, 2.0, 1.0, 0.5, 0.2, 0.1, 0.05, 0.02, 0.01, 0.005, 0.002, 0.001):
        if len(grams) > 1 and np.all(np.abs(grams / step - np.round(grams / step)) < 1e-6):
            return min(step, max(float(grams[0]) * 0.02, 1e-3))
    return max(float(grams[0]) * 1e-4, 1e-4)


def _checked(hours: ArrayLike, grams: ArrayLike, dry_matter_g: float, target_pct: float) -> tuple[Array, Array]:
    t, m = np.asarray(hours, dtype=float), np.asarray(grams, dtype=float)
    if t.shape != m.shape or t.ndim != 1 or len(t) == 0:
        raise InputProblem("A forecast wants at least one weighing with its time.")
    if not (np.all(np.isfinite(t)) and np.all(np.isfinite(m))) or np.any(m <= 0):
        raise InputProblem("Every weighing is a mass above zero at a known time.")
    if np.any(np.diff(t) <= 0):
        raise InputProblem("The weighings stand in order of time, one for each moment.")
    if not 0 < target_pct < 100:
        raise InputProblem("The target moisture lies between 0 and 100 %, wet basis.", "until_moisture")
    if not 0 < dry_matter_g < m[0]:
        raise InputProblem(
            "The dry matter is more than nothing and less than the first weighing.", "start_moisture"
        )
    if dry_matter_g / (1 - target_pct / 100.0) >= m[0]:
        raise InputProblem("The load is already as dry as the target at its first weighing.", "until_moisture")
    return t - t[0], m


def _crossing(t: Array, m: Array, target: float) -> float | None:
    """When straight lines between the weighings first pass the target and stay below, or None."""
    below = m <= target
    if not below[-1]:
        return None
    first = len(m) - int(np.argmin(below[::-1])) if not below.all() else 0
    i = max(first, 1)
    return float(t[i - 1] + (t[i] - t[i - 1]) * (m[i - 1] - target) / (m[i - 1] - m[i]))


def _targets(target: float, dry: float, sd: float) -> tuple[Array, Array]:
    if sd <= 0:
        return np.array([target]), np.array([1.0])
    nodes, weight = np.polynomial.hermite_e.hermegauss(5)
    dries = np.clip(dry + sd * nodes, 0.2 * dry, 0.98)
    return np.minimum(target * dries / dry, 0.999), weight / weight.sum()


def _expectation(
    t: Array,
    w: Array,
    dry: float,
    sd: float,
    target: float,
    equilibrium: Equilibrium | None,
    prior: Prior | None,
    step: float,
) -> Expectation:
    table = shapes()
    if equilibrium is None:
        x, low, high = 0.04, 0.01, 0.09
    else:
        x, low, high = equilibrium.value, equilibrium.low, equilibrium.high
    centre = dry * (1.0 + x)
    spread = np.hypot(np.hypot(dry * (high - low) / 2.56, sd), 0.008)
    ceiling = min(float(w.min()), target) - 1e-4
    levels = centre + spread * np.linspace(-2.0, 2.0, 9)
    levels = np.minimum(levels, ceiling)
    levels = np.unique(np.maximum(levels, 0.001))
    weight = -0.5 * ((levels - centre) / spread) ** 2
    noise = max(step / np.sqrt(12.0), 0.0008 * float(1.0 - dry)) * np.sqrt(2.0)
    if prior is None:
        half, sd_half, shape_weight = np.log(2.0), 1.3, np.zeros(len(table.names))
    else:
        half = np.log(np.log(2.0)) / prior.n - np.log(prior.k) / prior.n
        sd_half = prior.sd_ln_k
        shape_weight = -0.5 * ((table.page_n - prior.n) / np.hypot(prior.sd_n, 0.15)) ** 2
    return Expectation(float(half), float(sd_half), shape_weight, levels, weight, float(noise))
