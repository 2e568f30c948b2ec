"""Drying rate and the periods of drying."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

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
