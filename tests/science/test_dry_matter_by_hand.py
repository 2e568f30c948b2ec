"""The belief about the dry matter of a load, against closed forms and a plain integration."""

from __future__ import annotations

import math

import numpy as np
import pytest
from scipy import special, stats

from dryhouse.science.dry_matter import (
    Belief,
    Between,
    belief_between,
    equilibrium_nodes,
    exactly,
    feel_given,
    normal_cdf,
    prior_belief,
    settles_density,
)
from dryhouse.science.statuses import Feel

THREE = Belief(np.array([0.10, 0.20, 0.40]), np.array([0.25, 0.50, 0.25]), 0.5)
"""A quarter, a half and a quarter; half as likely before as it might have been."""


def test_three_shares_by_hand() -> None:
    """The middles of their parts are 1/8, 1/2 and 7/8: a tenth lies below 0.1, and nine tenths below 0.4."""
    assert THREE.quantiles([0.0, 0.125, 0.3125, 0.5, 0.6875, 0.9]) == pytest.approx([0.1, 0.1, 0.15, 0.2, 0.3, 0.4])
    assert (THREE.middle, THREE.between) == (pytest.approx(0.2), Between(0.1, pytest.approx(0.2), 0.4))
    # half a load: 0.1, 0.2 and 0.4 of dry matter in 0.5
    assert THREE.moisture(0.5) == Between(*(pytest.approx(x) for x in (20.0, 60.0, 80.0)))
    assert THREE.moisture(0.3).low == 0.0
    assert THREE.target(20.0) == Between(*(pytest.approx(x) for x in (0.125, 0.25, 0.5)))
    # at 20 % a load of 0.375 holds 0.3: seven sixteenths of the way from the middle to the end lie above it
    assert THREE.dry_probability(0.375, 20.0) == pytest.approx(1 - 0.6875)
    assert [THREE.dry_probability(mass, 20.0) for mass in (0.12, 0.51)] == [1.0, 0.0]
    # ln s is ln 0.2 ± ln 2 in half of all cases
    assert THREE.log_sd == pytest.approx(math.log(2.0) * math.sqrt(0.5))
    doubled = THREE.scaled(2.0)
    assert (list(doubled.shares), list(doubled.weight), doubled.expected) == (
        pytest.approx([0.2, 0.4, 0.8]), [0.25, 0.5, 0.25], 0.5,
    )  # fmt: skip


def test_how_a_piece_feels_is_bayes_rule() -> None:
    """At half the load its moisture is 80, 60 or 20 %. Wet sets in at 40 % and pliable at 18, over 4 and 2 %."""
    wet = [special.expit((m - 40.0) / 4.0) for m in (80.0, 60.0, 20.0)]
    after = THREE.felt(Feel.WET, 0.5)
    likely = np.array(wet) * [0.25, 0.5, 0.25]
    assert list(after.weight) == pytest.approx(list(likely / likely.sum()))
    assert after.expected == 0.5
    heavy = THREE.felt(Feel.BRITTLE, 0.05)  # lighter than any dry matter: no moisture at all
    assert list(heavy.weight) == pytest.approx([0.25, 0.5, 0.25])


def test_what_each_feel_says_is_a_step_of_its_own_width() -> None:
    """Borders at 11, 18, 25 and 40 %, each a logistic step with its own width."""
    at = np.array([5.0, 11.0, 14.0, 21.0, 30.0, 44.0])
    above = [special.expit((at - border) / width) for border, width in ((11, 1.4), (18, 2.0), (25, 2.5), (40, 4.0))]
    steps = [np.ones(6), *above, np.zeros(6)]
    for number, feel in enumerate(Feel):
        assert feel_given(at, feel) == pytest.approx(steps[number] - steps[number + 1]), feel


def settling(s: float, seen: float, sd: float, settles: tuple[float, float, float], how) -> float:
    """The likelihood of what was seen, over the moisture that such food settles at: log-normal, by integration."""
    spread = math.log(settles[2] / settles[1]) / (2.0 * stats.norm.ppf(0.9))
    z = np.linspace(-6.0, 6.0, 1201)
    level = s * (1.0 + settles[0] * np.exp(spread * z))
    return float(np.sum(stats.norm.pdf(z) * how((seen - level) / sd)) * 0.01)


