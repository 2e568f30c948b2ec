"""One belief about the dry matter of a load: what weights, tests and fingers may teach it, and what not."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from dryhouse.science.dry_matter import Between, belief_between, feel_given, normal_cdf, prior_belief
from dryhouse.science.statuses import Feel
from tests.rows import every_row

TOMATO = prior_belief(5.48, 0.15)


def test_the_middle_is_the_tables_figure_and_the_spread_its_own():
    assert TOMATO.middle == pytest.approx(0.0548, rel=1e-3)
    assert TOMATO.log_sd == pytest.approx(0.15, rel=0.01)


def test_a_weight_below_the_tables_dry_matter_says_that_the_food_started_wetter():
    after = TOMATO.weighed(0.049, 0.001)
    assert after.middle < 0.049
    now = after.moisture(0.049)
    assert 0.0 <= now.low < now.value < now.high


def test_a_weight_far_above_the_dry_matter_teaches_nothing():
    after = TOMATO.weighed(0.5, 0.001)
    assert after.middle == pytest.approx(TOMATO.middle, rel=1e-6)


def test_a_weight_that_can_hardly_be_is_a_surprise():
    assert TOMATO.weighed(0.06, 0.001).expected > 0.5
    assert TOMATO.weighed(0.03, 0.001).expected < 0.001


def test_a_level_is_the_dry_matter_and_a_little_water():
    after = TOMATO.settled(0.060, 0.0005)
    assert after.middle == pytest.approx(0.060 / 1.04, rel=0.02)
    assert after.log_sd < 0.5 * TOMATO.log_sd


def test_a_dry_matter_test_narrows_moisture_and_target_by_half():
    after = TOMATO.tested(0.070)
    assert after.middle == pytest.approx(0.070, rel=0.02)
    wide, narrow = TOMATO.target(10.0), after.target(10.0)
    assert (narrow.high - narrow.low) / narrow.value < 0.5 * (wide.high - wide.low) / wide.value


def test_a_test_that_contradicts_the_table_stands_by_itself():
    assert TOMATO.tested(0.20).middle == pytest.approx(0.20, rel=0.05)


def test_a_brittle_piece_says_dry_and_a_sticky_one_moist():
    after = TOMATO.weighed(0.062, 0.001)
    chance = [after.felt(feel, 0.062).dry_probability(0.062, 10.0) for feel in Feel]
    assert chance[:3] == sorted(chance[:3], reverse=True)
    assert chance[0] > 0.7
    assert max(chance[3:]) < 0.05


@given(st.floats(0, 100))
def test_every_moisture_feels_like_something(moisture):
    chances = [float(feel_given(moisture, feel)) for feel in Feel]
    assert all(c >= -1e-12 for c in chances)
    assert sum(chances) == pytest.approx(1.0)


@given(st.floats(2, 90), st.floats(0.01, 0.4), st.floats(0.01, 1.0), st.sampled_from([None, *Feel]))
def test_no_figure_is_negative_or_outside_its_interval(solids, spread, mass, feel):
    belief = prior_belief(solids, spread).weighed(mass, 0.002)
    if feel is not None:
        belief = belief.felt(feel, mass)
    now, aim = belief.moisture(mass), belief.target(10.0)
    assert 0.0 <= now.low <= now.value <= now.high < 100.0
    assert 0.0 < aim.low <= aim.value <= aim.high
    assert 0.0 <= belief.dry_probability(mass, 10.0) <= 1.0
    assert belief.weight.sum() == pytest.approx(1.0)


def test_the_normal_distribution_is_the_textbooks():
    # Abramowitz and Stegun, table 26.1: P(1) = 0.84134, P(1.96) = 0.97500, P(-2) = 0.02275
    assert normal_cdf(np.array([0.0, 1.0, 1.96, -2.0])) == pytest.approx([0.5, 0.84134, 0.97500, 0.02275], abs=1e-5)


@every_row("solids", [0.0, 100.0, -5.0, math.nan])
def test_solids_that_are_no_percentage_are_refused(solids):
    with pytest.raises(ValueError, match="solids"):
        prior_belief(solids, 0.1)


@every_row("solids", [99.0, 99.9, 99.97])
def test_no_load_holds_more_dry_matter_than_it_weighs(solids):
    assert max(prior_belief(solids, 0.1).shares) < 1.0


def test_a_kept_belief_has_its_middle_and_its_ends_again():
    share = Between(0.20, 0.24, 0.25)
    kept = belief_between(share)
    found = kept.between
    assert (found.low, found.value, found.high) == pytest.approx((0.20, 0.24, 0.25), rel=1e-3)
    assert kept.weight.sum() == pytest.approx(1.0)
    assert belief_between(Between(0.24, 0.24, 0.24)).between.value == pytest.approx(0.24)


@every_row("share", [(0.0, 0.2, 0.3), (0.25, 0.2, 0.3), (0.1, 0.3, 0.2), (0.5, 0.9, 1.0)])
def test_what_is_no_share_of_dry_matter_is_refused(share):
    with pytest.raises(ValueError, match="dry matter"):
        belief_between(Between(*share))


def test_a_test_at_the_edge_of_what_such_food_holds_stays_inside_it():
    least, most = TOMATO.shares[0], TOMATO.shares[-1]
    assert TOMATO.tested(0.99 * least).middle > least
    assert TOMATO.tested(1.01 * most).middle < most


def test_moisture_and_target_by_hand():
    """Solids of 20 % known to the thousandth: 250 g of 1000 g hold 20 % water, and 10 % are reached at 222.2 g."""
    sure = prior_belief(20.0, 0.0005)
    assert sure.moisture(0.25).value == pytest.approx(20.0, abs=0.01)
    assert sure.moisture(0.15).value == 0.0
    assert sure.target(10.0).value == pytest.approx(0.2222, abs=1e-4)
    assert (sure.dry_probability(0.21, 10.0), sure.dry_probability(0.23, 10.0)) == (1.0, 0.0)
    assert sure.scaled(2.0).middle == pytest.approx(0.4)


def test_a_level_holds_the_water_of_its_own_air():
    dry, damp = (TOMATO.settled(0.060, 0.0001, (x, x, x)).middle for x in (0.02, 0.10))
    assert (dry, damp) == pytest.approx((0.060 / 1.02, 0.060 / 1.10), rel=0.002)


@every_row(
    ("feel", "moisture"),
    [(Feel.BRITTLE, 5.0), (Feel.LEATHERY, 14.5), (Feel.PLIABLE, 21.5), (Feel.STICKY, 32.0), (Feel.WET, 60.0)],
)
def test_each_feel_has_its_moistures(feel, moisture):
    """Brittle up to about 11 %, leathery to 18, pliable to 25, sticky to 40, and wet beyond."""
    given = {each: float(feel_given(moisture, each)) for each in Feel}
    assert max(given, key=given.__getitem__) == feel
    assert [float(feel_given(at, Feel.BRITTLE)) for at in (11.0,)] == pytest.approx([0.5])
    halves = [float(feel_given(at, Feel.WET)) + float(feel_given(at, Feel.STICKY)) for at in (25.0, 40.0)]
    assert halves == pytest.approx([0.5, 1.0], abs=0.01)
