"""What a trip asks of the dryers, beside what is running already."""

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta

import pytest

from dryhouse.handbook.reader import handbook
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.records import Batch, Dryer, Meal, MealPart, Trip, TripMeal, Weighing
from dryhouse.kitchen.trips.drying_plan import (
    ANY_TIME,
    LATE,
    MEAT_LAST,
    household,
    keeps_from,
    ready_by,
    together,
    whole_bags,
)
from dryhouse.kitchen.trips.household import DryingHours
from dryhouse.kitchen.trips.provisioning import plan
from dryhouse.science.quantities import Area, Mass, Temperature
from tests.fakes import FakeJournal
from tests.rows import every_row

NOW = datetime(2026, 3, 1, 9, tzinfo=UTC)
DAY = date(2026, 8, 20)
TRIP = Trip("lakes", DAY, DAY + timedelta(days=8), 2, temperature=Temperature(26.0), id=1)
STEW = (
    Meal("stew", 1.0, id=1),
    MealPart(1, 0, "carrot", "carrot", mass=Mass(30.0), id=1),
    TRIP,
    TripMeal(1, 1, DAY, id=1),
)
DRYER = Dryer("shelf dryer", 6, Area(1000.0), id=1)


def a_kitchen(*records, now=NOW):
    return Kitchen(FakeJournal(*records), handbook(), lambda: now, UTC)


def test_a_food_is_dried_no_sooner_than_it_keeps_to_the_day_it_is_eaten():
    """Dried vegetables keep about 129 days at 70 °F: carrots dried in March are past it in August."""
    kitchen = a_kitchen()
    earliest, late = keeps_from(kitchen, handbook().food("carrot"), TRIP, DAY)
    assert late == ANY_TIME
    assert date(2026, 4, 10) < earliest.date() < date(2026, 4, 20)
    last, _ = keeps_from(kitchen, handbook().food("carrot"), TRIP, TRIP.ends_on)
    assert last > earliest
    apple, _ = keeps_from(kitchen, handbook().food("apple"), TRIP, DAY)
    assert apple is None


def test_meat_is_dried_last_and_what_would_not_keep_as_late_as_can_be():
    kitchen = a_kitchen()
    assert keeps_from(kitchen, handbook().food("ground-beef"), TRIP, DAY) == (None, MEAT_LAST)
    hot = replace(TRIP, temperature=Temperature(45.0), ends_on=DAY + timedelta(days=60))
    assert keeps_from(kitchen, handbook().food("carrot"), hot, hot.ends_on) == (None, LATE)


def test_a_plan_waits_for_what_is_on_the_dryer_and_for_what_is_planned_for_another_trip():
    now = datetime(2026, 8, 17, 18, tzinfo=UTC)
    free = plan(a_kitchen(DRYER, *STEW, now=now), 1).calendar.runs
    assert free
    running = Batch("apple", "drying", prepared_mass=Mass(2000.0), dryer=1, started=now - timedelta(hours=1), id=1)
    busy = plan(a_kitchen(DRYER, *STEW, running, now=now), 1)
    assert not busy.calendar.runs
    other = Batch("apple", "planned", prepared_mass=Mass(2000.0), dryer=1, started=now + timedelta(hours=1), id=1)
    assert not plan(a_kitchen(DRYER, *STEW, other, now=now), 1).calendar.runs
    mine = replace(other, trip=1)
    assert plan(a_kitchen(DRYER, *STEW, mine, now=now), 1).calendar.runs == free


def test_hours_given_for_one_answer_are_kept_for_it():
    weekends = plan(a_kitchen(DRYER, *STEW), 1, DryingHours(days=(5, 6), nights=False))
    (run,) = weekends.calendar.runs
    assert run.start.weekday() in (5, 6)
    assert run.start.date() == run.end.date()


def test_a_spread_begins_in_the_month_she_names():
    found = plan(a_kitchen(DRYER, *STEW), 1, begin=date(2026, 8, 1))
    assert all(run.start >= datetime(2026, 8, 1, tzinfo=UTC) for run in found.calendar.runs)


def test_bags_that_lack_nothing_are_whole_without_a_dryer():
    class Nothing:
        def calendar(self, short):
            class Made:
                left_over = short

            return Made()

    _, whole, asked = whole_bags(Nothing(), [{}, {"carrot": 5.0}, {}])
    assert whole == (True, False, True)
    assert asked == pytest.approx({})


def test_what_several_bags_lack_is_added_up_by_food():
    assert together([{"carrot": 5.0}, {}, {"apple": 1.0, "carrot": 2.5}]) == {"carrot": 7.5, "apple": 1.0}


def test_bags_are_made_in_the_order_they_are_eaten_as_far_as_the_dryer_goes():
    class Small:
        """A dryer that makes ten grams, and counts how often it was asked."""

        asked = 0

        def calendar(self, short):
            Small.asked += 1
            over = sum(short.values()) - 10.0
            return type("Made", (), {"left_over": {"all": over} if over > 0 else {}, "made": short})()

    bags = [{"carrot": 6.0}, {"apple": 6.0}, {}, {"apple": 6.0}, {"apple": 4.0}]
    made, whole, asked = whole_bags(Small(), bags)
    assert whole == (True, False, True, False, True)
    assert asked == {"carrot": 6.0, "apple": 4.0} == made.made
    assert Small.asked == 5, "what failed once is not tried again"
    _, all_whole, everything = whole_bags(Small(), bags[:1] + bags[4:])
    assert (all_whole, everything) == ((True, True), {"carrot": 6.0, "apple": 4.0})