def test_a_weight_and_a_level_are_believed_as_far_as_the_scale_and_the_air_allow() -> None:
    """A weight of 0.2 read to 0.01, and a level of 0.2 good to 0.01, with food that settles at 0.03 to 0.1."""
    settles = (0.05, 0.03, 0.10)
    before = Belief(np.array([0.17, 0.18, 0.19, 0.20]), np.array([0.1, 0.2, 0.3, 0.4]), 0.5)
    least = np.array([settling(s, 0.2, 0.01, settles, stats.norm.cdf) for s in before.shares]) * before.weight
    weighed = before.weighed(0.2, 0.01, settles)
    assert list(weighed.weight) == pytest.approx(list(least / least.sum()), rel=0.02)
    assert weighed.expected == pytest.approx(0.5 * least.sum(), rel=0.02)
    bell = [settling(s, 0.2, 0.01, settles, lambda off: np.exp(-0.5 * off * off)) for s in before.shares]
    near = np.array(bell) * before.weight
    level = before.settled(0.2, 0.01, settles)
    assert list(level.weight) == pytest.approx(list(near / near.sum()), rel=0.02)
    assert level.expected == 0.5


def test_what_cannot_be_changes_nothing_but_the_surprise() -> None:
    """A load of no weight at all, and a level a hundred times the load."""
    light, far = THREE.weighed(-10.0, 1e-4), THREE.settled(100.0, 1e-4)
    assert (list(light.weight), light.expected) == (list(THREE.weight), 0.0)
    assert (list(far.weight), far.expected) == (list(THREE.weight), 0.5)
    # a scale without any step still has one of a millionth
    assert list(THREE.weighed(0.3, 0.0).weight) == pytest.approx([1 / 3, 2 / 3, 0.0])
    assert list(THREE.settled(0.208, 0.0, (0.04, 0.04, 0.04)).weight) == pytest.approx([0.0, 1.0, 0.0])


def test_a_dry_matter_test_is_weighed_against_the_table_by_their_certainty() -> None:
    """Two normal distributions of ln s: their precisions add up, and the middle is theirs, weighed."""
    before, sd = prior_belief(12.5, 0.21), 0.07
    after = Belief(before.shares, before.weight, 0.25).tested(0.15, sd)
    sure, told = sd**-2, 0.21**-2
    middle = math.exp((sure * math.log(0.15) + told * math.log(0.125)) / (sure + told))
    assert after.middle == pytest.approx(middle, rel=1e-4)
    assert after.log_sd == pytest.approx((sure + told) ** -0.5, rel=1e-3)
    assert after.expected == 0.25
    # a test alone is good to two in a hundred
    assert before.tested(0.125).log_sd == pytest.approx((0.02**-2 + told) ** -0.5, rel=1e-3)


def test_the_tables_figure_is_a_log_normal_four_and_a_half_standard_deviations_wide() -> None:
    found = prior_belief(13.5, 0.2)
    assert len(found.shares) == 321
    assert (found.shares[0], found.shares[160], found.shares[-1]) == pytest.approx(
        (0.135 * math.exp(-0.9), 0.135, 0.135 * math.exp(0.9))
    )
    assert (found.expected, found.log_sd) == (1.0, pytest.approx(0.2, rel=1e-3))
    below = [found.quantiles([stats.norm.cdf(z)])[0] for z in (-2.0, -1.0, 1.0, 2.0)]
    assert below == pytest.approx([0.135 * math.exp(0.2 * z) for z in (-2.0, -1.0, 1.0, 2.0)], rel=1e-3)
    assert prior_belief(13.5, 0.0).log_sd == pytest.approx(1e-4, rel=1e-3)
    sure = exactly(0.145)
    assert (sure.middle, sure.log_sd) == (pytest.approx(0.145), pytest.approx(1e-3, rel=1e-3))


