"""After a trip: what came back, what was short, and the next trip that starts from it."""

from datetime import UTC, date, datetime, timedelta

import pytest

from dryhouse.handbook.reader import handbook
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.meals.meals import remove_meal
from dryhouse.kitchen.records import AfterTrip, Meal, MealPart, Trip, TripMeal, TripPerson
from dryhouse.kitchen.trips.after import changes_of, next_name, next_start, note_after, plan_again, returned
from dryhouse.kitchen.trips.provisioning import plan
from dryhouse.kitchen.trips.trips import meals_of, people_of, remove_trip
from dryhouse.science.display import Style
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Mass, Temperature
from dryhouse.words.workings import lines
from tests.fakes import FakeJournal
from tests.told import told

NOW = datetime(2026, 9, 1, 18, tzinfo=UTC)
DAY = date(2026, 8, 22)
TRIP = Trip("Lake circuit 2026", DAY, DAY + timedelta(days=2), 4, 2500.0, Temperature(18.0), spare_days=1, id=1)
OATS, CHILI = 1, 2


@pytest.fixture
def kitchen() -> Kitchen:
    """Three days of oats and one of chili for four, with a spare breakfast."""
    meals = [TripMeal(1, OATS, DAY + timedelta(days=n), "breakfast", id=n + 1) for n in range(4)]
    journal = FakeJournal(
        Meal("apple oats", 1.0, id=OATS),
        Meal("bean chili", 1.0, id=CHILI),
        MealPart(OATS, 0, "oats", "", "oats-rolled", mass=Mass(60.0), id=1),
        MealPart(CHILI, 0, "lentils", "lentil", mass=Mass(80.0), id=2),
        TRIP,
        *meals,
        TripMeal(1, CHILI, DAY, "dinner", id=5),
        TripPerson(1, "bow", avoids="onion", id=1),
    )
    return Kitchen(journal, handbook(), lambda: NOW, UTC)


def note(kitchen, meal, uneaten=0.0, short=0.0, change=""):
    return note_after(kitchen, 1, [AfterTrip(1, meal, uneaten, short, change)])


def again(kitchen, starts_on=date(2027, 8, 21), name=""):
    done = plan_again(kitchen, 1, Style(), starts_on, name)
    return done, done.record


def test_every_meal_is_asked_about_with_what_was_carried_the_spare_days_aside(kitchen):
    assert [(one.meal.name, one.carried, one.spare) for one in returned(kitchen, 1)] == [
        ("apple oats", 12.0, 4.0),
        ("bean chili", 4.0, 0.0),
    ]


def test_what_came_back_is_kept_and_may_be_put_right(kitchen):
    note(kitchen, OATS, uneaten=3.0, change="  more   cinnamon ")
    oats, chili = returned(kitchen, 1)
    assert oats.sentence(Style()) == "Apple oats: 3 of 12 servings came back; more cinnamon."
    assert (chili.noted, chili.sentence(Style())) == (None, "")
    note(kitchen, OATS, short=2.0)
    (kept,) = kitchen.journal.where(AfterTrip)
    assert (kept.uneaten, kept.short, kept.change) == (0.0, 2.0, "")
    note(kitchen, OATS)
    assert kitchen.journal.where(AfterTrip) == ()


def test_more_than_was_carried_cannot_come_back(kitchen):
    with told(InputProblem, "12 servings") as caught:
        note(kitchen, OATS, uneaten=13.0)
    assert caught.value.field == "uneaten"
    with told(InputProblem, "how many more servings"):
        note(kitchen, OATS, short=-1.0)
    assert kitchen.journal.where(AfterTrip) == ()


def test_a_meal_that_was_on_no_day_cannot_have_come_back(kitchen):
    kitchen.journal.kept[Meal][3] = Meal("couscous", 1.0, id=3)
    with told(InputProblem, "couscous is on no day of Lake circuit 2026"):
        note(kitchen, 3, uneaten=1.0)


