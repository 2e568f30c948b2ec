"""A trip day by day, whole: what each person carries, eats and takes in, and what the pots need."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta

import pytest

from dryhouse.handbook.reader import handbook
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.records import Meal, MealPart, Trip, TripMeal, TripPerson
from dryhouse.kitchen.trips.people import PersonDay, days_of_people
from dryhouse.kitchen.trips.sheet import (
    TripSheet,
    altitude_of,
    appetites_of,
    servings_of,
    trip_sheet,
    warmth_of_trip,
)
from dryhouse.science.quantities import Length, Mass, Temperature
from tests.fakes import FakeJournal
from tests.rows import every_row
from tests.workings import read

DAY = date(2026, 8, 20)
NEXT, SPARE = DAY + timedelta(days=1), DAY + timedelta(days=2)
TRIP = Trip("lakes", DAY, NEXT, 4, 1000.0, Temperature(18.0), Length(1500e3), spare_days=1, layovers="2", id=1)
BAR, ROLL, POT = Meal("bar", cooking="no pot", id=1), Meal("roll", cooking="no pot", id=2), Meal("pot", id=3)
PARTS = (
    # a bar of 50 g, of which the label says that 100 g hold 400 kcal and 1150 mg of sodium
    MealPart(1, 0, "bar", mass=Mass(50.0), label_energy_kcal=400.0, label_sodium_mg=1150.0, id=1),
    MealPart(2, 0, "roll", mass=Mass(80.0), id=2),  # nothing is known of it but its weight
    MealPart(3, 0, "rice", staple="rice-white", mass=Mass(70.0), id=3),
)


def sheet(*eaten: TripMeal, trip: Trip = TRIP, people: tuple[TripPerson, ...] = ()) -> TripSheet:
    return trip_sheet(made(*eaten, trip=trip, people=people), 1)


def made(*eaten: TripMeal, trip: Trip = TRIP, people: tuple[TripPerson, ...] = ()) -> Kitchen:
    numbered = [replace(one, id=n) for n, one in enumerate(eaten, 1)]
    journal = FakeJournal(trip, BAR, ROLL, POT, *PARTS, *numbered, *people)
    return Kitchen(journal, handbook(), lambda: datetime(2026, 8, 1, 9, tzinfo=UTC), UTC)


def test_days_and_the_whole_add_up_and_the_spare_day_is_carried_and_not_counted() -> None:
    """Bars of 50 g, 200 kcal and 575 mg of sodium: 4 on the first day, 10 on the second, 4 on the spare one; with
    rolls of 80 g, 4 of them, on the second."""
    found = sheet(
        TripMeal(1, 1, DAY), TripMeal(1, 1, NEXT, "lunch", 10.0), TripMeal(1, 2, NEXT), TripMeal(1, 1, SPARE)
    )
    first, second, spare = found.days
    assert [day.day for day in found.days] == [DAY, NEXT, SPARE]
    assert [day.grams_per_person.value for day in found.days] == [50.0, (500.0 + 320.0) / 4, 50.0]
    assert [day.energy_per_person and day.energy_per_person.value for day in found.days] == [200.0, 500.0, 200.0]
    assert [day.sodium_per_person and day.sodium_per_person.value for day in found.days] == [575.0, 1437.5, 575.0]
    assert [day.energy_gap for day in found.days] == [-800.0, -500.0, -800.0]
    assert [day.carried_per_person for day in found.days] == [305.0, 255.0, 50.0]
    assert [(day.spare, day.layover) for day in found.days] == [(False, False), (False, True), (True, False)]
    assert [len(day.meals) for day in found.days] == [1, 2, 1]
    assert (found.food_mass.value, found.food_mass.unit) == (200.0 + 820.0 + 200.0, "g")
    # two days on the way, four people: 8 days of one person each
    assert found.grams_per_person_day.value == 1020.0 / 8
    assert found.energy_per_person_day is not None
    assert found.energy_per_person_day.value == (800.0 + 2000.0) / 8
    assert (found.water.value, found.flame_minutes) == (0.0, 0.0)
    assert found.day(NEXT) is second
    assert [day.energy_lacks for day in found.days] == [(), ("roll",), ()]
    assert found.energy_lacks == ("roll",)
    assert second.energy_per_person is not None
    assert "Not known for roll: at least this much" in read(second.energy_per_person.workings)
    assert first.energy_per_person is not None
    assert "Not known" not in read(first.energy_per_person.workings)
    assert read(found.grams_per_person_day.workings) == (
        "200 g\n500 g\n320 g\nTogether 1020 g\nFor each person and day: ÷ 8 = 127.5 g"
    )
    assert read(first.grams_per_person.workings) == "200 g\nTogether 200 g\nFor each person: ÷ 4 = 50 g"
    assert spare.energy_per_person is not None
    assert spare.energy_per_person.unit == "kcal"


def test_what_nobody_knows_the_energy_of_gives_none() -> None:
    found = sheet(TripMeal(1, 2, DAY), trip=replace(TRIP, energy_kcal_per_person_day=None))
    assert [day.energy_per_person for day in found.days] == [None, None, None]
    assert [day.sodium_per_person for day in found.days] == [None, None, None]
    assert [day.energy_gap for day in found.days] == [None, None, None]
    assert found.energy_per_person_day is None
    assert [day.carried_per_person for day in found.days] == [80.0, 0.0, 0.0]


@every_row(("servings", "salty"), [(16.0, False), (16.2, True)])
def test_more_than_a_days_limit_of_sodium_is_said_with_its_source(servings: float, salty: bool) -> None:
    """Each bar holds 575 mg: 16 bars for 4 people are 2300 mg each, the limit itself."""
    remarks = sheet(TripMeal(1, 1, DAY, servings=servings)).days[0].remarks
    assert bool(remarks) is salty
    for said in remarks:
        assert said.startswith(
            "2329 mg of sodium for each person this day, past the common limit of 2300 mg. [Dietary Guidelines"
        )


def test_the_pots_of_a_day_and_of_the_trip_are_added_up_at_its_height() -> None:
    found = sheet(
        TripMeal(1, 3, DAY), TripMeal(1, 3, DAY, "lunch"), TripMeal(1, 3, NEXT), TripMeal(1, 1, NEXT, "snack")
    )
    (one,) = sheet(TripMeal(1, 3, DAY)).days[0].meals
    water, minutes = one.sheet.bag.water.value, one.sheet.minutes.flame.value
    assert min(water, minutes) > 0
    assert [day.water.value for day in found.days] == pytest.approx([2 * water, water, 0.0])
    assert [day.flame_minutes for day in found.days] == pytest.approx([2 * minutes, minutes, 0.0])
    assert (found.water.value, found.flame_minutes) == pytest.approx((3 * water, 3 * minutes))
    (low,) = sheet(TripMeal(1, 3, DAY), trip=replace(TRIP, altitude=None)).days[0].meals
    assert low.sheet.minutes.flame.value < minutes


def test_height_and_warmth_are_those_of_the_trip() -> None:
    assert (altitude_of(TRIP), warmth_of_trip(TRIP)) == (1500.0, 18.0)
    bare = replace(TRIP, altitude=None, temperature=None)
    assert (altitude_of(bare), warmth_of_trip(bare)) == (None, None)


# --- those who go ---------------------------------------------------------------------------------------------

BOW, STERN = TripPerson(1, "bow", 150.0, id=1), TripPerson(1, "stern", 70.0, id=2)


@every_row(
    ("people", "going", "appetites"),
    [((), 4, 4.0), ((BOW,), 4, 4.5), ((BOW, STERN), 4, 4.2), ((BOW, STERN), 2, 2.2), ((BOW, STERN), 1, 2.2)],
)
def test_those_of_whom_nothing_is_said_have_a_usual_appetite(
    people: tuple[TripPerson, ...], going: int, appetites: float
) -> None:
    assert appetites_of(replace(TRIP, people=going), people) == pytest.approx(appetites)


def test_servings_are_as_said_else_one_for_each_appetite_else_one_for_each_person() -> None:
    assert servings_of(TRIP, TripMeal(1, 1, DAY, servings=2.5), 9.0) == 2.5
    assert servings_of(TRIP, TripMeal(1, 1, DAY), 4.2) == 4.2
    assert servings_of(TRIP, TripMeal(1, 1, DAY)) == 4.0
    assert isinstance(servings_of(TRIP, TripMeal(1, 1, DAY)), float)


@every_row(
    ("people", "going", "shares"),
    [
        ((), 4, [("each person", 1.0)]),
        ((BOW,), 4, [("bow", 1.5), ("each of the others", 1.0)]),
        ((BOW, STERN), 3, [("bow", 1.5), ("stern", 0.7), ("each of the others", 1.0)]),
        ((BOW, STERN), 2, [("bow", 1.5), ("stern", 0.7)]),
        ((BOW, STERN), 1, [("bow", 1.5), ("stern", 0.7)]),
    ],
)
def test_a_bag_is_shared_by_appetite(
    people: tuple[TripPerson, ...], going: int, shares: list[tuple[str, float]]
) -> None:
    """A usual appetite gets one bar of 200 kcal, and wishes 1000."""
    found = sheet(TripMeal(1, 1, DAY), trip=replace(TRIP, people=going), people=people)
    told = days_of_people(found, people, found.days[0])
    assert told == tuple(
        PersonDay(name, pytest.approx(200.0 * share), pytest.approx(1000.0 * share)) for name, share in shares
    )
    empty = days_of_people(found, people, found.days[1])
    assert [one.energy for one in empty] == [None] * len(shares)
    free = sheet(TripMeal(1, 1, DAY), trip=replace(TRIP, energy_kcal_per_person_day=None))
    assert {one.wish for one in days_of_people(free, people, free.days[0])} == {None}
