"""Trips: days, meals on them, and what a day comes to."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta

import pytest

from dryhouse.handbook.reader import handbook
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.meals.meals import draft_part, save_meal
from dryhouse.kitchen.ports import Change
from dryhouse.kitchen.records import Batch, Meal, Trip, TripMeal
from dryhouse.kitchen.trips.sheet import trip_sheet
from dryhouse.kitchen.trips.trips import (
    days_of,
    find_trip,
    meals_of,
    move_meal,
    put_meal,
    remove_trip,
    save_trip,
    serve_meal,
    trips,
    unplan_meal,
)
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Length, Mass, Temperature
from tests.fakes import FakeJournal

DAY = date(2026, 8, 20)
TRIP = Trip("lake circuit", DAY, DAY + timedelta(days=2), 4, 2400.0, Temperature(20.0))


@pytest.fixture
def kitchen() -> Kitchen:
    made = Kitchen(FakeJournal(), handbook(), lambda: datetime(2026, 8, 1, 9, tzinfo=UTC), UTC)
    parts = [draft_part(made, "couscous", "100 g"), draft_part(made, "bouillon powder, beef", "12 g")]
    save_meal(made, Meal("supper", 1.0), parts)
    save_trip(made, TRIP)
    return made


def test_a_day_adds_up_for_each_person(kitchen: Kitchen) -> None:
    put_meal(kitchen, 1, 1, DAY)
    put_meal(kitchen, 1, 1, DAY, "lunch", servings=2.0)
    day = trip_sheet(kitchen, 1).day(DAY)
    assert day.grams_per_person.value == pytest.approx(112 * 6 / 4)
    assert day.energy_per_person is not None
    assert day.energy_gap == pytest.approx(day.energy_per_person.value - 2400.0)
    assert day.flame_minutes == pytest.approx(10.0)
    assert any("sodium" in remark and "Dietary Guidelines" in remark for remark in day.remarks)


def test_an_empty_day_gives_nothing_and_claims_nothing(kitchen: Kitchen) -> None:
    day = trip_sheet(kitchen, 1).day(DAY)
    assert day.energy_per_person is None
    assert day.energy_gap is None
    assert day.grams_per_person.value == 0


def test_the_trips_height_reaches_the_pot(kitchen: Kitchen) -> None:
    put_meal(kitchen, 1, 1, DAY)
    low = trip_sheet(kitchen, 1).flame_minutes
    save_trip(kitchen, replace(TRIP, altitude=Length(2500000.0), id=1))
    assert trip_sheet(kitchen, 1).flame_minutes > low


def test_a_meal_moves_to_another_day_and_comes_back(kitchen: Kitchen) -> None:
    put_meal(kitchen, 1, 1, DAY)
    done = move_meal(kitchen, 1, DAY + timedelta(days=1), "lunch")
    assert [(m.on, m.slot) for m in meals_of(kitchen, 1)] == [(DAY + timedelta(days=1), "lunch")]
    kitchen.journal.write(done.undone().changes)
    assert [(m.on, m.slot) for m in meals_of(kitchen, 1)] == [(DAY, "dinner")]


def test_a_day_that_is_not_of_the_trip_is_refused(kitchen: Kitchen) -> None:
    with pytest.raises(InputProblem, match="not a day of"):
        put_meal(kitchen, 1, 1, DAY + timedelta(days=9))
    assert not meals_of(kitchen, 1)


def test_servings_are_changed_and_meals_taken_off(kitchen: Kitchen) -> None:
    put_meal(kitchen, 1, 1, DAY)
    serve_meal(kitchen, 1, 6.0)
    assert trip_sheet(kitchen, 1).day(DAY).meals[0].sheet.servings == 6.0
    unplan_meal(kitchen, 1)
    assert not meals_of(kitchen, 1)


def test_moving_the_whole_trip_moves_its_meals(kitchen: Kitchen) -> None:
    put_meal(kitchen, 1, 1, DAY + timedelta(days=1))
    later = timedelta(days=7)
    save_trip(kitchen, replace(TRIP, id=1, starts_on=DAY + later, ends_on=TRIP.ends_on + later))
    assert [m.on for m in meals_of(kitchen, 1)] == [DAY + timedelta(days=8)]


def test_a_shorter_trip_says_how_many_meals_fell_off(kitchen: Kitchen) -> None:
    put_meal(kitchen, 1, 1, DAY + timedelta(days=2))
    done = save_trip(kitchen, replace(TRIP, id=1, ends_on=DAY))
    assert "1 meal outside the new dates was removed" in done.what
    assert not kitchen.journal.where(TripMeal)


@pytest.mark.parametrize(
    ("trip", "field"),
    [
        (replace(TRIP, name=" "), "name"),
        (replace(TRIP, name="LAKE circuit"), "name"),
        (replace(TRIP, name="x", ends_on=DAY - timedelta(days=1)), "ends_on"),
        (replace(TRIP, name="x", ends_on=DAY + timedelta(days=4000)), "ends_on"),
        (replace(TRIP, name="x", people=0), "people"),
        (replace(TRIP, name="x", energy_kcal_per_person_day=-5.0), "energy_kcal_per_person_day"),
        (replace(TRIP, name="x", spoilage_margin_pct=100.0), "spoilage_margin_pct"),
        (replace(TRIP, name="x", temperature=Temperature(90.0)), "temperature"),
        (replace(TRIP, name="x", altitude=Length(9e6)), "altitude"),
    ],
)
def test_a_trip_that_cannot_be_is_refused(kitchen: Kitchen, trip: Trip, field: str) -> None:
    with pytest.raises(InputProblem) as problem:
        save_trip(kitchen, trip)
    assert problem.value.field == field
    assert len(trips(kitchen)) == 1


def test_removing_a_trip_takes_its_days_and_waiting_batches_and_keeps_what_was_dried(kitchen: Kitchen) -> None:
    put_meal(kitchen, 1, 1, DAY)
    journal = kitchen.journal
    waiting = Batch("corn", state="planned", trip=1, id=1)
    dried = Batch("corn", state="finished", dried_mass=Mass(90.0), trip=1, id=2)
    journal.write([Change(None, waiting), Change(None, dried)])
    done = remove_trip(kitchen, 1)
    assert [b.id for b in journal.where(Batch)] == [2]
    assert not trips(kitchen)
    journal.write(done.undone().changes)
    assert len(meals_of(kitchen, 1)) == 1


def test_trips_are_found_by_words_and_the_next_one_stands_first(kitchen: Kitchen) -> None:
    save_trip(kitchen, replace(TRIP, name="spring paddle", starts_on=date(2026, 5, 1), ends_on=date(2026, 5, 3)))
    assert [t.name for t in trips(kitchen)] == ["lake circuit", "spring paddle"]
    assert find_trip(kitchen, "spring").name == "spring paddle"
    assert days_of(find_trip(kitchen, "lake"))[-1] == DAY + timedelta(days=2)
    with pytest.raises(InputProblem, match="spring paddle"):
        find_trip(kitchen, "winter")


def test_the_meals_of_a_day_stand_in_the_order_they_are_eaten(kitchen: Kitchen) -> None:
    for slot in ("supper by the fire", "snack", "dinner", "lunch", "breakfast", "dinner"):
        put_meal(kitchen, 1, 1, DAY + timedelta(days=1), slot)
    put_meal(kitchen, 1, 1, DAY, "snack")
    assert [(m.on.day, m.slot, m.id) for m in meals_of(kitchen, 1)] == [
        (20, "snack", 7),
        (21, "breakfast", 5),
        (21, "lunch", 4),
        (21, "dinner", 3),
        (21, "dinner", 6),
        (21, "snack", 2),
        (21, "supper by the fire", 1),
    ]


def test_each_act_says_what_was_done_with_which_meal_on_which_day(kitchen: Kitchen) -> None:
    assert put_meal(kitchen, 1, 1, DAY, "  ").what == "Put supper on Thu 20 Aug, dinner"
    done = put_meal(kitchen, 1, 1, DAY, " lunch ", 2.0)
    assert (done.what, done.record) == ("Put supper on Thu 20 Aug, lunch", TripMeal(1, 1, DAY, "lunch", 2.0, 2))
    moved = move_meal(kitchen, 2, DAY + timedelta(days=1))
    assert (moved.what, moved.record.slot) == ("Moved supper to Fri 21 Aug, lunch", "lunch")
    assert move_meal(kitchen, 2, DAY, "snack").what == "Moved supper to Thu 20 Aug, snack"
    served = serve_meal(kitchen, 2, None)
    assert (served.what, served.record.servings) == ("Changed the servings of supper", None)
    assert unplan_meal(kitchen, 2).what == "Took supper off Thu 20 Aug"
    for act in (lambda: unplan_meal(kitchen, 2), lambda: serve_meal(kitchen, 2, 1.0)):
        with pytest.raises(InputProblem, match=r"^That meal is no longer on the trip\.$"):
            act()
    assert remove_trip(kitchen, 1).what == "Removed the trip lake circuit"


def test_a_trip_that_moves_and_changes_its_length_keeps_the_meals_on_its_days(kitchen: Kitchen) -> None:
    """On 20, 21 and 22 August; from the 21st to the 22nd the first falls off, and the others stay on their days."""
    for n in range(3):
        put_meal(kitchen, 1, 1, DAY + timedelta(days=n))
    put_meal(kitchen, 1, 1, DAY, "lunch")
    done = save_trip(kitchen, replace(TRIP, id=1, name=" lake  circuit ", starts_on=DAY + timedelta(days=1)))
    assert done.what == "Changed the trip lake circuit; 2 meals outside the new dates were removed"
    assert [(m.id, m.on.day) for m in meals_of(kitchen, 1)] == [(2, 21), (3, 22)]
    one = save_trip(kitchen, replace(TRIP, id=1, starts_on=DAY + timedelta(days=2)))
    assert one.what == "Changed the trip lake circuit; 1 meal outside the new dates was removed"
    same = save_trip(kitchen, replace(TRIP, id=1, starts_on=DAY + timedelta(days=2), people=5))
    assert (same.what, [m.on.day for m in meals_of(kitchen, 1)]) == ("Changed the trip lake circuit", [22])


def test_trips_to_come_stand_soonest_first_and_those_over_latest_first(kitchen: Kitchen) -> None:
    """Today is 1 August; a trip that ends today is not over."""

    def trip(name: str, starts: date, days: int) -> None:
        save_trip(kitchen, Trip(name, starts, starts + timedelta(days=days)))

    trip("over in spring", date(2026, 4, 1), 3)
    trip("over yesterday", date(2026, 7, 30), 1)
    trip("ends today", date(2026, 7, 30), 2)
    trip("next year", date(2027, 1, 1), 2)
    trip("again", DAY, 1)
    assert [t.name for t in trips(kitchen)] == [
        "ends today",
        "lake circuit",
        "again",
        "next year",
        "over yesterday",
        "over in spring",
    ]