def test_no_load_is_all_dry_matter_and_none_is_all_water() -> None:
    """Nothing drier than 98.5 %, or than a tenth of a percent above the food's own figure, and 99.99 % at most;
    nothing wetter than half a percent."""
    most = {96.5: 0.985, 98.45: 0.9855, 98.9: 0.99, 99.95: 0.9999}
    assert {pct: prior_belief(pct, 0.11).shares[-1] for pct in most} == pytest.approx(most, rel=1e-9)
    watery = prior_belief(0.7, 0.31)
    assert watery.shares[0] == pytest.approx(0.005)
    assert np.all(np.diff(watery.shares) > 0.0)
    assert watery.weight.sum() == pytest.approx(1.0)
    # what lies beyond is left out, not heaped up at the end
    z = math.log(0.005 / 0.007) / 0.31
    cut = stats.truncnorm(z, np.inf)
    assert watery.middle == pytest.approx(0.007 * math.exp(0.31 * cut.median()), rel=0.005)


def test_a_kept_belief_has_a_spread_of_its_own_on_either_side() -> None:
    """From 0.21 to 0.24 and on to 0.26; 1.2816 standard deviations each."""
    kept = belief_between(Between(0.21, 0.24, 0.26))
    below, above = math.log(0.24 / 0.21) / 1.28155, math.log(0.26 / 0.24) / 1.28155
    ends = stats.norm.cdf([-2.0, -1.0, 0.0, 1.0, 2.0])
    wanted = [0.24 * math.exp(z * (below if z < 0 else above)) for z in (-2, -1, 0, 1, 2)]
    assert kept.quantiles(ends) == pytest.approx(wanted, rel=1e-3)
    assert (kept.shares[0], kept.shares[-1], len(kept.shares)) == (
        pytest.approx(0.24 * math.exp(-4.5 * below)), pytest.approx(0.24 * math.exp(4.5 * above)), 321,
    )  # fmt: skip
    assert kept.expected == 1.0
    dry = belief_between(Between(0.90, 0.95, 0.98)).shares
    assert 0.98 < dry[-1] < 0.985
    drier = belief_between(Between(0.90, 0.95, 0.99)).shares
    assert 0.985 < drier[-1] < 0.99
    point = belief_between(Between(0.23, 0.23, 0.23))
    assert point.log_sd == pytest.approx(1e-6 / 1.28155, rel=0.01)


def test_the_moisture_food_settles_at_is_log_normal_through_its_middle_and_its_ends() -> None:
    """ln X with a spread of ln(0.095 / 0.02) ÷ 2 ÷ 1.2816 = 0.608: its moments are those of the textbook."""
    settles = (0.045, 0.02, 0.095)
    sd = math.log(0.095 / 0.02) / (2.0 * stats.norm.ppf(0.9))
    nodes, weight = equilibrium_nodes(settles)
    assert (len(nodes), weight.sum()) == (5, pytest.approx(1.0))
    assert nodes[2] == pytest.approx(0.045)
    assert weight @ nodes == pytest.approx(0.045 * math.exp(sd**2 / 2), rel=1e-4)
    assert weight @ np.log(nodes) == pytest.approx(math.log(0.045))
    assert weight @ (np.log(nodes) - math.log(0.045)) ** 2 == pytest.approx(sd**2)
    at = np.array([0.01, 0.045, 0.2])
    assert settles_density(at, settles) == pytest.approx(stats.lognorm(sd, scale=0.045).pdf(at))
    assert settles_density(np.array([0.0, -0.1]), settles) == pytest.approx([0.0, 0.0])


def test_a_moisture_it_settles_at_that_is_known_or_nothing_still_has_a_spread() -> None:
    def spread(low: float, high: float) -> float:
        nodes, weight = equilibrium_nodes((0.04, low, high))
        return math.sqrt(float(weight @ np.log(nodes / 0.04) ** 2))

    assert spread(0.041, 0.041) == pytest.approx(0.001)
    assert spread(0.0, 0.09) == pytest.approx(math.log(0.09 / 1e-4) / 2.563103, rel=1e-5)
    assert spread(0.00005, 0.00005) == pytest.approx(0.001)


def test_the_normal_distribution_is_scipy_s_to_seven_digits() -> None:
    z = np.array([-40.0, -6.0, -2.5, -1.0, -0.3, 0.0, 0.01, 0.7, 1.3, 3.1, 40.0])
    assert normal_cdf(z) == pytest.approx(stats.norm.cdf(z), abs=1e-7)
