"""Drying rate and the periods of drying."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import optimize

from dryhouse.science.curves import periods, rates
from dryhouse.science.curves.rate import two_periods
from dryhouse.science.messages import MessageKind as Told
from dryhouse.words.messages import message_words

HOURS = np.linspace(0, 12, 25)


def test_rate_between_weighings_at_their_middle():
    found = rates([0, 1, 3], [500, 440, 400], 80)
    assert list(found.hours) == [0.5, 2.0]
    assert list(found.grams_per_hour) == [60.0, 20.0]
    assert found.moisture_db == pytest.approx([470 / 80 - 1, 420 / 80 - 1])


@given(rate=st.floats(0.12, 0.3), critical=st.floats(0.3, 0.7))
def test_two_periods_are_found_again(rate, critical):
    told = periods(HOURS, two_periods(HOURS, np.array(rate), np.array(critical)))
    assert "Constant rate" in message_words(told)
    values = {t.name: t.value for t in told.terms}
    assert values["rate"] == pytest.approx(100 * rate, rel=0.02)
    assert values["critical"] == pytest.approx(100 * critical, abs=2.0)


def test_first_order_from_the_start_has_no_constant_rate_period():
    told = periods(HOURS, np.exp(-0.3 * HOURS))
    assert "falls from the beginning" in message_words(told)


def test_a_run_still_at_constant_rate():
    told = periods(HOURS[:9], 1 - 0.12 * HOURS[:9])
    assert "has not begun to fall" in message_words(told)


@pytest.mark.parametrize(("hours", "mr"), [([0, 1, 2], [1, 0.8, 0.6]), (HOURS, 1 - 0.002 * HOURS)])
def test_too_little_to_tell(hours, mr):
    assert periods(hours, mr).kind in (Told.TOO_FEW_FOR_PERIODS, Told.TOO_EARLY_FOR_PERIODS)


def test_a_fall_within_no_time_at_all_is_no_constant_rate():
    told = periods([0.0, 1e-310, 1.0, 2.0, 3.0, 4.0], [1.0, 0.1, 0.08, 0.05, 0.03, 0.02])
    assert message_words(told) == "The rate falls from the beginning: no constant-rate period shows."


def test_a_long_run_is_read_from_some_of_its_weighings_and_says_the_same():
    hours = np.linspace(0, 12, 1500)
    told = periods(hours, two_periods(hours, np.array(0.2), np.array(0.5)))
    assert message_words(told) == (
        "Constant rate for the first 2.5 h (20 % of the free water an hour), then falling from 50 % of the free "
        "water on."
    )


def test_the_two_periods_meet_at_the_critical_moisture():
    """At 0.2 an hour down to 0.5: there after 2.5 h, and a time constant of 0.5 ÷ 0.2 = 2.5 h from then on."""
    mr = two_periods(np.array([0.0, 1.0, 2.5, 5.0]), np.array(0.2), np.array(0.5))
    assert mr == pytest.approx([1.0, 0.8, 0.5, 0.5 * np.exp(-1)])


def test_what_it_takes_to_tell_the_periods_apart():
    mr = two_periods(HOURS, np.array(0.2), np.array(0.5))
    assert message_words(periods(HOURS[:5], mr[:5])) == (
        "Fewer than 6 weighings do not tell a constant from a falling rate."
    )
    six = np.linspace(0, 8, 6)
    assert "Fewer" not in message_words(periods(six, two_periods(six, np.array(0.2), np.array(0.5))))
    early = np.linspace(0, 1, 8)
    for rate, hardly in ((0.099, True), (0.101, False)):
        assert ("hardly begun" in message_words(periods(early, 1 - rate * early))) is hardly


def test_a_rate_that_falls_almost_at_once_is_no_constant_one():
    """Constant down to 94.5 % is first order for anyone at the scale; down to 91 % it is told."""
    hours = np.linspace(0, 30, 301)
    for critical, told in ((0.945, Told.NO_CONSTANT_RATE), (0.91, Told.TWO_PERIODS)):
        assert periods(hours, two_periods(hours, np.array(0.06), np.array(critical))).kind is told


def test_a_constant_rate_is_still_on_where_only_the_last_weighing_lies_beyond_it():
    """0.2 an hour down to 0.35 ends after 3.25 h, between weighings at every half hour."""
    for last, kind in ((3.5, Told.CONSTANT_SO_FAR), (5.5, Told.TWO_PERIODS)):
        hours = np.arange(0, last + 0.1, 0.5)
        assert periods(hours, two_periods(hours, np.array(0.2), np.array(0.35))).kind is kind, last


def test_the_best_pair_is_the_least_sum_of_squares_there_is():
    """Beside SciPy's: bumps move rate and kink a little. The constant rate ends where it meets the kink."""
    y = two_periods(HOURS, np.array(0.15), np.array(0.4)) + 0.005 * np.sin(5.0 * HOURS)
    told = periods(HOURS, y)
    values = {term.name: (term.value, term.unit) for term in told.terms}
    best = optimize.minimize(
        lambda p: float(np.sum((two_periods(HOURS, np.array(p[0]), np.array(p[1])) - y) ** 2)), [0.1515, 0.404],
        method="Nelder-Mead", options={"xatol": 1e-6, "fatol": 1e-12},
    )  # fmt: skip
    (rate, each), (critical, share), (until, unit) = (values[name] for name in ("rate", "critical", "until"))
    assert (rate, critical) == (pytest.approx(100 * best.x[0], rel=0.01), pytest.approx(100 * best.x[1], abs=1.0))
    assert until == pytest.approx((1 - critical / 100) / (rate / 100))
    assert (told.kind, each, share, unit) == (Told.TWO_PERIODS, "%", "%", "h")


def akaike(sse: float, n: int, p: int) -> float:
    """Hurvich and Tsai's criterion, the noise counted as a parameter."""
    q = p + 1
    return n * np.log(sse / n) + 2 * q + 2 * q * (q + 1) / (n - q - 1)


def test_two_periods_are_told_where_they_are_preferred_to_first_order_by_six():
    """Constant down to 70 %, with bumps that grow: both laws fitted by SciPy, compared by Akaike's criterion."""
    said = []
    for bumps in np.linspace(0.02, 0.04, 9):
        y = two_periods(HOURS, np.array(0.2), np.array(0.7)) + bumps * np.sin(9.0 * HOURS)
        lewis = optimize.minimize_scalar(lambda k, y=y: np.sum((y - np.exp(-k * HOURS)) ** 2), bounds=(0.05, 1.0),
                                         method="bounded").fun  # fmt: skip
        two = optimize.minimize(
            lambda p, y=y: float(np.sum((two_periods(HOURS, np.array(p[0]), np.array(p[1])) - y) ** 2)), [0.2, 0.7],
            method="Nelder-Mead",
        ).fun  # fmt: skip
        better = akaike(lewis, 25, 1) - akaike(two, 25, 2)
        if abs(better - 6.0) > 0.3:
            said.append((bool(better > 6.0), periods(HOURS, y).kind is Told.TWO_PERIODS, bumps))
    assert {preferred for preferred, _, _ in said} == {True, False}
    assert all(preferred is told for preferred, told, _ in said), said
