"""The hours she keeps, as typed, as kept, and as the dryers see them."""

from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo

import pytest

from dryhouse.handbook.reader import handbook
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.settings import set_preference
from dryhouse.kitchen.trips.household import (
    KEY,
    DryingHours,
    changed,
    days_words,
    drying_hours,
    hours_words,
    read_month,
    set_drying_hours,
    span_words,
    tended,
)
from dryhouse.science.errors import InputProblem
from tests.fakes import FakeJournal
from tests.rows import every_row

NOW = datetime(2026, 11, 1, 12, tzinfo=UTC)
MONDAY = date(2026, 11, 2)


def a_kitchen(zone=UTC):
    return Kitchen(FakeJournal(), handbook(), lambda: NOW, zone)


def test_until_she_says_otherwise_an_assumption_stands_and_is_named():
    hours = drying_hours(a_kitchen())
    assert hours.assumed
    assert hours_words(hours) == (
        "up 7:00 to 22:00, away 8:00 to 17:30 on workdays, dries every day, loads may run through the night"
    )


def test_what_she_says_is_kept():
    kitchen = a_kitchen()
    hours = changed(drying_hours(kitchen), awake="6:30-21", away="none", days="Sat Sun", nights="no")
    set_drying_hours(kitchen, hours)
    kept = drying_hours(kitchen)
    assert kept == hours == DryingHours((time(6, 30), time(21)), None, (5, 6), False, assumed=False)
    assert hours_words(kept) == "up 6:30 to 21:00, dries on weekends, no dryer runs at night"


@every_row(
    ("typed", "days", "said"),
    [
        ("Sat Sun", (5, 6), "weekends"),
        ("weekends", (5, 6), "weekends"),
        ("Mon-Fri", (0, 1, 2, 3, 4), "workdays"),
        ("every day", (0, 1, 2, 3, 4, 5, 6), "every day"),
        ("fri-sun", (4, 5, 6), "Fri, Sat, Sun"),
        ("tuesday, thursday", (1, 3), "Tue, Thu"),
        ("Sat-Mon", (0, 5, 6), "Mon, Sat, Sun"),
    ],
)
def test_days_are_read_as_people_write_them(typed, days, said):
    assert changed(DryingHours(), days=typed).days == days
    assert days_words(days) == said


@every_row(
    ("typed", "begin", "end"),
    [
        ("7:00-22:00", time(7), time(22)),
        ("7 am to 10 pm", time(7), time(22)),
        ("6.30 – 21", time(6, 30), time(21)),
    ],
)
def test_hours_are_read_as_people_write_them(typed, begin, end):
    assert changed(DryingHours(), awake=typed, away="none").awake == (begin, end)


@every_row(
    ("given", "field"),
    [
        ({"awake": "late"}, "awake"),
        ({"awake": "22-7"}, "awake"),
        ({"awake": "7-25"}, "awake"),
        ({"away": "6-18"}, "away"),
        ({"days": "someday"}, "days"),
        ({"days": "s"}, "days"),
        ({"days": ""}, "days"),
        ({"nights": "maybe"}, "nights"),
    ],
)
def test_what_cannot_be_is_refused_at_its_field(given, field):
    with pytest.raises(InputProblem) as told:
        changed(DryingHours(), **given)
    assert told.value.field == field


def test_loads_are_started_after_work_and_taken_off_before_it():
    hours = tended(a_kitchen(), DryingHours(), MONDAY, MONDAY)
    told = [(s.begin.hour + s.begin.minute / 60, s.end.hour + s.end.minute / 60, s.starts) for s in hours.stretches]
    assert told == [(7, 7.5, False), (17.5, 21.5, True)]
    assert hours.still == ()
    (saturday,) = tended(
        a_kitchen(), DryingHours(), MONDAY + timedelta(days=5), MONDAY + timedelta(days=5)
    ).stretches
    assert (saturday.begin.hour, saturday.end.hour, saturday.starts) == (7, 21, True)


def test_days_she_does_not_dry_are_days_to_take_off_only():
    hours = tended(a_kitchen(), DryingHours(away=None, days=(5, 6)), MONDAY, MONDAY)
    assert [s.starts for s in hours.stretches] == [False]


