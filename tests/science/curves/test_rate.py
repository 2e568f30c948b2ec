"""Drying rate and the periods of drying."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from dryhouse.science.curves import periods, rates
from dryhouse.science.curves.rate import two_periods
from dryhouse.words.messages import message_words

HOURS = np.linspace(0, 12, 25)


def test_rate_between_weighings_at_their_middle():
    found = rates([0, 1, 3], [500, 440, 400], 80)
    assert list(found.hours) == [0.5, 2.0]
    assert list(found.grams_per_hour) == [60.0, 20.0]
    assert found.moisture_db == pytest.approx([470 / 80 - 1, 420 / 80 - 1])


@given(rate=st.floats(0.12, 0.3), critical=st.floats(0.3, 0.7))
def test_two_periods_are_found_again(rate, critical):
    found, told = periods(HOURS, two_periods(HOURS, np.array(rate), np.array(critical)))
    assert found is not None
    assert found.mr_per_hour == pytest.approx(rate, rel=0.02)
    assert found.critical_mr == pytest.approx(critical, abs=0.02)
    assert "Constant rate" in message_words(told)


def test_first_order_from_the_start_has_no_constant_rate_period():
    found, told = periods(HOURS, np.exp(-0.3 * HOURS))
    assert found is None
    assert "falls from the beginning" in message_words(told)


def test_a_run_still_at_constant_rate():
    found, told = periods(HOURS[:9], 1 - 0.12 * HOURS[:9])
    assert found is not None
    assert "has not begun to fall" in message_words(told)


@pytest.mark.parametrize(("hours", "mr"), [([0, 1, 2], [1, 0.8, 0.6]), (HOURS, 1 - 0.002 * HOURS)])
def test_too_little_to_tell(hours, mr):
    assert periods(hours, mr)[0] is None


def test_a_fall_within_no_time_at_all_is_no_constant_rate():
    found, told = periods([0.0, 1e-310, 1.0, 2.0, 3.0, 4.0], [1.0, 0.1, 0.08, 0.05, 0.03, 0.02])
    assert found is None
    assert message_words(told) == "The rate falls from the beginning: no constant-rate period shows."
