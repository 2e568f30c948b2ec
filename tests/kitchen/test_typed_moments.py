"""Moments as people type them."""

import time
from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest

from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.typed_moments import moment_text, read_day, read_moment
from dryhouse.science.errors import InputProblem
from tests.builders import a_kitchen
from tests.rows import every_row
from tests.told import told


@every_row(
    ("text", "moment"),
    [
        ("2026-11-20 18:00", (2026, 11, 20, 18, 0)),
        ("2026-11-20T18:00", (2026, 11, 20, 18, 0)),
        ("2026-11-20T18:00:00+02:00", (2026, 11, 20, 16, 0)),
        ("yesterday 18:00", (2026, 11, 24, 18, 0)),
        ("today 8.15", (2026, 11, 25, 8, 15)),
        ("8:30", (2026, 11, 25, 8, 30)),
        ("18:00", (2026, 11, 24, 18, 0)),
        ("7 am", (2026, 11, 25, 7, 0)),
        ("20 Nov 7:30", (2026, 11, 20, 7, 30)),
        ("Nov 20 at 7:30 pm", (2026, 11, 20, 19, 30)),
        ("24 Dec 2025 12:00", (2025, 12, 24, 12, 0)),
        ("24 Dec 12:00", (2025, 12, 24, 12, 0)),
        ("friday 6pm", (2026, 11, 20, 18, 0)),
        ("this morning 8:00", (2026, 11, 25, 8, 0)),
        ("this afternoon 15:00", (2026, 11, 25, 15, 0)),
        ("this evening 19:00", (2026, 11, 25, 19, 0)),
        ("tonight 22:00", (2026, 11, 25, 22, 0)),
        ("yesterday morning 7:00", (2026, 11, 24, 7, 0)),
        ("yesterday evening 19:00", (2026, 11, 24, 19, 0)),
        ("last night 22:00", (2026, 11, 24, 22, 0)),
        ("now", (2026, 11, 25, 9, 0)),
    ],
)
def test_a_moment_is_understood(text, moment):
    assert read_moment(a_kitchen(), text) == datetime(*moment, tzinfo=UTC)


@every_row(
    "text",
    [
        "",
        "2026-11-20",
        "25:00",
        "2026-13-01 10:00",
        "soonish",
        "yesterday",
        "8",
        "13 pm",
        "0001-01-01 00:00",
        "1066-10-14 9:00",
        "0001-01-01 00:00+14:00",
        "999999999 days ago",
    ],
)
def test_what_is_no_moment_gets_a_sentence_with_an_example(text):
    with told(InputProblem, "write it like"):
        read_moment(a_kitchen(), text)


def test_a_batch_across_the_autumn_clock_change_counts_the_hour_that_comes_twice():
    base = a_kitchen()
    there = Kitchen(base.journal, base.handbook, base.now, ZoneInfo("Europe/Stockholm"))
    start, end = read_moment(there, "2026-10-24 22:00"), read_moment(there, "2026-10-25 06:00")
    assert (end - start).total_seconds() == 9 * 3600


# --- when the clocks are set -------------------------------------------------------------------------------------

NEW_YORK = ZoneInfo("America/New_York")


def at_the_bench(*now: int) -> Kitchen:
    """A kitchen in New York, at this moment in UTC."""
    base = a_kitchen()
    return Kitchen(base.journal, base.handbook, lambda: datetime(*now, tzinfo=UTC), NEW_YORK)


@pytest.mark.parametrize("zone", [NEW_YORK, None])
def test_an_hour_that_never_was_is_said_with_the_ones_that_were(zone, monkeypatch):
    monkeypatch.setenv("TZ", "America/New_York")
    time.tzset()
    try:
        wall = Kitchen(a_kitchen().journal, a_kitchen().handbook, zone=zone)
        with told(InputProblem, "no 02:30 on 8 Mar 2026: the clocks were set forward. Write 01:30 or 03:30"):
            read_moment(wall, "2026-03-08 02:30")
        assert read_moment(wall, "2026-03-08 01:59") == datetime(2026, 3, 8, 6, 59, tzinfo=UTC)
        assert read_moment(wall, "2026-03-08 03:00") == datetime(2026, 3, 8, 7, 0, tzinfo=UTC)
    finally:
        monkeypatch.undo()
        time.tzset()


