"""What is thought of a run beforehand, in the terms of the grid."""

import math

import numpy as np
import pytest

from dryhouse.science.forecast.answer import Equilibrium, Prior
from dryhouse.science.forecast.expectation import USUAL_EQUILIBRIUM, WIDE_HALF_TIME, expectation
from dryhouse.science.values import Basis

BASIS = Basis("own", "earlier runs", 3)
WEIGHINGS = np.array([1.0, 0.8, 0.6])


def expected(*, prior=None, equilibrium=None, step=0.002, target=0.22):
    return expectation(WEIGHINGS, 0.2, 0.0, target, equilibrium, prior, step)


def test_an_unknown_food_may_be_fast_or_slow_and_of_any_shape():
    found = expected()
    assert (math.exp(found.log_half), found.sd_log_half) == (pytest.approx(WIDE_HALF_TIME[0]), WIDE_HALF_TIME[1])
    assert np.ptp(found.shape_weight) == 0


def test_pages_k_and_n_become_the_half_time():
    # Page: 1/2 = exp(−k tⁿ), so t = (ln 2 ÷ k)^(1/n)
    found = expected(prior=Prior(0.3, 1.2, 0.25, 0.2, BASIS))
    assert math.exp(found.log_half) == pytest.approx((math.log(2) / 0.3) ** (1 / 1.2))
    assert found.sd_log_half == 0.25
    assert np.ptp(found.shape_weight) > 0


def test_levels_lie_between_bone_dry_and_the_lightest_weighing():
    found = expected(equilibrium=Equilibrium(0.10, 0.05, 0.15, BASIS))
    assert found.levels.min() >= 0.001
    assert found.levels.max() < WEIGHINGS.min()
    heaviest = found.levels[np.argmax(found.level_weight)]
    assert heaviest == pytest.approx(0.2 * 1.10, abs=0.01)
    usual = expected(target=0.35)
    assert usual.levels[np.argmax(usual.level_weight)] == pytest.approx(0.2 * (1 + USUAL_EQUILIBRIUM[0]), abs=0.01)


def test_a_coarser_scale_is_a_louder_one():
    assert expected(step=0.02).noise > expected(step=0.002).noise > 0
