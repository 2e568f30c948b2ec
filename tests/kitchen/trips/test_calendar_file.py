"""The drying calendar as a file other calendars read."""

from datetime import UTC, date, datetime, timedelta

import pytest
from icalendar import Calendar

from dryhouse.handbook.reader import handbook
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.records import Dryer, Meal, MealPart, Trip, TripMeal
from dryhouse.kitchen.trips.calendar_file import calendar_text, write_calendar
from dryhouse.kitchen.trips.provisioning import plan
from dryhouse.science.errors import InputProblem, WorldProblem
from dryhouse.science.quantities import Area, Mass, Temperature
from tests.fakes import FakeJournal

NOW = datetime(2026, 8, 1, 9, tzinfo=UTC)
DAY = date(2026, 9, 20)


def a_kitchen(*foods):
    journal = FakeJournal(
        Dryer("shelf dryer", 6, Area(1000.0), id=1),
        Meal("stew", 1.0, id=1),
        *(MealPart(1, n, food, food, mass=Mass(30.0), id=n + 1) for n, food in enumerate(foods)),
        Trip("lakes", DAY, DAY + timedelta(days=4), 2, temperature=Temperature(18.0), id=1),
        TripMeal(1, 1, DAY, id=1),
    )
    return Kitchen(journal, handbook(), lambda: NOW, UTC)


def events(kitchen):
    read = Calendar.from_ical(calendar_text(kitchen, plan(kitchen, 1)))
    return list(read.walk("VEVENT"))


def test_every_run_is_an_event_at_its_hours_with_what_goes_on_and_its_stops():
    kitchen = a_kitchen("apple", "turkey")
    runs = plan(kitchen, 1).calendar.runs
    drying = [event for event in events(kitchen) if str(event["SUMMARY"]).startswith("Dry ")]
    assert [(e.decoded("dtstart"), e.decoded("dtend")) for e in drying] == [(run.start, run.end) for run in runs]
    fruit, meat = drying
    assert str(fruit["SUMMARY"]) == "Dry apple"
    assert "shelf dryer at 140 °F, for lakes." in fruit["DESCRIPTION"]
    assert "condition 10 days" in fruit["DESCRIPTION"]
    assert "into the freezer once it is cool" in meat["DESCRIPTION"]
    assert "STOP: " in meat["DESCRIPTION"]
    assert [str(part["ACTION"]) for part in fruit.subcomponents] == ["DISPLAY"]
    # RFC 5545, 3.6.1: every event says when it was written, or other programs refuse the file
    assert {event.decoded("dtstamp") for event in events(kitchen)} == {NOW}


def test_the_end_of_conditioning_is_a_day_of_its_own():
    kitchen = a_kitchen("apple")
    (run,) = plan(kitchen, 1).calendar.runs
    (jars,) = [event for event in events(kitchen) if "conditioned" in str(event["SUMMARY"])]
    assert jars.decoded("dtstart") == (run.end + timedelta(days=10)).date()


def test_events_keep_their_names_from_one_writing_to_the_next():
    first, again = (events(a_kitchen("apple", "turkey")) for _ in range(2))
    assert [str(e["UID"]) for e in first] == [str(e["UID"]) for e in again]
    assert len({str(e["UID"]) for e in first}) == len(first) == 3


def test_a_plan_without_a_load_has_no_calendar(tmp_path):
    kitchen = a_kitchen()
    with pytest.raises(InputProblem, match="no load to dry for lakes"):
        calendar_text(kitchen, plan(kitchen, 1))


def test_a_calendar_that_cannot_be_written_is_said(tmp_path):
    kitchen = a_kitchen("apple")
    worked = plan(kitchen, 1)
    assert write_calendar(kitchen, worked, tmp_path / "lakes.ics").read_bytes().startswith(b"BEGIN:VCALENDAR")
    with pytest.raises(WorldProblem, match="could not be written"):
        write_calendar(kitchen, worked, tmp_path / "nowhere" / "lakes.ics")


def test_a_run_reminds_half_an_hour_before_and_the_end_of_conditioning_lasts_its_day():
    found = events(a_kitchen("apple"))
    run, jars = found
    (alarm,) = run.subcomponents
    assert alarm.decoded("trigger") == timedelta(minutes=-30)
    assert str(alarm["DESCRIPTION"]) == str(run["SUMMARY"])
    assert jars.decoded("dtend") - jars.decoded("dtstart") == timedelta(days=1)
    assert jars.subcomponents == []
    assert [str(e["UID"]) for e in found] == ["trip-1-1@dryhouse", "trip-1-1-apple@dryhouse"]
    assert b"PRODID:-//Dryhouse//" in calendar_text(a_kitchen("apple"), plan(a_kitchen("apple"), 1))
