"""The forecast's reckoning against slow ones: SciPy's least squares, and Bayes' rule on a fine grid."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from scipy import optimize, stats

from dryhouse.science.forecast.engine import (
    Errors,
    Expectation,
    Levels,
    _fitted,
    errors_of,
    posterior,
)
from dryhouse.science.forecast.shapes import shapes

LN2 = np.log(2.0)
TAU, NOISE, NOISE_PRIOR = (0.006, 0.05, 0.25), (1.0, 3.0), (0.8, 0.2)
"""The clock wanders by one of three sizes, alike beforehand; one in five weighs in haste, with three times the
error."""
BEND_SD, FARTHEST = 0.02, 3.5
PAGE = 24 * 4 + 2
"""The first of Page's curves that is in step: four families of starts stand side by side, the third without one."""
EXPONENTS = (0.8, 0.9, 1.0, 1.1, 1.2, 1.3, 1.45)


def page(t, half: float, n: float = 1.0, bend: float = 0.0):
    """Page's curve through a half at this half-time, its logarithm of time stretched by e to the bend."""
    return np.exp(-LN2 * np.exp(n * np.log(np.maximum(t, 1e-12) / half) / np.exp(bend)))


def number(n: float) -> int:
    """Which of the shapes is Page's curve with this exponent."""
    return PAGE + 4 * EXPONENTS.index(n)


def expected(levels, *, half=2.0, sd=1.0, noise=0.002, only=(1.0,), log_weight=None) -> Expectation:
    """Some levels, and only some of Page's curves."""
    at = np.array(levels)
    weight = np.full(len(shapes().log_prior), -1e6)
    weight[[number(n) for n in only]] = 0.0
    solids = np.outer(at, np.full(5, 0.9))
    likely = np.zeros(len(at)) if log_weight is None else np.array(log_weight)
    shares = np.array([0.1])
    return Expectation(np.log(half), sd, weight, Levels(at, likely, solids, shares, np.ones((len(at), 1))), noise)


def covariance(t, half: float, level: float, noise: float, tau: float):
    """The scale's error, and a clock that walks from the last weighing back: it moves a weighing by the slope."""
    gone = LN2 * t / half
    slope = gone * np.exp(-gone) * (1.0 - level)
    back = np.minimum(np.log(t[-1] / t), FARTHEST)
    return noise**2 * np.eye(len(t)) + tau**2 * np.outer(slope, slope) * np.minimum.outer(back, back)


def test_the_errors_of_the_weighings_are_the_scale_s_and_the_clock_s() -> None:
    hours = np.array([0.0, 0.05, 1.0, 2.0, 4.0])
    given = expected([0.1, 0.5])
    found = errors_of(hours, 0.1 + 0.9 * page(hours, 2.0), given)
    sizes = [(noise, tau) for noise in NOISE for tau in TAU]
    assert found.variance.shape == (4, len(sizes))
    for row, (noise, tau) in zip(found.variance.T, sizes, strict=True):
        told = found.turn @ np.diag(row) @ found.turn.T
        assert told == pytest.approx(covariance(hours[1:], 2.0, 0.1, 0.002 * noise, tau), rel=0.02, abs=1e-8)


def test_the_rough_look_goes_by_the_curve_and_the_level_that_are_likely() -> None:
    """Beforehand all but one curve is ruled out: the slope is that one's, however well another fits."""
    hours = np.array([0.0, 0.5, 1.0, 2.0])
    steep = expected([0.1], only=(1.45,))
    found = errors_of(hours, 0.1 + 0.9 * page(hours, 1.5, 1.45), steep)
    told = found.turn @ np.diag(found.variance[:, 2]) @ found.turn.T
    gone = LN2 * (hours[1:] / 1.5) ** 1.45
    slope = 1.45 * gone * np.exp(-gone) * 0.9
    back = np.log(2.0 / hours[1:])
    wanted = 0.002**2 * np.eye(3) + 0.25**2 * np.outer(slope, slope) * np.minimum.outer(back, back)
    assert told == pytest.approx(wanted, rel=0.03, abs=1e-8)


