"""Water activity and equilibrium moisture."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dryhouse.science.errors import InputProblem
from dryhouse.science.sorption import (
    Isotherm,
    below,
    equilibrium_moisture,
    gab,
    gab_inverse,
    refuse_unphysical,
    water_activity,
    water_activity_figure,
)
from dryhouse.science.values import Basis, Figure
from dryhouse.words.messages import problem_sentence
from tests.rows import every_row
from tests.workings import read

SOURCE = Basis("handbook", "a study")
POTATO = Isotherm(0.0925, 23.25, 0.6743, 60, 60, SOURCE)
OTHER = Isotherm(0.209, 4.416, 0.976, 40, 50, Basis("handbook", "another study"))


@given(m0=st.floats(0.02, 0.3), c=st.floats(0.2, 200), k=st.floats(0.3, 1.0), aw=st.floats(0.02, 0.95))
def test_there_and_back(m0, c, k, aw):
    assert gab_inverse(m0, c, k, gab(m0, c, k, aw)) == pytest.approx(aw, rel=1e-6)


def held(isotherm, aw):
    """Moisture (g/g) of this material at a water activity, in its range or not."""
    return gab(isotherm.m0, isotherm.c, isotherm.k, aw)


@given(aw=st.floats(0.11, 0.85))
def test_moister_food_has_more_water_activity(aw):
    drier, moister = (held(POTATO, activity) for activity in (aw, aw + 0.04))
    assert water_activity(POTATO, moister) > water_activity(POTATO, drier)


def test_outside_its_range_an_isotherm_says_nothing():
    assert water_activity(POTATO, held(POTATO, 0.05)) is None
    assert water_activity(POTATO, held(POTATO, 0.95)) is None
    assert water_activity(POTATO, 1.0) is None
    assert water_activity(POTATO, 0.0) is None


@every_row("k", [1.143, 1.14, 1.048, 1.097, 1.093, 0.1])
def test_unphysical_k_gives_a_sentence(k):
    """The K above 1 are those of Korean J. Food Preserv. 25(6):627 (2018), Table 1."""
    with pytest.raises(InputProblem) as problem:
        refuse_unphysical(0.2, 5.0, k)
    assert "not physical" in problem_sentence(problem.value)


@every_row("c", [float("inf"), 1e7, 0.0, float("nan")])
def test_a_c_that_ran_away_gives_a_sentence(c):
    with pytest.raises(InputProblem) as problem:
        refuse_unphysical(0.06, c, 0.8)
    assert "say nothing of a food" in problem_sentence(problem.value)


class TestEquilibrium:
    def test_no_isotherm_no_number(self):
        assert equilibrium_moisture([], 0.3, 55) is None
        assert equilibrium_moisture([POTATO], 0.3, 25) is None
        assert equilibrium_moisture([POTATO], 0.95, 60) is None

    def test_two_studies_span_the_interval(self):
        one = equilibrium_moisture([POTATO, OTHER], 0.3, 55)
        alone = equilibrium_moisture([POTATO], 0.3, 55)
        assert one.low < alone.value < one.high
        assert one.high - one.low > alone.high - alone.low
        assert len(one.basis) == 2

    def test_in_drier_air_than_measured_it_lies_between_nothing_and_the_driest_point(self):
        dry = equilibrium_moisture([POTATO], 0.06, 57)
        assert dry.low == 0.0
        assert dry.high == pytest.approx(gab(0.0925, 23.25, 0.6743, 0.1))
        assert 0 < dry.value < dry.high


class TestWaterActivity:
    def test_the_cautious_end_is_the_wettest(self):
        found = water_activity_figure([POTATO, OTHER], 0.08, 0.10, 0.12, 52)
        assert found.low < found.value < found.high
        assert found.unit == "aw"
        assert below(found, 0.85)
        assert not below(found, found.value)

    def test_beyond_the_wet_end_there_is_no_number(self):
        assert water_activity_figure([POTATO], 0.1, 0.2, 0.9, 60) is None

    def test_where_one_study_stops_short_of_the_moisture_the_milder_one_does_not_answer_alone(self):
        wet = 0.26
        assert gab_inverse(OTHER.m0, OTHER.c, OTHER.k, wet) < OTHER.aw_high
        assert gab_inverse(POTATO.m0, POTATO.c, POTATO.k, wet) > POTATO.aw_high
        assert water_activity_figure([OTHER], 0.18, 0.19, wet, 52) is not None
        assert water_activity_figure([POTATO, OTHER], 0.18, 0.19, wet, 52.5) is None

    def test_drier_than_the_driest_point_is_below_it(self):
        found = water_activity_figure([POTATO], 0.01, 0.02, 0.03, 60)
        assert (found.low, found.high) == (0.0, 0.1)

    def test_weights_that_do_not_add_up_give_no_number(self):
        assert water_activity_figure([POTATO], -0.1, -0.05, 0.1, 60) is None

    def test_a_single_study_by_hand(self):
        found = water_activity_figure([POTATO], 0.08, 0.10, 0.12, 60)
        ends = [gab_inverse(POTATO.m0, POTATO.c, POTATO.k, x) for x in (0.08, 0.10, 0.12)]
        assert [found.low, found.value, found.high] == pytest.approx(ends)
        assert read(found.workings).startswith("Moisture 0.1 of water for 1 of dry matter (0.08 to 0.12)\n")

    def test_two_studies_span_the_interval_and_their_mean_is_the_middle(self):
        found = water_activity_figure([POTATO, OTHER], 0.08, 0.10, 0.12, 52.5)
        low, middle, high = ([gab_inverse(i.m0, i.c, i.k, x) for i in (POTATO, OTHER)] for x in (0.08, 0.10, 0.12))
        assert (found.low, found.value, found.high) == pytest.approx((min(low), sum(middle) / 2, max(high)))
        assert [basis.source for basis in found.basis] == ["a study", "another study"]
        said = read(found.workings).split("\n")
        assert len(said) == 3
        assert said[1].startswith("GAB with m0 0.0925, C 23.25, K 0.6743, solved for the water activity: ")

    def test_a_moisture_known_exactly_has_a_number_and_one_out_of_order_has_none(self):
        assert water_activity_figure([POTATO], 0.1, 0.1, 0.1, 60) is not None
        assert water_activity_figure([POTATO], 0.11, 0.1, 0.12, 60) is None
        assert water_activity_figure([POTATO], 0.08, 0.13, 0.12, 60) is None
        assert water_activity_figure([POTATO], 0.0, 0.1, 0.12, 60) is None


def test_constants_of_no_food_are_refused_whatever_is_asked_of_them():
    strange = Isotherm(0.0925, 23.25, 1.1, 60, 60, SOURCE)
    for asked in (
        lambda: water_activity(strange, 0.1),
        lambda: equilibrium_moisture([POTATO, strange], 0.3, 60),
        lambda: water_activity_figure([POTATO, strange], 0.08, 0.10, 0.12, 60),
    ):
        with pytest.raises(InputProblem):
            asked()


def test_the_cautious_end_counts_and_without_one_the_value():
    assert [below(Figure(0.8, "aw", high=high), 0.85) for high in (None, 0.84, 0.85)] == [True, True, False]


def test_an_isotherm_is_used_seven_degrees_and_a_half_aside_and_no_further():
    assert [OTHER.near(c) for c in (32.4, 32.5, 45.0, 57.5, 57.6)] == [False, True, True, True, False]


def test_the_ends_of_the_measured_range_are_inside_it():
    activities = [water_activity(POTATO, held(POTATO, aw)) for aw in (0.099, 0.1, 0.9, 0.901)]
    assert activities == [None, pytest.approx(0.1), pytest.approx(0.9), None]
    assert equilibrium_moisture([POTATO], 0.9, 60) is not None
    assert equilibrium_moisture([POTATO], 0.0, 60) is None
    assert equilibrium_moisture([POTATO], 0.1, 60).low > 0.0


def test_studies_of_one_food_differ_by_fifteen_in_a_hundred_and_their_mean_is_the_middle():
    alone, other = (gab(i.m0, i.c, i.k, 0.3) for i in (POTATO, OTHER))
    one = equilibrium_moisture([POTATO], 0.3, 55)
    assert (one.low, one.value, one.high) == pytest.approx((0.85 * alone, alone, 1.15 * alone))
    both = equilibrium_moisture([POTATO, OTHER], 0.3, 55)
    assert both.value == pytest.approx((alone + other) / 2)
    assert (both.low, both.high) == pytest.approx((0.85 * min(alone, other), 1.15 * max(alone, other)))
    assert "at water activity 0.3: " in read(both.workings)


@every_row(
    ("constants", "physical"),
    [
        ((0.06, 5.0, 0.24), False),
        ((0.06, 5.0, 0.2401), True),
        ((0.06, 5.0, 1.0), True),
        ((0.06, 0.5, 0.8), True),
        ((0.06, 5000.0, 0.8), True),
        ((0.06, 5000.1, 0.8), False),
        ((0.0, 5.0, 0.8), False),
        ((1.0, 5.0, 0.8), False),
        ((0.06, 5.0, float("nan")), False),
    ],
)
def test_the_borders_of_physical_constants(constants, physical):
    try:
        refuse_unphysical(*constants)
    except InputProblem:
        assert not physical
    else:
        assert physical
