"""The parts of the forecast's reckoning, each by its own mathematics."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from scipy import stats

from dryhouse.science.dry_matter import prior_belief
from dryhouse.science.forecast.answer import Beforehand
from dryhouse.science.forecast.engine import (
    AT_ONCE,
    BEND_SD,
    MOST_CELLS,
    TAU,
    Posterior,
    clock_error,
    errors_of,
    even_normal,
    posterior,
    thinned,
)
from dryhouse.science.forecast.expectation import (
    LEVELS,
    expectation,
    joint_levels,
    learned,
    levels_that_matter,
)
from dryhouse.science.forecast.finish import finish_times, log_time_at, mr_along, paths, sample_cells
from dryhouse.science.forecast.shapes import FIRST, STEP, shapes
from tests.rows import every_row

SURE = prior_belief(15.0, 0.001)
LEWIS = int(np.argmin(np.abs(shapes().page_n - 1.0)))


def cells(halves, *, level=0.1, tau=0.0, last=0.0, weight=None) -> Posterior:
    """Cells of one shape."""
    ones = np.ones(len(halves))
    share = ones / len(halves) if weight is None else np.asarray(weight, dtype=float)
    return Posterior(np.full(len(halves), LEWIS), np.log(halves), level * ones, tau * ones, share, last,
                     0.09 * np.ones((len(halves), 5)), np.zeros(len(halves), dtype=int), ones)  # fmt: skip


def test_the_clock_s_error_grows_as_a_walk_and_no_further_than_it_is_told():
    found = clock_error(np.array([-1.0, 0.0, 1.0, 3.5, 9.0]))
    assert found == pytest.approx([0.0, 0.0, 1.0, math.sqrt(3.5), math.sqrt(3.5)])


def test_a_half_time_gives_way_as_student_s_t_of_four_degrees():
    expected = expectation(np.array([1.0, 0.8, 0.6]), Beforehand(SURE, 10.0), 0.002)
    at = expected.log_half + expected.sd_log_half * np.array([0.0, 1.0, 3.0])
    densities = stats.t.logpdf(np.array([0.0, 1.0, 3.0]), 4.0)
    assert expected.pull(at) == pytest.approx(densities - densities[0])


@every_row("count", [100, 1000, 3000])
def test_numbers_as_a_normal_distribution_has_them_wherever_they_are_cut(count):
    found = even_normal(3000)[:count]
    assert found.mean() == pytest.approx(0.0, abs=0.02)
    assert found.std() == pytest.approx(1.0, abs=0.03)
    assert np.quantile(found, [0.1, 0.9]) == pytest.approx([-1.2816, 1.2816], abs=0.05)


def test_many_weighings_are_averaged_to_four_and_twenty_and_the_last_stands():
    t = np.arange(1.0, 26.0)
    assert len(thinned(t[:24], t[:24])[0]) == 24
    few, _ = thinned(t, t)
    assert (len(few), few[-1]) == (24, 25.0)
    assert few[0] == 1.5
    assert list(few[1:]) == list(t[2:])


def test_a_curve_is_read_between_the_places_of_its_table_and_back():
    table = shapes()
    at = np.array([[FIRST - 1.0, FIRST, FIRST + 0.5 * STEP, 0.0, 9.0]])
    row = table.mr[LEWIS]
    middle = row[round(-FIRST / STEP)]
    found = mr_along(table, np.array([LEWIS]), at)[0]
    assert found == pytest.approx([row[0], row[0], (row[0] + row[1]) / 2, middle, row[-1]], abs=1e-4)
    back = log_time_at(table, np.array([LEWIS] * 4), np.array([middle, 0.0, -0.1, 0.5 * row[-1]]))
    assert back[0] == pytest.approx(0.0, abs=1e-6)
    assert list(back[1:]) == [np.inf] * 3


def test_cells_are_drawn_in_proportion_to_their_weight():
    found, error = sample_cells(cells([1.0, 2.0, 4.0], weight=[0.5, 0.25, 0.25]), 400)
    assert list(np.bincount(found)) == [200, 100, 100]
    assert np.median(error) == pytest.approx(0.0, abs=0.02)


def test_the_finish_of_one_first_order_curve_is_the_textbook_s():
    """From 1 to a level of 0.1, half of the rest gone in 2 h; 0.09 of dry matter at 40 % are 0.15: MR 1/18."""
    times, weight = finish_times(shapes(), cells([2.0]), 0.4)
    assert times == pytest.approx([2.0 * math.log2(18.0)] * len(times), rel=0.01)
    assert weight.sum() == pytest.approx(1.0)
    never, _ = finish_times(shapes(), cells([2.0]), 0.1)
    assert np.all(np.isinf(never))
    late, _ = finish_times(shapes(), cells([2.0], last=9.0), 0.4)
    assert late == pytest.approx([9.0] * len(late), rel=0.01)


def test_a_wrong_clock_spreads_the_finish_by_the_square_root_of_the_time_ahead():
    sure, loose = (finish_times(shapes(), cells([2.0] * 40, tau=tau, last=4.0), 0.4)[0] for tau in (0.0, 0.1))
    assert np.ptp(sure) < 1e-6
    ahead = math.log(2.0 * math.log2(18.0) / 4.0)
    middle_half = np.diff(np.quantile(np.log(loose), [0.25, 0.75]))[0]
    assert middle_half == pytest.approx(2 * 0.46 * 0.1 * math.sqrt(ahead), rel=0.1)


def test_the_mass_on_the_way_is_the_curve_s():
    """One half-time on half of what goes is gone: 0.1 + 0.9 × 0.5."""
    along, solids = paths(shapes(), cells([2.0]), np.array([2.0, 4.0, 8.0]), count=8)
    assert along.shape == (8, 3)
    assert along[0] == pytest.approx([0.55, 0.325, 0.1 + 0.9 / 16], abs=0.004)
    assert np.all(solids == 0.09)


def test_the_levels_that_the_weighings_leave_are_looked_at_more_closely():
    expected = expectation(np.array([1.0, 0.5, 0.3]), Beforehand(prior_belief(15.0, 0.15), 10.0), 0.002)
    at = expected.levels.at

    def left(*numbers):
        found = cells([2.0] * len(numbers))
        return levels_that_matter(replace(found, number=np.array(numbers)), expected)

    assert left(5, 6) == (at[4], at[7])
    assert left(0, 1) == (at[0], at[2])
    assert left(LEVELS - 1) == (at[-2], at[-1])
    assert left(*range(LEVELS // 2)) is not None
    assert left(*range(LEVELS // 2 + 1)) is None
    closer = joint_levels(prior_belief(15.0, 0.15), (0.04, 0.02, 0.09), 10.0, 0.3, (at[4], at[7]))
    assert (closer.at[0], closer.at[-1], len(closer.at)) == (at[4], at[7], LEVELS)


def test_the_dry_matter_is_learned_from_the_levels_that_the_weighings_leave():
    before = prior_belief(15.0, 0.15)
    expected = expectation(np.array([1.0, 0.5, 0.3]), Beforehand(before, 10.0), 0.002)
    for number in (4, 9):
        after = learned(replace(cells([2.0]), number=np.array([number])), expected, before)
        assert after.weight.sum() == pytest.approx(1.0)
        assert after.middle == pytest.approx(np.median(expected.levels.solids[number]), rel=0.02)
        assert after.expected == before.expected


def test_levels_above_what_was_weighed_are_no_levels_and_those_above_the_target_are_rare():
    belief = prior_belief(15.0, 0.15)
    levels = joint_levels(belief, (0.04, 0.02, 0.09), 10.0, 0.17)
    assert levels.at[-1] == pytest.approx(0.17 - 1e-4)
    free = joint_levels(belief, (0.04, 0.02, 0.09), 10.0, 0.9)
    assert free.at[-1] > 0.2
    assert np.all(np.diff(free.at) > 0)
    assert free.share_given.sum(axis=1) == pytest.approx([1.0] * LEVELS)
    wet = joint_levels(belief, (0.04, 0.02, 0.09), 1.0, 0.9)
    mean = [np.exp(x.log_weight) @ x.at / np.exp(x.log_weight).sum() for x in (free, wet)]
    assert mean[0] / 0.15 == pytest.approx(1.04, abs=0.03)


def test_one_weighing_leaves_what_was_expected():
    expected = expectation(np.array([1.0]), Beforehand(SURE, 10.0), 0.002)
    assert errors_of(np.array([0.0]), np.array([1.0]), expected) is None
    found = posterior(np.array([0.0]), np.array([1.0]), expected, None)
    assert len(found.weight) == MOST_CELLS
    assert found.weight.sum() == pytest.approx(1.0)
    assert found.last_hour == 0.0
    assert np.median(found.log_half) == pytest.approx(expected.log_half, abs=0.1)
    # Student's t of four degrees: its 90 % point is 1.533
    assert np.quantile(found.log_half, 0.9) - expected.log_half == pytest.approx(1.533 * 1.3, rel=0.1)
    assert set(found.tau) == set(TAU)
    assert np.log(found.stretch).std() == pytest.approx(BEND_SD, rel=0.05)


def test_a_run_weighed_to_the_end_pins_its_half_time_and_its_level():
    hours = np.linspace(0.0, 12.0, 13)
    w = 0.156 + 0.844 * 0.5 ** (hours / 2.0)
    expected = expectation(w, Beforehand(SURE, 10.0), 0.0005)
    found = posterior(hours, w, expected, errors_of(hours, w, expected))
    assert np.exp(np.median(found.log_half)) == pytest.approx(2.0, rel=0.03)
    assert float(found.level @ found.weight) == pytest.approx(0.156, abs=0.003)
    assert found.last_hour == 12.0
    assert found.weight.sum() == pytest.approx(1.0)
    assert np.mean(found.tau == TAU[0]) > 0.5
    assert len(shapes().log_prior) > AT_ONCE