def test_every_curve_and_level_is_fitted_as_least_squares_fits_it() -> None:
    """Weighings a little off a curve, two sizes of their errors: half-time, bend, how they hang together, and how
    likely all of it is."""
    t, level = np.array([0.7, 1.5, 2.5, 4.0]), 0.12
    off = np.array([0.004, -0.003, 0.002, -0.002])
    y = level + (1.0 - level) * page(t, 2.0, 1.1) + off
    sizes = np.array([[4e-6, 9e-6], [4e-6, 9e-6], [4e-6, 4e-6], [4e-6, 1e-6]])
    at, held, tried = np.array([0.08, level]), BEND_SD**-2, 0
    found = _fitted(shapes(), t, y, at, 0.002, Errors(None, sizes))
    assert found.log.shape == (len(shapes().log_prior), 2, 2)
    for n in (1.0, 1.1, 1.2):
        for column, where in enumerate(at):
            for size, variance in enumerate(sizes.T):

                def away(x, n=n, where=where, variance=variance):
                    return (y - where - (1.0 - where) * page(t, np.exp(x[0]), n, x[1])) / np.sqrt(variance)

                fit = optimize.least_squares(lambda x, away=away: [*away(x), x[1] / BEND_SD], [np.log(2.0), 0.0])
                if abs(fit.x[1]) > 2.0 * BEND_SD:
                    continue  # farther than a bend is let go
                tried += 1
                slopes = fit.jac
                hesse = slopes.T @ slopes
                both = np.linalg.inv(hesse)
                cell = number(n), column, size
                assert found.log_half[cell] == pytest.approx(fit.x[0], abs=0.1 * both[0, 0] ** 0.5 + 1e-3)
                assert found.bend[cell] == pytest.approx(fit.x[1], abs=0.1 * both[1, 1] ** 0.5)
                assert found.spread[cell] == pytest.approx(both[0, 0] ** 0.5, rel=0.03)
                assert found.lean[cell] == pytest.approx(both[0, 1] / both[0, 0], rel=0.05)
                assert found.own_spread[cell] == pytest.approx(hesse[1, 1] ** -0.5, rel=0.02)
                likely = 2.0 * fit.cost + np.log(variance).sum() + np.log(np.linalg.det(hesse) / held)
                assert found.log[cell] == pytest.approx(-0.5 * likely, abs=0.1)
    assert tried >= 4
    assert (found.bend.min(), found.bend.max()) == (pytest.approx(-3 * BEND_SD), pytest.approx(3 * BEND_SD))


def test_a_bent_curve_loses_its_water_at_its_own_pace() -> None:
    """Lewis with its logarithm of time stretched by e to 0.05: flatter by as much."""
    hours = np.array([0.0, 0.5, 1.0, 2.0, 3.0])
    given = expected([0.1], noise=1e-5)
    found = errors_of(hours, 0.1 + 0.9 * page(hours, 2.0, bend=0.05), given)
    told = found.turn @ np.diag(found.variance[:, 2]) @ found.turn.T
    t = hours[1:]
    gone = LN2 * np.exp(np.log(t / 2.0) / np.exp(0.05))
    slope = gone * np.exp(-gone) / np.exp(0.05) * 0.9
    back = np.log(3.0 / t)
    assert np.diag(told) == pytest.approx(0.25**2 * slope**2 * back + 1e-10, rel=0.02)


def by_bayes(hours, w, given: Expectation, only) -> dict[str, np.ndarray]:
    """Every curve, level, size of error, half-time and bend on a fine grid, each in the weight of Bayes' rule."""
    t, y = hours[1:], w[1:]
    errors = errors_of(hours, w, given)
    half = given.log_half + given.sd_log_half * np.linspace(-4.0, 4.0, 401)
    bends = BEND_SD * np.linspace(-3.0, 3.0, 25)
    log = np.empty((len(only), len(given.levels.at), errors.variance.shape[1], len(half), len(bends)))
    for i, n in enumerate(only):
        for j, level in enumerate(given.levels.at):
            for b, bend in enumerate(bends):
                curve = np.array([page(at, np.exp(half), n, bend) for at in t])
                off = errors.turn.T @ (y[:, None] - level - (1.0 - level) * curve)
                for size, variance in enumerate(errors.variance.T):
                    fit = (off**2 / variance[:, None]).sum(axis=0) + np.log(variance).sum()
                    log[i, j, size, :, b] = -0.5 * (fit + (bend / BEND_SD) ** 2)
            log[i, j] += given.levels.log_weight[j] + shapes().log_prior[number(n)]
    log += np.log(np.repeat(NOISE_PRIOR, len(TAU)))[:, None, None]
    log += stats.t.logpdf((half - given.log_half) / given.sd_log_half, 4.0)[:, None]
    weight = np.exp(log - log.max())
    weight /= weight.sum()
    tau = weight.sum(axis=(0, 1, 3, 4)).reshape(len(NOISE), len(TAU)).sum(axis=0)
    together = weight.sum(axis=(0, 1, 2))
    by_half = together.sum(axis=1)
    mean = by_half @ half
    return {"shape": weight.sum(axis=(1, 2, 3, 4)), "level": weight.sum(axis=(0, 2, 3, 4)), "tau": tau,
            "mean": mean, "sd": np.sqrt(by_half @ (half - mean) ** 2),
            "bend": np.sqrt(together.sum(axis=0) @ bends**2), "both": (half - mean) @ together @ bends}  # fmt: skip


