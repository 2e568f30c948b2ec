"""The next trip, whole: every record it gets, and each figure that what came back gives it."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta

import pytest

from dryhouse.handbook.reader import handbook
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.records import AfterTrip, Meal, Trip, TripMeal, TripPerson
from dryhouse.kitchen.trips.after import (
    Returned,
    changes_of,
    next_name,
    note_after,
    noted_before,
    plan_again,
    returned,
)
from dryhouse.science.display import Style
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Length, Temperature
from dryhouse.science.values import Basis
from dryhouse.words.workings import lines
from tests.fakes import FakeJournal
from tests.rows import every_row

NOW = datetime(2026, 9, 1, 18, tzinfo=UTC)
DAY = date(2026, 8, 22)
LAKES = Trip(
    "Lakes", DAY, DAY + timedelta(days=1), 3, 2500.0, Temperature(18.0), Length(200e3), 10.0, "Windy.",
    date(2026, 5, 1), 1, "2", id=1,
)  # fmt: skip
PEOPLE = (TripPerson(1, "bow", 150.0, "onion", id=1), TripPerson(1, "stern", 50.0, at_risk=True, id=2))
SOUP, OATS, RICE = Meal("soup", id=1), Meal("oats", id=2), Meal("rice", id=3)
EATEN = (
    TripMeal(1, 1, DAY, "dinner", 2.0, id=1),
    TripMeal(1, 2, DAY + timedelta(days=1), "breakfast", id=2),
    TripMeal(1, 1, DAY + timedelta(days=1), "dinner", 6.0, id=3),
    TripMeal(1, 3, DAY + timedelta(days=2), "dinner", id=4),
)


def a_kitchen(*notes: AfterTrip, more: tuple[Trip, ...] = ()) -> Kitchen:
    """A trip for three with usual appetites in all: soup for 2 and 6, oats for 3, rice on the spare day alone."""
    journal = FakeJournal(LAKES, *PEOPLE, SOUP, OATS, RICE, *EATEN, *more, *notes)
    return Kitchen(journal, handbook(), lambda: NOW, UTC)


def test_the_next_trip_has_a_record_of_its_own_for_everyone_and_every_bag() -> None:
    kitchen = a_kitchen()
    done = plan_again(kitchen, 1, Style(), date(2027, 8, 21), " Lakes,  again ")
    after = timedelta(days=364)
    assert done.record == replace(
        LAKES,
        name="Lakes, again",
        starts_on=DAY + after,
        ends_on=LAKES.ends_on + after,
        notes="Windy. After Lakes: every meal as it was.",
        dry_from=None,
        id=2,
    )
    assert kitchen.journal.where(TripPerson, trip=2) == tuple(
        replace(person, trip=2, id=person.id + 2) for person in PEOPLE
    )
    order = (EATEN[0], EATEN[2], EATEN[1], EATEN[3])  # meal by meal
    assert kitchen.journal.where(TripMeal, trip=2) == tuple(
        replace(bag, trip=2, on=bag.on + after, id=n) for n, bag in enumerate(order, 5)
    )
    assert done.what == "Planned Lakes, again after Lakes"
    kitchen.write(done.undone().changes)
    assert kitchen.journal.where(Trip) == (LAKES,)
    assert len(kitchen.journal.where(TripMeal)) == 4


def test_one_change_is_told_in_the_act_and_several_are_counted() -> None:
    """Of 8 servings of soup 3 came back and 1 more was wanted: 6 of 8. Of 2 that is 1.5, of 6 it is 4.5."""
    soup = AfterTrip(1, 1, 3.0, 1.0, id=1)
    kitchen = a_kitchen(soup)
    said = ("soup 1.5 servings a bag in place of 2", "soup 4.5 servings a bag in place of 6")
    assert changes_of(kitchen, 1, Style()) == said
    done = plan_again(kitchen, 1, Style(), date(2027, 8, 21))
    assert done.what == "Planned Lakes 2027 after Lakes, 2 amounts changed"
    assert done.record.notes == f"Windy. After Lakes: {'; '.join(said)}."
    assert [bag.servings for bag in kitchen.journal.where(TripMeal, trip=2)] == [1.5, 4.5, None, None]
    oats = a_kitchen(AfterTrip(1, 2, short=1.0, id=1))
    assert plan_again(oats, 1, Style(), date(2027, 8, 21)).what == (
        "Planned Lakes 2027 after Lakes, oats 4 servings a bag in place of 3"
    )


def test_how_a_meal_was_is_said_with_what_came_back_what_was_short_and_what_to_change() -> None:
    soup, oats, rice = returned(a_kitchen(AfterTrip(1, 1, 3.333, 0.667, "less salt.", id=1)), 1)
    assert [(one.meal, one.carried, one.spare, one.bags) for one in (soup, oats, rice)] == [
        (SOUP, 8.0, 0.0, (EATEN[0], EATEN[2])),
        (OATS, 3.0, 0.0, (EATEN[1],)),
        (RICE, 0.0, 3.0, (EATEN[3],)),
    ]
    assert soup.sentence(Style()) == (
        "Soup: 3.33 of 8 servings came back; 0.67 more than 8 servings were wanted; less salt."
    )
    assert replace(soup, noted=AfterTrip(1, 1)).sentence(Style()) == "Soup: right."
    assert oats.sentence(Style()) == ""


def noted(carried: float, uneaten: float = 0.0, short: float = 0.0) -> Returned:
    return Returned(SOUP, carried, 0.0, AfterTrip(1, 1, uneaten, short), ())


@every_row(
    ("was", "before", "after"),
    [
        (Returned(SOUP, 8.0, 0.0, None, ()), 3.1, 3.1),
        (noted(8.0), 3.1, 3.1),
        (noted(8.0, 2.0, 2.0), 3.1, 3.1),
        (noted(8.0, 4.0), 3.0, 1.5),
        (noted(8.0, 0.0, 4.0), 3.0, 4.5),
        (noted(8.0, 7.9), 2.0, 0.25),  # a fortieth of a serving; no bag is smaller than a quarter
        (noted(8.0, 8.0), 2.0, 0.0),
        (noted(8.0, 3.0), 3.0, 2.0),  # 1.875, which lies nearest to 2 in quarters
        (noted(0.0, 0.0, 2.0), 3.0, 3.0),  # carried for the spare day alone
    ],
)
def test_a_bag_holds_what_would_have_been_right_to_the_quarter(was: Returned, before: float, after: float) -> None:
    assert was.next_servings(before).value == after


def test_the_workings_say_what_went_what_came_back_and_what_was_wanted() -> None:
    figure = noted(8.0, 3.0, 1.0).next_servings(2.0)
    assert figure.basis == (Basis("own", "what came back from the trip", 1),)
    first, second = lines(figure.workings, Style())
    assert "8 servings went, 3 came back, 1 more were wanted: 75 % would have been right" in first
    assert "2 servings × 75 %, to the nearest 0.25 = 1.5" in second
    first, _ = lines(Returned(SOUP, 8.0, 0.0, None, ()).next_servings(2.0).workings, Style())
    assert "8 servings went, 0 came back, 0 more were wanted: 100 % would have been right" in first


def test_several_meals_are_noted_in_one_act_and_each_keeps_its_note() -> None:
    kitchen = a_kitchen()
    done = note_after(
        kitchen, 1, [AfterTrip(9, 1, uneaten=8.0), AfterTrip(9, 2, change=" more  cinnamon "), AfterTrip(9, 3)]
    )
    kept = (AfterTrip(1, 1, 8.0, id=1), AfterTrip(1, 2, change="more cinnamon", id=2))
    assert (done.what, kitchen.journal.where(AfterTrip)) == ("Noted how Lakes was", kept)
    note_after(kitchen, 1, [AfterTrip(1, 2, short=0.5), AfterTrip(1, 1)])
    assert kitchen.journal.where(AfterTrip) == (AfterTrip(1, 2, short=0.5, id=2),)
    with pytest.raises(InputProblem) as caught:
        note_after(kitchen, 1, [AfterTrip(1, 1, uneaten=8.25)])
    said = "More of soup cannot come back than went: 8 servings, spare days aside."
    assert (caught.value.said, caught.value.field) == (said, "uneaten")


@every_row(
    ("name", "year", "said"),
    [
        ("Lakes 2026", 2027, "Lakes 2027"),
        ("Lakes 2026", 2026, "Lakes 2026 again"),
        ("Lakes", 2026, "Lakes 2026 again"),
        ("Lakes", 2027, "Lakes 2027"),
        ("2026: lakes", 2028, "2028: lakes"),
    ],
)
def test_the_next_trip_is_called_by_its_year(name: str, year: int, said: str) -> None:
    there = replace(LAKES, name="LAKES 2026", id=2)
    assert next_name(a_kitchen(more=(there,)), replace(LAKES, name=name), date(year, 8, 1)) == said


def test_of_several_trips_the_last_before_this_one_says_what_to_change() -> None:
    """Each trip says something of the soup; the one that names nothing to change is passed over."""
    earlier = replace(LAKES, name="Hills", starts_on=date(2025, 6, 1), ends_on=date(2025, 6, 3), id=2)
    silent = replace(LAKES, name="Bay", starts_on=date(2026, 8, 23), ends_on=date(2026, 8, 24), id=3)
    kitchen = a_kitchen(
        AfterTrip(1, 1, change="less salt.", id=1),
        AfterTrip(2, 1, change="more salt", id=2),
        AfterTrip(3, 1, uneaten=1.0, id=3),
        AfterTrip(2, 2, change="more oats", id=4),
        more=(earlier, silent),
    )
    later = replace(LAKES, starts_on=date(2027, 8, 1), id=9)
    assert noted_before(kitchen, later, [1, 2, 1, 3]) == (
        "Soup, as noted after Lakes: less salt.",
        "Oats, as noted after Hills: more oats.",
    )
    assert noted_before(kitchen, LAKES, [1]) == ("Soup, as noted after Hills: more salt.",)
    assert noted_before(kitchen, earlier, [1, 2, 3]) == ()
