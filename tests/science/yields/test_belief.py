"""The belief in closed form, against numerical integration, SciPy and what a belief must do."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import integrate, stats

from dryhouse.science.yields.belief import Belief, Predictive, alone
from tests.rows import every_row

PRIOR = Belief(mean=-1.4, weight=1.7, shape=2.0, scale=0.09)
LOGS = [-1.31, -1.52, -1.22, -1.45]
COUNTS = [1.0, 0.5, 1.0, 0.5]


def brute_force_cdf(prior: Belief, logs, counts, y: float) -> float:
    """P(next ≤ y) by integrating over μ and σ² on a fine grid; the likelihood of each batch to its power."""

    def density(u, mu):
        variance = math.exp(u)
        log = stats.norm.logpdf(mu, prior.mean, math.sqrt(variance / prior.weight))
        log += stats.invgamma.logpdf(variance, prior.shape, scale=prior.scale) + u
        for c, value in zip(counts, logs, strict=True):
            log += c * stats.norm.logpdf(value, mu, math.sqrt(variance))
        return log

    us, mus = np.linspace(-9, 4, 1301), np.linspace(-3.5, 0.7, 1401)
    variance = np.exp(us)[:, None]
    mu = mus[None, :]
    log = -0.5 * np.log(variance) - prior.weight * (mu - prior.mean) ** 2 / (2 * variance)
    log = log - prior.shape * np.log(variance) - prior.scale / variance
    for c, value in zip(counts, logs, strict=True):
        log = log + c * (-0.5 * np.log(variance) - (value - mu) ** 2 / (2 * variance))
    # the same density, spelled out with SciPy at one point, up to a constant
    middle = density(us[600], mus[700]) - density(us[500], mus[650])
    assert middle == pytest.approx(log[600, 700] - log[500, 650], abs=1e-9)
    weight = np.exp(log - log.max())
    below = stats.norm.cdf((y - mu) / np.sqrt(variance))

    def whole(values):
        return integrate.simpson(integrate.simpson(values, x=mus, axis=1), x=us)

    return whole(weight * below) / whole(weight)


@pytest.mark.parametrize("y", [-1.9, -1.5, -1.38, -1.2, -0.8])
@pytest.mark.parametrize("counts", [[1.0] * 4, COUNTS])
def test_the_closed_form_is_the_integral(y, counts):
    predictive = PRIOR.after(LOGS, counts).predictive()
    assert predictive.below(math.exp(y)) == pytest.approx(brute_force_cdf(PRIOR, LOGS, counts, y), abs=1e-6)


def test_the_predictive_is_scipys_student_t():
    predictive = PRIOR.after(LOGS).predictive()
    theirs = stats.t(predictive.df, predictive.centre, predictive.spread)
    assert math.log(predictive.low) == pytest.approx(theirs.ppf(0.1), abs=1e-9)
    assert math.log(predictive.high) == pytest.approx(theirs.ppf(0.9), abs=1e-9)
    assert predictive.below(0.3) == pytest.approx(theirs.cdf(math.log(0.3)), abs=1e-10)


def test_a_spread_of_one_is_a_spread():
    unit = Predictive(5.0, 0.3, 1.0)
    assert math.log(unit.at(0.9)) == pytest.approx(0.3 + stats.t.ppf(0.9, 5))
    assert unit.below(2.0) == pytest.approx(stats.t.cdf(math.log(2.0) - 0.3, 5))


def test_no_batches_change_nothing():
    assert PRIOR.after([]) is PRIOR


@given(st.lists(st.floats(-3, -0.2), min_size=2, max_size=12), st.integers(1, 11))
def test_the_order_and_the_portions_of_learning_do_not_matter(logs, cut):
    at_once = PRIOR.after(logs)
    in_two = PRIOR.after(logs[:cut]).after(logs[cut:])
    for name in ("mean", "weight", "shape", "scale"):
        assert getattr(in_two, name) == pytest.approx(getattr(at_once, name), rel=1e-9)


@given(st.lists(st.floats(-3, -0.2), min_size=1, max_size=12))
def test_the_middle_lies_between_the_prior_and_the_batches(logs):
    middle = PRIOR.after(logs).predictive().centre
    mean = sum(logs) / len(logs)
    assert min(mean, PRIOR.mean) - 1e-9 <= middle <= max(mean, PRIOR.mean) + 1e-9


def test_with_many_batches_only_the_batches_are_left():
    rng = np.random.default_rng(7)
    logs = list(rng.normal(-2.0, 0.15, 40_000))
    predictive = PRIOR.after(logs).predictive()
    assert predictive.centre == pytest.approx(np.mean(logs), abs=1e-4)
    assert math.log(predictive.high / predictive.low) / 2 == pytest.approx(1.2816 * np.std(logs), rel=0.01)


def test_a_batch_that_counts_half_moves_less_than_one_that_counts():
    half, full = (PRIOR.after([-1.0], [c]).mean for c in (0.5, 1.0))
    assert PRIOR.mean < half < full


def test_batches_alone_are_the_textbook_prediction():
    predictive = alone(LOGS)
    mean, sd, n = np.mean(LOGS), np.std(LOGS, ddof=1), len(LOGS)
    half = stats.t.ppf(0.9, n - 1) * sd * math.sqrt(1 + 1 / n)
    assert math.log(predictive.high) == pytest.approx(mean + half)
    assert alone([-1.0]) is None


@every_row(
    ("first", "second"),
    [
        ((8, 0.3), (12, 0.2)),
        ((4, 0.3), (2, 0.05)),
        ((4, 0.3), (7, 0.23)),
        ((4, 0.3), (4, 0.3)),
        ((4, 0.3), (39, 0.26)),
    ],
)
def test_the_product_of_two_unknowns_holds_its_share_of_simulated_ones(first, second):
    rng, n = np.random.default_rng(3), 400_000
    draws = -0.7 + sum(spread * rng.standard_t(df, n) for df, spread in (first, second))
    both = Predictive(first[0], -1.2, first[1]).and_(Predictive(second[0], 0.5, second[1]))
    inside = np.mean((draws > math.log(both.low)) & (draws < math.log(both.high)))
    assert inside == pytest.approx(0.80, abs=0.005)


def test_the_product_of_three_unknowns_holds_its_share_too():
    rng, n = np.random.default_rng(4), 400_000
    parts = [(4, 0.28), (2, 0.05), (7, 0.3)]
    draws = sum(spread * rng.standard_t(df, n) for df, spread in parts)
    one, two, three = (Predictive(df, 0.0, spread) for df, spread in parts)
    whole = one.and_(two).and_(three)
    inside = np.mean((draws > math.log(whole.low)) & (draws < math.log(whole.high)))
    assert inside == pytest.approx(0.80, abs=0.01)


def test_an_exact_factor_keeps_the_spread_and_its_degrees_of_freedom():
    unknown, exact = Predictive(5.0, -1.0, 0.2), Predictive(1.0, math.log(3), 0.0)
    both = unknown.and_(exact)
    assert (both.df, both.spread) == (5.0, 0.2)
    assert both.value == pytest.approx(3 * math.exp(-1.0))
    assert exact.and_(exact).low == pytest.approx(9)
    assert exact.below(2.9) == 0
    assert exact.below(3.1) == 1


@given(st.floats(-3, 1), st.floats(0.01, 1), st.floats(1, 60))
def test_the_other_direction_is_the_mirror(centre, spread, df):
    there = Predictive(df, centre, spread)
    back = there.inverse()
    assert back.low == pytest.approx(1 / there.high)
    assert back.high == pytest.approx(1 / there.low)
    assert there.times(4).value == pytest.approx(4 * there.value)
