"""How long food stood warm: through every place, and unknown where nobody wrote a temperature down."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

from dryhouse.kitchen.cautions.stood import UNKNOWN, stood_in_kitchen, stood_on_shelf
from dryhouse.kitchen.records import LotMove, PlaceTemperature
from dryhouse.science.quantities import Temperature
from dryhouse.science.safety.rules import ROUNDING_C
from dryhouse.science.safety.warmth import HOT_C, WARM_C
from tests.rows import every_row

OFF = datetime(2026, 11, 25, 8, 0, tzinfo=UTC)
PANTRY, FREEZER, ATTIC = 1, 2, 3
READINGS = {
    PANTRY: [PlaceTemperature(PANTRY, OFF - timedelta(days=9), Temperature(21.0), id=1)],
    FREEZER: [PlaceTemperature(FREEZER, OFF - timedelta(days=9), Temperature(-18.0), id=2)],
    ATTIC: [
        PlaceTemperature(ATTIC, OFF + timedelta(hours=1), Temperature(35.0), id=3),
        PlaceTemperature(ATTIC, OFF + timedelta(hours=3), Temperature(20.0), id=4),
    ],
}


def after(hours):
    return OFF + timedelta(hours=hours)


def put(place, hours, id=1):
    return LotMove(1, place, after(hours), id)


@every_row(
    ("moves", "asked", "stood"),
    [
        ([put(PANTRY, 0.5)], 1.5, (90.0, 0.0)),
        ([put(FREEZER, 0.5)], 72, (30.0, 0.0)),
        ([put(FREEZER, 0.5), put(PANTRY, 10, 2), put(FREEZER, 11, 3)], 72, (90.0, 0.0)),
        ([put(PANTRY, 0.5)], 72, (1440.0, 0.0)),
        ([put(ATTIC, 1)], 4, (240.0, 120.0)),
        ([put(ATTIC, 0.5)], 4, UNKNOWN),
        ([put(9, 0.5)], 4, UNKNOWN),
        ([put(9, 1), put(PANTRY, 1, 2)], 1.5, (90.0, 0.0)),  # moved on at once
        ([put(ATTIC, 0.5), put(PANTRY, 1, 2)], 1.5, UNKNOWN),
        ([], 4, UNKNOWN),
    ],
)
def test_minutes_add_up_over_the_places_and_are_unknown_where_a_temperature_is(moves, asked, stood):
    assert stood_on_shelf(OFF, moves, READINGS, after(asked)) == stood


def test_nobody_knows_how_long_it_stood_where_the_end_of_its_drying_is_not_recorded():
    assert stood_on_shelf(None, [put(FREEZER, 0)], READINGS, after(1)) == UNKNOWN
    assert stood_in_kitchen(None, after(1), None) == UNKNOWN


def test_the_kitchen_counts_as_warm_and_as_hot_only_where_that_is_recorded():
    assert stood_in_kitchen(OFF, after(1.5), None) == (90.0, 0.0)
    assert stood_in_kitchen(OFF, after(1.5), 21.0) == (90.0, 0.0)
    assert stood_in_kitchen(OFF, after(1.5), 34.0) == (90.0, 90.0)


@every_row(
    ("celsius", "warm", "hot"),
    [
        (WARM_C, False, False),
        (WARM_C + ROUNDING_C, False, False),
        (WARM_C + 2 * ROUNDING_C, True, False),
        (HOT_C, True, False),
        (HOT_C + ROUNDING_C, True, False),
        (HOT_C + 2 * ROUNDING_C, True, True),
    ],
)
def test_40_and_90_fahrenheit_as_they_are_read_off_are_no_warmer_than_that(celsius, warm, hot):
    place = {PANTRY: [PlaceTemperature(PANTRY, OFF - timedelta(days=9), Temperature(celsius), id=1)]}
    stood = stood_on_shelf(OFF, [put(PANTRY, 0)], place, after(1))
    assert stood == (60.0 if warm else 0.0, 60.0 if hot else 0.0)
    assert stood_in_kitchen(OFF, after(1), celsius) == (60.0, 60.0 if hot else 0.0)


def test_a_hot_kitchen_before_the_first_place_counts_and_longer_than_a_day_is_not_told_apart():
    assert stood_on_shelf(OFF, [put(PANTRY, 0.5)], READINGS, after(1.5), 34.0) == (90.0, 30.0)
    assert stood_on_shelf(OFF, [put(PANTRY, 40)], READINGS, after(72), 34.0) == (1440.0, 1440.0)
    assert stood_in_kitchen(OFF, OFF - timedelta(hours=1), 34.0) == (0.0, 0.0)
    assert stood_on_shelf(OFF, [put(PANTRY, -1)], READINGS, after(1)) == (60.0, 0.0), "put there while it dried"