def test_the_next_trip_has_the_same_days_people_and_meals(kitchen):
    assert next_start(TRIP) == date(2027, 8, 21)
    assert next_start(TRIP).weekday() == TRIP.starts_on.weekday()
    done, made = again(kitchen)
    assert (made.name, made.starts_on, made.ends_on) == ("Lake circuit 2027", date(2027, 8, 21), date(2027, 8, 23))
    assert (made.people, made.spare_days, made.temperature) == (4, 1, TRIP.temperature)
    assert [(p.name, p.avoids) for p in people_of(kitchen, made.id)] == [("bow", "onion")]
    assert [(m.meal, m.on.day, m.slot, m.servings) for m in meals_of(kitchen, made.id)] == [
        (OATS, 21, "breakfast", None),
        (CHILI, 21, "dinner", None),
        (OATS, 22, "breakfast", None),
        (OATS, 23, "breakfast", None),
        (OATS, 24, "breakfast", None),
    ]
    assert made.notes == "After Lake circuit 2026: every meal as it was."
    kitchen.commit("undone", done.undone())
    assert [t.name for t in kitchen.journal.where(Trip)] == ["Lake circuit 2026"]
    assert len(kitchen.journal.where(TripMeal)) == 5


def test_it_takes_what_would_have_been_right(kitchen):
    """12 servings less 3 that came back: 3 of 4 a bag. 4 servings and 2 more: 6."""
    note(kitchen, OATS, uneaten=3.0)
    note(kitchen, CHILI, short=2.0)
    assert changes_of(kitchen, 1, Style()) == (
        "apple oats 3 servings a bag in place of 4",
        "bean chili 6 servings a bag in place of 4",
    )
    done, made = again(kitchen)
    assert {m.meal: m.servings for m in meals_of(kitchen, made.id)} == {OATS: 3.0, CHILI: 6.0}
    assert made.notes.startswith("After Lake circuit 2026: apple oats 3 servings a bag in place of 4; bean chili")
    assert done.what == "Planned Lake circuit 2027 after Lake circuit 2026, 2 amounts changed"
    oats, chili = returned(kitchen, 1)
    first, second = lines(oats.next_servings(4.0).workings, Style())
    assert "12 servings went, 3 came back, 0 more were wanted: 75 % would have been right" in first
    assert "4 servings × 75 %, to the nearest 0.25 = 3" in second
    assert chili.next_servings(4.0).value == 6.0


def test_amounts_are_rounded_to_what_a_cook_measures(kitchen):
    """11 of 12 servings: 3.67 of 4, to the quarter."""
    note(kitchen, OATS, uneaten=1.0)
    (oats, _) = returned(kitchen, 1)
    assert oats.next_servings(4.0).value == 3.75


def test_what_nobody_ate_is_left_out(kitchen):
    note(kitchen, CHILI, uneaten=4.0)
    assert changes_of(kitchen, 1, Style()) == ("bean chili left out, as all of it came back",)
    _, made = again(kitchen, name=" lakes  again ")
    assert made.name == "lakes again"
    assert {m.meal for m in meals_of(kitchen, made.id)} == {OATS}


def test_what_was_noted_to_change_is_said_in_the_next_plan(kitchen):
    note(kitchen, CHILI, change="less cumin.")
    _, made = again(kitchen)
    said = "Bean chili, as noted after Lake circuit 2026: less cumin."
    assert said in plan(kitchen, made.id).remarks
    assert said not in plan(kitchen, 1).remarks


def test_a_name_that_is_taken_is_refused_and_nothing_is_written(kitchen):
    with pytest.raises(InputProblem, match="already a trip called"):
        again(kitchen, name="lake circuit 2026")
    assert len(kitchen.journal.where(Trip)) == 1


def test_the_next_name_has_the_next_year_and_is_none_that_is_taken(kitchen):
    assert next_name(kitchen, TRIP, date(2027, 8, 21)) == "Lake circuit 2027"
    assert next_name(kitchen, Trip("lakes", DAY, DAY), date(2027, 8, 21)) == "lakes 2027"
    again(kitchen)
    assert again(kitchen)[1].name == "Lake circuit 2027 again"


def test_the_notes_leave_with_their_trip_and_with_their_meal(kitchen):
    note(kitchen, OATS, uneaten=1.0)
    note(kitchen, CHILI, uneaten=1.0)
    remove_meal(kitchen, OATS)
    assert [kept.meal for kept in kitchen.journal.where(AfterTrip)] == [CHILI]
    remove_trip(kitchen, 1)
    assert kitchen.journal.where(AfterTrip) == ()
