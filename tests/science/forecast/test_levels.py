"""Level and dry matter as one unknown, against a plain integration."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from scipy import stats

from dryhouse.science.dry_matter import Belief, exactly, prior_belief
from dryhouse.science.forecast.answer import Beforehand, Equilibrium, Prior
from dryhouse.science.forecast.expectation import expectation, joint_levels, learned
from dryhouse.science.forecast.shapes import shapes
from dryhouse.science.values import Basis
from tests.science.forecast.test_engine import cells
from tests.science.forecast.test_posterior import EXPONENTS, number

SETTLES = (0.05, 0.03, 0.10)
SPREAD = math.log(0.10 / 0.03) / (2.0 * stats.norm.ppf(0.9))
OUTERMOST = 2.8569700138728
"""The outermost of the five places at which a polynomial is weighed under the normal distribution: the root of
x⁴ − 10 x² + 15."""
THREE = Belief(np.array([0.13, 0.15, 0.18]), np.array([0.25, 0.5, 0.25]))


def slack(share: float, lacking: float = 0.0) -> float:
    """Three thousandths of the dry matter that trays never give back, and what a told moisture is rounded by."""
    return math.hypot(min(lacking, 0.25 * share), 0.003 * share)


def density(level: float, share: float, lacking: float = 0.0) -> float:
    """How densely a load of this dry matter settles at this level: s (1 + X) with ln X normal, give or take the
    slack."""
    z = np.linspace(-6.0, 6.0, 601)
    moisture = (level - slack(share, lacking) * z) / share - 1.0
    at = stats.lognorm(SPREAD, scale=SETTLES[0]).pdf(moisture)
    return float(np.sum(at * stats.norm.pdf(z)) * 0.02) / share


def checked(levels, belief: Belief, target: float, lacking: float = 0.0) -> None:
    """That each level and each dry matter with it has the weight of an integration."""
    held = np.array([[density(at, s, lacking) for s in belief.shares] for at in levels.at]) * belief.weight
    held = held * np.where(levels.at[:, None] >= belief.shares / (1.0 - target / 100.0), 0.05, 1.0)
    likely = held.sum(axis=1) > 1e-3 * held.sum(axis=1).max()
    assert np.count_nonzero(likely) >= 5
    weight, wanted = np.exp(levels.log_weight), held.sum(axis=1)
    assert weight[likely] / weight.sum() == pytest.approx(wanted[likely] / wanted.sum(), rel=0.08, abs=0.004)
    given = held[likely] / wanted[likely, None]
    assert levels.share_given[likely] == pytest.approx(given, abs=0.03)


def test_a_level_is_as_likely_as_dry_matter_and_air_make_it() -> None:
    found = joint_levels(THREE, SETTLES, 10.0, 0.9)
    assert list(found.shares) == pytest.approx(list(THREE.shares))
    checked(found, THREE, 10.0)
    most = 0.18 * (1.0 + 0.05 * math.exp(OUTERMOST * SPREAD))
    least = 0.13 * (1.0 + 0.05 * math.exp(-OUTERMOST * SPREAD))
    assert len(found.at) == 18
    assert (found.at[0], found.at[-1]) == pytest.approx((least - 2 * 0.003 * 0.18, most + 3 * 0.003 * 0.18))


def test_levels_above_the_target_count_a_twentieth() -> None:
    checked(joint_levels(THREE, SETTLES, 5.0, 0.9), THREE, 5.0)
    low, high = (joint_levels(THREE, SETTLES, target, 0.9, (0.19, 0.21)) for target in (1.0, 50.0))
    assert low.log_weight == pytest.approx(high.log_weight - math.log(20.0))
    assert low.share_given == pytest.approx(high.share_given)


def test_a_moisture_told_in_whole_percent_leaves_the_level_a_little_open() -> None:
    """Three thousandths of the load, less what is in doubt anyway; at most a quarter of the solids."""
    sure = exactly(0.15)
    exact = joint_levels(sure, SETTLES, 10.0, 0.9, (0.152, 0.175))
    lacking = math.sqrt(0.003**2 - (0.15 * 0.001) ** 2)
    wanted = np.array([density(at, 0.15, lacking) for at in exact.at])
    wanted *= np.where(exact.at >= 0.15 / 0.9, 0.05, 1.0)
    weight = np.exp(exact.log_weight)
    assert weight / weight.sum() == pytest.approx(wanted / wanted.sum(), abs=0.01)
    thin = joint_levels(Belief(np.array([0.006]), np.array([1.0])), SETTLES, 10.0, 0.9)
    most = 0.006 * (1.0 + 0.05 * math.exp(OUTERMOST * SPREAD))
    assert thin.at[-1] == pytest.approx(most + 3 * slack(0.006, 0.003))
    assert thin.at[0] == pytest.approx(0.006 * (1 + 0.05 * math.exp(-OUTERMOST * SPREAD)) - 2 * slack(0.006, 0.003))


def test_a_level_lies_below_the_lightest_weighing_and_above_a_thousandth() -> None:
    assert joint_levels(THREE, SETTLES, 10.0, 0.16).at[-1] == pytest.approx(0.16 - 1e-4)
    light = joint_levels(THREE, SETTLES, 10.0, 0.12)
    assert (light.at[0], light.at[-1]) == pytest.approx((0.9 * (0.12 - 1e-4), 0.12 - 1e-4))
    dust = joint_levels(Belief(np.array([0.0008]), np.array([1.0])), SETTLES, 10.0, 0.9)
    assert dust.at[0] == pytest.approx(min(0.001, 0.9 * dust.at[-1]))
    assert joint_levels(THREE, SETTLES, 10.0, 0.9, (0.15, 0.16)).at == pytest.approx(np.linspace(0.15, 0.16, 18))


def test_dry_matter_that_was_told_may_be_the_level_itself() -> None:
    """In three of ten cases both are what was told: the level as closely as the levels stand, or to five
    thousandths of it; the dry matter likewise."""
    plain = joint_levels(THREE, SETTLES, 30.0, 0.9, (0.13, 0.19))
    told = joint_levels(THREE, SETTLES, 30.0, 0.9, (0.13, 0.19), 0.15)
    apart = 0.06 / 17
    level = stats.norm(0.15, apart).pdf(plain.at)
    share = np.exp(-0.5 * ((THREE.shares - 0.15) / 0.03) ** 2)
    usual = np.exp(plain.log_weight)[:, None] * plain.share_given
    held = 0.7 * usual + 0.3 * np.outer(level, share / share.sum())
    assert np.exp(told.log_weight) == pytest.approx(held.sum(axis=1))
    assert told.share_given == pytest.approx(held / held.sum(axis=1)[:, None])
    close = joint_levels(THREE, SETTLES, 30.0, 0.9, (0.149, 0.151), 0.15)
    usual = joint_levels(THREE, SETTLES, 30.0, 0.9, (0.149, 0.151))
    level = stats.norm(0.15, 0.005 * 0.15).pdf(close.at)
    held = 0.7 * np.exp(usual.log_weight)[:, None] * usual.share_given + 0.3 * np.outer(level, share / share.sum())
    assert np.exp(close.log_weight) == pytest.approx(held.sum(axis=1))


def test_the_dry_matter_of_a_level_stands_at_five_places_of_equal_weight() -> None:
    """Tenths 1, 3, 5, 7 and 9 of it, on straight lines between the middles of its parts."""
    found = joint_levels(THREE, SETTLES, 30.0, 0.9)
    for given, solids in zip(found.share_given, found.solids, strict=True):
        middles = np.cumsum(given) - given / 2.0
        assert solids == pytest.approx([np.interp(at, middles, THREE.shares) for at in (0.1, 0.3, 0.5, 0.7, 0.9)])


def test_a_fine_belief_is_thinned_by_twos_and_keeps_its_mean() -> None:
    belief = prior_belief(16.0, 0.17)
    found = joint_levels(belief, SETTLES, 10.0, 0.9)
    assert len(found.shares) == 161
    first = belief.weight[:2]
    assert found.shares[0] == pytest.approx(belief.shares[:2] @ first / first.sum())
    assert found.shares[-1] == pytest.approx(belief.shares[-1])
    rare = Belief(np.array([0.10, 0.15, 0.18]), np.array([0.9e-8, 0.9, 0.1]))
    assert list(joint_levels(rare, SETTLES, 10.0, 0.9).shares) == pytest.approx([0.15, 0.18])


def test_what_is_told_of_a_run_beforehand_becomes_the_grid_s() -> None:
    w, solids, basis = np.array([1.0, 0.7, 0.5]), prior_belief(16.0, 0.17), Basis("own", "earlier runs", 3)
    given = Beforehand(solids, 10.0)
    plain = expectation(w, given, 0.002)
    assert plain.levels.at == pytest.approx(joint_levels(solids, (0.04, 0.02, 0.09), 10.0, 0.5).at)
    told = expectation(w, replace(given, as_told=True), 0.002, (0.15, 0.2)).levels
    wanted = joint_levels(solids, (0.04, 0.02, 0.09), 10.0, 0.5, (0.15, 0.2), solids.middle)
    assert told.log_weight == pytest.approx(wanted.log_weight)
    air = Equilibrium(*SETTLES, basis)
    damp = expectation(w, replace(given, equilibrium=air, as_told=True), 0.002, (0.15, 0.2)).levels
    assert damp.log_weight == pytest.approx(joint_levels(solids, SETTLES, 10.0, 0.5, (0.15, 0.2)).log_weight)
    prior = expectation(w, replace(given, prior=Prior(0.3, 1.2, 0.25, 0.2, basis)), 0.002)
    page = prior.shape_weight[[number(n) for n in EXPONENTS]]
    exponents = np.array(EXPONENTS)
    assert page == pytest.approx(-0.5 * (exponents - 1.2) ** 2 / (0.2**2 + 0.15**2), abs=0.02)
    assert len(prior.shape_weight) == len(shapes().log_prior)


def test_the_dry_matter_of_a_run_is_that_of_its_levels_in_their_weights() -> None:
    w = np.array([1.0, 0.7, 0.5])
    given = expectation(w, Beforehand(THREE, 10.0), 0.002)
    found = replace(cells([1.0, 2.0], weight=[0.75, 0.25]), number=np.array([4, 9]))
    after = learned(found, given, Belief(THREE.shares, THREE.weight, 0.3))
    wanted = 0.75 * given.levels.share_given[4] + 0.25 * given.levels.share_given[9]
    assert list(after.shares) == pytest.approx(list(THREE.shares))
    assert (list(after.weight), after.expected) == (pytest.approx(list(wanted)), 0.3)
