"""What is thought of a run beforehand, in the terms of the grid."""

import math

import numpy as np
import pytest

from dryhouse.science.dry_matter import SETTLES, prior_belief
from dryhouse.science.forecast.answer import Beforehand, Equilibrium, Prior
from dryhouse.science.forecast.expectation import expectation
from dryhouse.science.values import Basis

BASIS = Basis("own", "earlier runs", 3)
WEIGHINGS = np.array([1.0, 0.8, 0.6])


def expected(*, prior=None, equilibrium=None, step=0.002, target=10.0, doubt=0.001):
    return expectation(WEIGHINGS, Beforehand(prior_belief(20.0, doubt), target, equilibrium, prior), step)


def test_an_unknown_food_may_be_fast_or_slow_and_of_any_shape():
    found = expected()
    assert (math.exp(found.log_half), found.sd_log_half) == (pytest.approx(2.0), 1.3)
    assert np.ptp(found.shape_weight) == 0


def test_pages_k_and_n_become_the_half_time():
    # Page: 1/2 = exp(−k tⁿ), so t = (ln 2 ÷ k)^(1/n)
    found = expected(prior=Prior(0.3, 1.2, 0.25, 0.2, BASIS))
    assert math.exp(found.log_half) == pytest.approx((math.log(2) / 0.3) ** (1 / 1.2))
    assert found.sd_log_half == 0.25
    assert np.ptp(found.shape_weight) > 0


def test_levels_lie_between_bone_dry_and_the_lightest_weighing():
    levels = expected(equilibrium=Equilibrium(0.08, 0.07, 0.09, BASIS), target=20.0).levels
    assert levels.at.min() >= 0.001
    assert levels.at.max() < WEIGHINGS.min()
    assert levels.at[np.argmax(levels.log_weight)] == pytest.approx(0.2 * 1.08, abs=0.01)
    usual = expected(target=35.0).levels
    assert usual.at[np.argmax(usual.log_weight)] == pytest.approx(0.2 * (1 + SETTLES[0]), abs=0.01)


def test_a_load_that_settles_higher_holds_more_dry_matter():
    levels = expected(doubt=0.15).levels
    middles = np.median(levels.solids, axis=1)
    likely = levels.log_weight > levels.log_weight.max() - 6
    assert list(middles[likely]) == sorted(middles[likely])
    assert middles[-1] > 1.3 * middles[0]
    assert np.all(middles[likely] < levels.at[likely] + 0.02)


def test_a_coarser_scale_is_a_louder_one():
    assert expected(step=0.02).noise > expected(step=0.002).noise > 0
    # a step is off by a twelfth of its square; the hand that lifts the trays by two in ten thousand of the water
    assert expected(step=0.02).noise == pytest.approx(0.02 / math.sqrt(12))
    assert expected(step=1e-6).noise == pytest.approx(0.0002 * 0.8, rel=1e-3)