@pytest.mark.parametrize(
    ("hours", "off", "half", "sd"),
    [
        ([0.0, 0.4, 0.8], [0.0, 0.001, -0.001], 3.0, 0.2),  # little seen: what was expected counts
        ([0.0, 1.0, 2.0, 3.0, 4.0], [0.0, 0.003, -0.004, 0.003, 0.0], 1.5, 1.0),
    ],
)
def test_the_posterior_is_bayes_rule_s(hours, off, half, sd) -> None:
    only, hours = (0.9, 1.0, 1.2), np.array(hours)
    w = 0.1 + 0.9 * page(hours, 2.0) + np.array(off)
    given = expected([0.08, 0.10, 0.13], half=half, sd=sd, noise=0.003, only=only, log_weight=[0.0, -0.7, 0.3])
    found = posterior(hours, w, given, errors_of(hours, w, given))
    wanted = by_bayes(hours, w, given, only)
    share = np.array([found.weight[found.shape == number(n)].sum() for n in only])
    assert share == pytest.approx(wanted["shape"], abs=0.04)
    assert np.bincount(found.number, found.weight, 3) == pytest.approx(wanted["level"], abs=0.04)
    assert [found.weight[found.tau == tau].sum() for tau in TAU] == pytest.approx(wanted["tau"], abs=0.04)
    assert found.weight @ found.log_half == pytest.approx(wanted["mean"], abs=0.1 * wanted["sd"])
    away = found.log_half - found.weight @ found.log_half
    spread = np.sqrt(found.weight @ away**2)
    assert spread == pytest.approx(wanted["sd"], rel=0.05)
    assert np.sqrt(found.weight @ np.log(found.stretch) ** 2) == pytest.approx(wanted["bend"], rel=0.1)
    together = found.weight @ (away * np.log(found.stretch))
    assert together == pytest.approx(wanted["both"], abs=0.1 * wanted["sd"] * wanted["bend"])
    assert list(found.level) == list(given.levels.at[found.number])
    assert found.solids[:, 0] == pytest.approx(0.9 * found.level)
    assert found.last_hour == hours[-1]


def test_one_weighing_leaves_levels_and_curves_in_the_weights_they_had() -> None:
    only = (0.9, 1.2)
    given = replace(expected([0.08, 0.13], only=only, log_weight=[0.0, 1.0]), sd_log_half=0.5)
    found = posterior(np.array([0.0]), np.array([1.0]), given, None)
    prior = np.exp([shapes().log_prior[number(n)] for n in only])
    share = [np.mean(found.shape == number(n)) for n in only]
    assert share == pytest.approx(list(prior / prior.sum()), abs=0.01)
    assert np.mean(found.number == 1) == pytest.approx(np.e / (1.0 + np.e), abs=0.01)
    assert [np.mean(found.tau == tau) for tau in TAU] == pytest.approx([1 / 3] * 3, abs=0.01)
    below = [np.quantile(found.log_half, part) for part in (0.05, 0.25, 0.5, 0.75, 0.95)]
    wanted = np.log(2.0) + 0.5 * stats.t.ppf([0.05, 0.25, 0.5, 0.75, 0.95], 4.0)
    assert below == pytest.approx(list(wanted), abs=0.08)
    assert list(found.level) == list(given.levels.at[found.number])