def test_an_hour_that_came_twice_is_asked_about_and_either_can_be_meant():
    wall = at_the_bench(2026, 11, 20, 12)
    with told(InputProblem, "came twice.*Write “2026-11-01 01:30 first” or “2026-11-01 01:30 second”"):
        read_moment(wall, "2026-11-01 01:30")
    assert read_moment(wall, "2026-11-01 01:30 first") == datetime(2026, 11, 1, 5, 30, tzinfo=UTC)
    assert read_moment(wall, "Nov 1 1:30 am (second)") == datetime(2026, 11, 1, 6, 30, tzinfo=UTC)
    assert read_moment(wall, "2026-11-01 03:30 second") == datetime(2026, 11, 1, 8, 30, tzinfo=UTC)


def test_a_time_alone_is_the_last_time_the_clock_showed_it():
    """1:40 EST: 1:30 was ten minutes ago, not an hour and ten; at 1:40 EDT it was ten minutes ago too."""
    assert read_moment(at_the_bench(2026, 11, 1, 6, 40), "1:30") == datetime(2026, 11, 1, 6, 30, tzinfo=UTC)
    assert read_moment(at_the_bench(2026, 11, 1, 5, 40), "1:30") == datetime(2026, 11, 1, 5, 30, tzinfo=UTC)
    assert read_moment(at_the_bench(2026, 11, 1, 5, 40), "today 1:30") == datetime(2026, 11, 1, 5, 30, tzinfo=UTC)


def test_a_log_across_the_hour_that_comes_twice_stays_in_that_night():
    wall = at_the_bench(2026, 11, 20, 12)
    last = read_moment(wall, "2026-11-01 01:50 first")
    lines = (("1:10", 20), ("1:50", 0), ("2:10", 80), ("2026-11-01 1:10", 20), ("0:30", 23 * 60 + 40))
    for typed, minutes in lines:
        assert read_moment(wall, typed, after=last) == last + timedelta(minutes=minutes), typed


def test_a_moment_is_written_so_that_it_reads_as_the_same():
    wall = at_the_bench(2026, 11, 20, 12)
    start = datetime(2026, 11, 1, 4, 0, tzinfo=UTC)
    for minutes in range(0, 300, 7):
        moment = start + timedelta(minutes=minutes)
        assert read_moment(wall, moment_text(wall, moment)) == moment
    assert moment_text(wall, start) == "2026-11-01 00:00"
    assert moment_text(wall, start + timedelta(hours=2, seconds=5)) == "2026-11-01 01:00 second"


@every_row(
    ("text", "day"),
    [
        ("25 Nov", date(2026, 11, 25)),
        ("26 Nov", date(2026, 11, 26)),  # west of her it is today there
        ("27 Nov", date(2025, 11, 27)),
        ("1 Jan", date(2026, 1, 1)),
        ("30 Feb", None),
        ("29 Feb 2024", date(2024, 2, 29)),
        ("wed", date(2026, 11, 25)),
        ("thu.", date(2026, 11, 19)),
        ("tu", None),
        ("11/20/2026", date(2026, 11, 20)),
        ("11/20/26", date(2026, 11, 20)),
        ("20.11.2026", date(2026, 11, 20)),
        ("20.11.26", date(2026, 11, 20)),
        ("20.11.99", date(2099, 11, 20)),
        ("20.11.0100", date(100, 11, 20)),
        ("2026/11/20", date(2026, 11, 20)),
        ("20. Nov.", date(2026, 11, 20)),
        ("Nov. 20 2025", date(2025, 11, 20)),
        ("20 Foo", None),
    ],
)
def test_a_day_without_a_year_is_the_last_one_of_its_name(text, day):
    assert read_day(text, date(2026, 11, 25)) == day


@every_row(
    ("text", "clock"),
    [
        ("12 am", (0, 0)),
        ("12 pm", (12, 0)),
        ("1 pm", (13, 0)),
        ("11:59 pm", (23, 59)),
        ("0:00", (0, 0)),
        ("23:59", (23, 59)),
    ],
)
def test_noon_and_midnight_are_told_apart(text, clock):
    found = read_moment(a_kitchen(), f"2026-11-20 {text}")
    assert (found.hour, found.minute) == clock


def test_no_clock_shows_24_hours_60_minutes_or_60_seconds():
    for text in ("24:00", "23:60", "10:00:60", "0 am", "13 am"):
        with told(InputProblem, f"“{text}” is not a moment"):
            read_moment(a_kitchen(), text)
    assert read_moment(a_kitchen(), "2026-11-20 23:59:59") == datetime(2026, 11, 20, 23, 59, 59, tzinfo=UTC)