@every_row(
    ("batch", "busy"),
    [
        ({}, True),
        ({"state": "planned"}, True),
        ({"state": "planned", "trip": 1}, False),
        ({"state": "planned", "trip": 2}, True),
        ({"state": "finished"}, False),
        ({"dryer": None}, False),
        ({"started": None}, False),
        ({"state": "planned", "started": NOW - timedelta(days=9)}, False),
    ],
)
def test_a_dryer_is_busy_with_what_runs_and_with_what_is_planned_apart_from_the_trip(batch, busy):
    given = {"state": "drying", "dryer": 1, "started": NOW - timedelta(hours=1), "prepared_mass": Mass(1000.0)}
    kitchen = a_kitchen(DRYER, TRIP, Trip("hills", DAY, DAY, 1, id=2), Batch("apple", id=1, **{**given, **batch}))
    found = household(kitchen, TRIP, DryingHours(), None).busy
    assert bool(found) is busy
    for each in found:
        assert each.machine == 1
        assert NOW <= each.begin < each.end


def test_everything_is_ready_a_day_before_leaving_and_no_sooner_than_today():
    kitchen = a_kitchen(DRYER, TRIP)
    assert ready_by(kitchen, TRIP) == datetime(2026, 8, 19, tzinfo=UTC)
    gone = replace(TRIP, starts_on=NOW.date() - timedelta(days=9))
    assert household(kitchen, gone, DryingHours(), None).ready_by == datetime(2026, 3, 1, tzinfo=UTC)
    home = household(kitchen, TRIP, DryingHours(), date(2026, 5, 1))
    assert (home.ready_by, home.spread_from) == (ready_by(kitchen, TRIP), datetime(2026, 5, 1, tzinfo=UTC))
    assert (home.turnaround, home.apart) == (timedelta(hours=1), timedelta(hours=6))
    assert home.midnight == datetime(2026, 3, 1, tzinfo=UTC)


@every_row(
    ("batch", "begins", "ends"),
    [
        ({"state": "drying", "started": NOW - timedelta(hours=1)}, 0, 11),
        ({"state": "planned", "started": NOW - timedelta(hours=1)}, 0, 11),
        ({"state": "planned", "started": NOW + timedelta(hours=5)}, 5, 17),
        ({"state": "planned", "started": NOW - timedelta(hours=11)}, 0, 1),
        ({"state": "planned", "started": NOW - timedelta(hours=12)}, None, None),
    ],
)
def test_a_load_nobody_weighed_is_on_the_dryer_for_the_longest_its_food_takes(batch, begins, ends):
    """Apple takes 6 to 12 hours."""
    load = Batch("apple", dryer=1, id=1, **batch)
    found = household(a_kitchen(DRYER, TRIP, load), TRIP, DryingHours(), None).busy
    hours = [((each.begin - NOW) / timedelta(hours=1), (each.end - NOW) / timedelta(hours=1)) for each in found]
    assert hours == ([] if begins is None else [(begins, ends)])


def test_a_load_that_is_all_but_dry_needs_an_hour_and_a_moist_one_what_its_weighings_say():
    started = NOW - timedelta(hours=11)
    load = Batch("apple", "drying", dryer=1, prepared_mass=Mass(1000.0), started=started, id=1)
    weighed = ((1, 810), (2, 640), (4, 412), (6, 283))
    for last, least, most in ((181, 1.0, 1.0), (230, 1.5, 11.0)):
        curve = [
            Weighing(1, started + timedelta(hours=h), Mass(float(g)), id=n)
            for n, (h, g) in enumerate((*weighed, (10.9, last)), 1)
        ]
        (busy,) = household(a_kitchen(DRYER, TRIP, load, *curve), TRIP, DryingHours(), None).busy
        assert least <= (busy.end - NOW) / timedelta(hours=1) <= most


def test_the_dryer_is_tended_from_today_to_the_day_of_leaving():
    kitchen = a_kitchen(DRYER, TRIP)
    days = [s.begin.date() for s in household(kitchen, TRIP, DryingHours(), None).hours.stretches]
    assert (min(days), max(days)) == (NOW.date(), TRIP.starts_on)
    gone = replace(TRIP, starts_on=NOW.date() - timedelta(days=9))
    assert {s.begin.date() for s in household(kitchen, gone, DryingHours(), None).hours.stretches} == {NOW.date()}


def test_it_is_dried_from_the_first_day_on_from_which_it_keeps():
    carrot = handbook().food("carrot")
    earliest, _ = keeps_from(a_kitchen(), carrot, TRIP, DAY)
    on_it, before = (a_kitchen(now=earliest - timedelta(days=days)) for days in (0, 1))
    assert keeps_from(on_it, carrot, TRIP, DAY) == (None, ANY_TIME)
    assert keeps_from(before, carrot, TRIP, DAY) == (earliest, ANY_TIME)
    room = replace(TRIP, temperature=Temperature((70 - 32) / 1.8))
    assert keeps_from(a_kitchen(), carrot, replace(TRIP, temperature=None), DAY) == keeps_from(
        a_kitchen(), carrot, room, DAY
    )
