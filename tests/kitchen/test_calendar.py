"""Days of the person's own calendar."""

from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest

from dryhouse.kitchen.calendar import day_of, end_of_day, read_date, start_of, today
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.science.errors import InputProblem
from tests.fakes import FakeJournal
from tests.rows import every_row

NEW_YORK = ZoneInfo("America/New_York")


def a_kitchen(now=datetime(2026, 11, 25, 3, tzinfo=UTC)):
    return Kitchen(FakeJournal(), None, lambda: now, NEW_YORK)


def test_late_in_the_evening_it_is_still_the_same_day():
    assert today(a_kitchen()) == date(2026, 11, 24)
    assert day_of(a_kitchen(), datetime(2026, 11, 25, 4, 59, tzinfo=UTC)) == date(2026, 11, 24)
    assert day_of(a_kitchen(), datetime(2026, 11, 25, 5, 0, tzinfo=UTC)) == date(2026, 11, 25)


@every_row(("day", "hours"), [(date(2026, 3, 8), 23), (date(2026, 11, 1), 25), (date(2026, 6, 1), 24)])
def test_a_day_has_as_many_hours_as_the_clock_gives_it(day, hours):
    kitchen = a_kitchen()
    assert start_of(kitchen, day + timedelta(days=1)) - start_of(kitchen, day) == timedelta(hours=hours)
    assert day_of(kitchen, end_of_day(kitchen, day)) == day
    assert end_of_day(kitchen, day) - start_of(kitchen, day) == timedelta(hours=hours) - timedelta(seconds=1)


def test_a_day_is_read_as_typed_or_the_sentence_says_how():
    assert read_date(a_kitchen(), "yesterday") == date(2026, 11, 23)
    assert read_date(a_kitchen(), " 2026-08-20 ") == date(2026, 8, 20)
    with pytest.raises(InputProblem, match="write it like") as problem:
        read_date(a_kitchen(), "someday", "on")
    assert problem.value.field == "on"
