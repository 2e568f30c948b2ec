"""The hours are told as her machine tells them; the days stay English."""

from collections.abc import Iterator
from datetime import datetime

import pytest

from dryhouse.words.dates import clock, full_moment, tell_twelve_hours


@pytest.fixture
def twelve() -> Iterator[None]:
    tell_twelve_hours(True)
    yield
    tell_twelve_hours(False)


@pytest.mark.usefixtures("twelve")
@pytest.mark.parametrize(
    ("hour", "said"), [(0, "12:05 am"), (9, "9:05 am"), (12, "12:05 pm"), (18, "6:05 pm"), (23, "11:05 pm")]
)
def test_from_one_to_twelve(hour, said):
    assert clock(datetime(2027, 8, 6, hour, 5)) == said  # noqa: DTZ001


@pytest.mark.usefixtures("twelve")
def test_a_moment_has_the_same_clock():
    assert full_moment(datetime(2027, 8, 6, 18, 5)) == "Fri 6 Aug 2027, 6:05 pm"  # noqa: DTZ001


def test_from_nought_to_twenty_three_where_nobody_said_otherwise():
    assert clock(datetime(2027, 8, 6, 18, 5)) == "18:05"  # noqa: DTZ001
