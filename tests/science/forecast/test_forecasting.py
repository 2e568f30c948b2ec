"""What a forecast reads from the weighings themselves: the scale's step, and when the target was passed."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from dryhouse.science.dry_matter import exactly
from dryhouse.science.forecast import Beforehand, forecast
from dryhouse.science.forecast.answer import Bands, Finish
from dryhouse.science.forecast.finish import weighted_quantiles
from dryhouse.science.forecast.forecasting import guessed_resolution
from tests.rows import every_row


@every_row(
    ("grams", "step"),
    [
        ([500.0, 420.0, 350.0], 10.0),
        ([505.0, 420.0, 350.0], 5.0),
        ([502.0, 420.0, 350.0], 2.0),
        ([501.0, 420.0, 350.0], 1.0),
        ([500.5, 420.0, 350.0], 0.5),
        ([500.2, 420.0, 350.0], 0.2),
        ([500.1, 420.0, 350.0], 0.1),
        ([500.05, 420.0, 350.0], 0.05),
        ([500.02, 420.0, 350.0], 0.02),
        ([500.01, 420.0, 350.0], 0.01),
        ([500.005, 420.0, 350.0], 0.005),
        ([500.002, 420.0, 350.0], 0.002),
        ([500.001, 420.0, 350.0], 0.001),
        ([0.004, 0.002], 0.001),  # and no less than a milligram
        ([0.4234567, 0.2], 0.0001),  # or a tenth of one
        ([500.12345, 420.0, 350.0], 0.050012345),  # no step shows: a ten-thousandth
        ([500.0], 0.05),
        ([100.0, 90.0], 2.0),  # a step is no more than a fiftieth of the load
    ],
)
def test_the_scale_s_step_is_the_largest_that_divides_every_weighing(grams, step):
    assert guessed_resolution(np.array(grams)) == pytest.approx(step)


def done(hours, grams):
    return forecast(hours, grams, Beforehand(exactly(85.0 / 500.0), 15.0))


def test_the_target_is_passed_on_the_straight_line_between_two_weighings():
    """85 g of dry matter are 100 g at 15 %: of 120 to 80 g in two hours half is gone after one."""
    found = done([0.0, 2.0, 4.0, 6.0], [500.0, 250.0, 120.0, 80.0])
    assert found.reached_at == pytest.approx(5.0)
    assert found.finish == Finish(4.0, pytest.approx(4.5), pytest.approx(5.0), pytest.approx(5.5), 6.0)
    assert found.target_g == pytest.approx(100.0)
    assert found.weigh_again_at is None
    assert done([0.0, 2.0, 4.0], [500.0, 250.0, 100.0]).reached_at == pytest.approx(4.0)
    assert done([0.0, 2.0, 4.0, 6.0], [500.0, 90.0, 120.0, 80.0]).reached_at == pytest.approx(5.0)
    assert done([0.0, 2.0, 4.0], [500.0, 250.0, 101.0]).reached_at is None


def test_a_bound_that_is_never_reached_is_null_in_the_answer():
    found = Finish(1.0, 2.0, 3.0, 4.0, float("inf")).as_json()
    assert found == {"low80": 1.0, "low50": 2.0, "median": 3.0, "high50": 4.0, "high80": None}


def test_bands_between_their_hours_lie_on_straight_lines():
    row = np.array([10.0, 20.0])
    bands = Bands(np.array([0.0, 2.0]), row, row + 1, row + 2, row + 3, row + 4)
    found = bands.at(1.0)
    rows = (found.low80, found.low50, found.median, found.high50, found.high80)
    assert [float(at[0]) for at in (found.hours, *rows)] == [1.0, 15.0, 16.0, 17.0, 18.0, 19.0]


def test_quantiles_of_four_alike_by_hand():
    """The middles of four quarters are 1/8, 3/8, 5/8 and 7/8."""
    values, weight = np.array([4.0, 1.0, 3.0, 2.0]), np.full(4, 0.25)
    at = np.array([0.0, 0.125, 0.25, 0.5, 0.875, 1.0])
    assert weighted_quantiles(values, weight, at) == pytest.approx([1.0, 1.0, 1.5, 2.5, 4.0, 4.0])
    uneven = weighted_quantiles(np.array([1.0, 2.0]), np.array([3.0, 1.0]), np.array([0.375, 0.625, 0.875]))
    assert uneven == pytest.approx([1.0, 1.5, 2.0])


def test_the_figure_of_a_forecast_has_its_ends_as_far_as_they_are_known():
    run, end = done([0.0, 2.0], [500.0, 300.0]), float("inf")
    ends = {"closed": (3.0, 4.0, 5.0), "open": (3.0, 4.0, end), "none": (end, end, end)}
    told = {name: replace(run, finish=Finish(1.0, 2.0, *late)).figure() for name, late in ends.items()}
    assert [(f.value, f.low, f.high, f.unit) for f in (told["closed"], told["open"])] == [
        (3.0, 1.0, 5.0, "h"), (3.0, 1.0, None, "h"),
    ]  # fmt: skip
    assert told["none"] is None
    assert (told["open"].basis, told["open"].workings) == (run.basis, run.workings)


def test_one_weighing_is_looked_ahead_of_from_its_own_hour():
    first = done([0.0], [500.0])
    assert first.weighings == 1
    assert first.mass.hours[0] == 0.0
    assert 0 < first.finish.low80 < first.finish.high80
    assert (first.stops, first.reached_at, first.expected) == ((), None, False)