def test_hours_are_those_of_her_clock_across_a_change_of_it():
    """In New York summer time ends on 1 November 2026: 7:00 is 11:00 UTC on Saturday and 12:00 UTC on Sunday."""
    saturday = date(2026, 10, 31)
    hours = tended(
        a_kitchen(ZoneInfo("America/New_York")), DryingHours(nights=False), saturday, saturday + timedelta(1)
    )
    assert [s.begin.hour for s in hours.stretches] == [11, 12]
    (first, _) = hours.still
    assert first[1] - first[0] == timedelta(hours=10)


def test_a_span_is_written_as_it_is_typed():
    assert span_words((time(7), time(21, 30))) == "7:00-21:30"
    assert span_words(None) == ""


@every_row(
    ("typed", "first"),
    [("2027-05", date(2027, 5, 1)), ("2027-01", date(2027, 1, 1)), ("2027-1", date(2027, 1, 1)),
     ("2027-12", date(2027, 12, 1)), ("May 2027", date(2027, 5, 1)),
     ("may", date(2027, 5, 1)), ("November", date(2026, 11, 1)), ("dec", date(2026, 12, 1)),
     ("2027-05-09", date(2027, 5, 9))],
)  # fmt: skip
def test_a_month_is_read_as_it_is_said_and_one_without_a_year_is_the_next(typed, first):
    assert read_month(a_kitchen(), typed) == first


@every_row("typed", ["2027-13", "2027-00", "ma", "j 2027", "May twice", "soon"])
def test_what_is_no_month_is_told_how_one_is_written(typed):
    with pytest.raises(InputProblem, match="is no month; write it like 2027-05 or May 2027"):
        read_month(a_kitchen(), typed)


@every_row("kept", ["7:00 to 22:00", "a; b; c; d", "7:00-22:00; none; every day"])
def test_hours_that_another_program_wrote_are_assumed_and_not_guessed_at(kept):
    kitchen = a_kitchen()
    set_preference(kitchen, KEY, kept)
    assert drying_hours(kitchen) == DryingHours()
    assert drying_hours(kitchen).assumed


@every_row(
    ("typed", "begin", "end"),
    [
        ("12 am to 12 pm", time(0), time(12)),
        ("1am-11:30pm", time(1), time(23, 30)),
        ("0-23:59", time(0), time(23, 59)),
        ("7.05 – 7.06", time(7, 5), time(7, 6)),
    ],
)
def test_noon_and_midnight_are_read_as_they_are_meant(typed, begin, end):
    assert changed(DryingHours(), awake=typed, away="none").awake == (begin, end)


@every_row("typed", ["0 am to 5 pm", "13 pm to 2 pm", "7-7", "7:60-8", "7 to", "24-25"])
def test_hours_no_clock_shows_are_refused_with_an_example(typed):
    with pytest.raises(InputProblem, match="such as 8:00-17:30"):
        changed(DryingHours(), away=typed)
    with pytest.raises(InputProblem, match="such as 7:00-22:00"):
        changed(DryingHours(), awake=typed)


@every_row(
    ("awake", "away", "lies"),
    [("7-22", "7-22", True), ("7-22", "7-21", True), ("7-22", "8-22", True), ("7-22", "6:59-9", False),
     ("7-22", "8-22:01", False)],
)  # fmt: skip
def test_the_hours_away_lie_within_those_she_is_up(awake, away, lies):
    if lies:
        assert not changed(DryingHours(), awake=awake, away=away).assumed
        return
    with pytest.raises(InputProblem, match="lie within") as told:
        changed(DryingHours(), awake=awake, away=away)
    assert told.value.field == "away"


def test_what_is_not_given_stays_and_nothing_given_is_still_an_assumption():
    assert changed(DryingHours()) == DryingHours()
    kept = changed(DryingHours(), nights=" No ")
    assert kept == DryingHours(nights=False, assumed=False)
    assert changed(kept, days="Mon") == DryingHours(nights=False, days=(0,), assumed=False)
    for never in ("", "None", " no ", "never"):
        assert changed(kept, away=never).away is None


def test_a_month_that_is_named_without_a_year_is_this_one_or_the_next_to_come():
    for month, year in (("October", 2027), ("November", 2026), ("December", 2026)):
        assert read_month(a_kitchen(), month).year == year


def test_a_night_the_dryer_is_off_lasts_until_she_is_up_the_next_day():
    hours = tended(a_kitchen(), DryingHours(nights=False), MONDAY, MONDAY + timedelta(days=1))
    assert [(off.day, off.hour, on.day, on.hour) for off, on in hours.still] == [(2, 22, 3, 7), (3, 22, 4, 7)]
    assert [s.begin.day for s in hours.stretches] == [2, 2, 3, 3]
