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


@every_row(("year", "held"), [(1899, False), (1900, True), (2199, True), (2200, False)])
def test_a_day_of_no_lifetime_is_a_slip(year, held):
    if held:
        assert read_date(a_kitchen(), f"{year}-08-20").year == year
        return
    with pytest.raises(InputProblem, match=f"“{year}-08-20” is not a day"):
        read_date(a_kitchen(), f" {year}-08-20 ")


def test_without_a_zone_of_its_own_a_kitchen_goes_by_the_clock_of_the_computer():
    here = Kitchen(FakeJournal(), None, lambda: datetime(2026, 11, 25, 3, tzinfo=UTC))
    assert start_of(here, date(2026, 6, 1)) == datetime(2026, 6, 1).astimezone(UTC)
    assert start_of(a_kitchen(), date(2026, 6, 1)) == datetime(2026, 6, 1, 4, tzinfo=UTC)
