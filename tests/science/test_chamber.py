"""The air in the dryer, and why a day is slow."""

from __future__ import annotations

import math

import pytest

from dryhouse.science.chamber import Chamber, slow_reason, warmed
from dryhouse.science.errors import InputProblem
from dryhouse.science.messages import MessageKind, message
from dryhouse.science.values import Figure
from dryhouse.words.messages import message_words, problem_sentence
from tests.rows import every_row
from tests.workings import read


def settles(value, low, high):
    return Figure(value, "g/g", low=low, high=high)


def test_an_ordinary_day_needs_no_excuse():
    assert slow_reason(warmed(22, 45, 57), None, 0.11) is None
    assert slow_reason(warmed(22, 45, 57), settles(0.03, 0.02, 0.04), 0.11) is None


def test_a_damp_day_is_said():
    assert "damp day" in message_words(slow_reason(warmed(30, 90, 50), None, 0.11))


def test_food_that_settles_above_the_target_may_never_get_there():
    said = message_words(slow_reason(warmed(28, 90, 35), settles(0.15, 0.12, 0.18), 0.11))
    assert "may never get dry" in said
    assert "13 % moisture" in said


def test_food_that_settles_just_below_the_target_is_slow_at_the_end():
    assert "last of it will be slow" in message_words(
        slow_reason(warmed(22, 45, 57), settles(0.07, 0.06, 0.09), 0.11)
    )


@every_row(
    ("kitchen", "humidity", "dryer", "word"),
    [(22, 130, 57, "between 0 and 100"), (80, 50, 90, "kitchen"), (22, 50, 15, "warmer"), (22, 50, 200, "at most")],
)
def test_air_that_cannot_be(kitchen, humidity, dryer, word):
    with pytest.raises(InputProblem) as problem:
        warmed(kitchen, humidity, dryer)
    assert word in problem_sentence(problem.value)


def test_warming_never_moistens():
    air = warmed(20, 60, 55)
    assert air.relative_humidity_pct < 60
    assert "holds 8.73 parts of water in 1000 of dry air; warmed to 55 °C" in read(air.workings)


def test_the_edges_of_what_air_can_be_are_air():
    for kitchen, humidity, dryer in (
        (-20, 50, 57),
        (60, 50, 90),
        (22, 0, 57),
        (22, 100, 57),
        (22, 45, 22),
        (22, 45, 150),
    ):
        assert warmed(kitchen, humidity, dryer).relative_humidity_pct <= humidity + 1e-3
    for kitchen, humidity, dryer in (
        (-20.5, 50, 57),
        (60.5, 50, 90),
        (22, -0.5, 57),
        (22, 100.5, 57),
        (22, 45, 150.5),
    ):
        with pytest.raises(InputProblem):
            warmed(kitchen, humidity, dryer)


@every_row(
    ("air", "level", "said"),
    [
        (19.9, None, None),
        (20.0, None, "DAMP_DAY"),
        (19.9, settles(0.05, 0.04, 0.0769), None),
        (20.0, settles(0.05, 0.04, 0.0769), "DAMP_DAY"),
        (19.9, settles(0.05, 0.04, 0.0771), "SLOW_AT_THE_END"),
        (19.9, settles(0.0771, None, None), "SLOW_AT_THE_END"),
        (19.9, settles(0.1099, 0.09, 0.13), "SLOW_AT_THE_END"),
        (19.9, settles(0.11, 0.09, 0.13), "NEVER_DRY_HERE"),
    ],
)
def test_a_slow_day_has_its_weightiest_reason(air, level, said):
    """The target is 0.11 g of water for 1 g of dry matter; within three tenths of it the end is slow."""
    reason = slow_reason(Chamber(air, 0.01, 10.0, 25.0, ()), level, 0.11)
    assert (reason.kind.name if reason else None) == said


def test_a_reason_says_the_air_and_where_the_food_settles():
    """One part of water for four of dry matter is a fifth of the whole."""
    air = Chamber(12.5, 0.01, 10.0, 25.0, ())
    assert slow_reason(air, settles(0.25, 0.2, 0.3), 0.2) == message(
        MessageKind.NEVER_DRY_HERE, air=(12.5, "%"), settles=(pytest.approx(20.0), "%")
    )
    assert slow_reason(air, settles(0.25, 0.2, 0.35), 0.5) == message(MessageKind.SLOW_AT_THE_END, air=(12.5, "%"))
    damp = Chamber(35.5, 0.01, 10.0, 25.0, ())
    assert slow_reason(damp, None, 0.2) == message(MessageKind.DAMP_DAY, air=(35.5, "%"))


def test_kitchen_air_of_22_degrees_warmed_to_57_by_the_steam_tables():
    """Saturated steam: 2.645 kPa at 22 °C, 17.33 kPa at 57 °C. 45 % of the first are 1.190 kPa, which is
    0.622 × 1.190 / (101.325 − 1.190) = 0.00739 of water and 6.87 % at 57 °C; saturated at 9.5 °C."""
    air = warmed(22.0, 45.0, 57.0)
    assert air.humidity_ratio == pytest.approx(0.00739, rel=3e-3)
    assert air.relative_humidity_pct == pytest.approx(6.87, rel=3e-3)
    assert air.dew_point_c == pytest.approx(9.5, abs=0.1)
    # at the wet bulb the air gives the heat that its new water takes: (2501 − 2.326 t) kJ/kg, and 1.006 a kelvin
    at = air.wet_bulb_c
    full = 0.62198 * (pressure := 0.61094 * math.exp(17.625 * at / (at + 243.04))) / (101.325 - pressure)
    heat = (2501.0 - 2.326 * at) * full - 1.006 * (57.0 - at)
    assert heat / (2501.0 + 1.86 * 57.0 - 4.186 * at) == pytest.approx(air.humidity_ratio, abs=2e-4)
