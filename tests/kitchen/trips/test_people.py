"""Those who go: appetite, what they don't eat, who is at risk; and what the stove burns for them."""

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta

import pytest

from dryhouse.handbook.reader import handbook
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.meals.heat import fuel_per_liter, set_fuel_per_liter
from dryhouse.kitchen.records import Batch, BatchPart, Dryer, Lot, Meal, MealPart, Trip, TripMeal, TripPerson
from dryhouse.kitchen.settings import UNITS_KEY, set_preference, style
from dryhouse.kitchen.trips.fuel import fuel_words
from dryhouse.kitchen.trips.people import days_of_people
from dryhouse.kitchen.trips.provisioning import plan
from dryhouse.kitchen.trips.trips import days_of, layovers_of, people_of, put_meal, save_trip
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Area, Mass, Temperature
from tests.fakes import FakeJournal
from tests.rows import every_row

NOW = datetime(2026, 8, 1, 9, tzinfo=UTC)
DAY = date(2026, 9, 20)
TRIP = Trip("lakes", DAY, DAY + timedelta(days=1), 4, 2000.0, Temperature(18.0), id=1)


def person(id, name, appetite=100.0, avoids="", at_risk=False):
    return TripPerson(1, name, appetite, avoids, at_risk, id)


def a_kitchen(*people, parts=(("carrot", ""), ("", "rice-white")), trip=TRIP, more=()):
    journal = FakeJournal(
        Dryer("shelf dryer", 6, Area(1000.0), id=1),
        Meal("stew", 1.0, id=1),
        *(
            MealPart(1, n, food or staple or "camp sauce", food, staple, mass=Mass(50.0), id=n + 1)
            for n, (food, staple) in enumerate(parts)
        ),
        trip,
        TripMeal(1, 1, DAY, id=1),
        *people,
        *more,
    )
    return Kitchen(journal, handbook(), lambda: NOW, UTC)


def test_appetites_make_the_servings_and_share_the_energy():
    """120 + 80 + 50 and one usual appetite: 3.5 servings for four people."""
    kitchen = a_kitchen(person(1, "bow", 120), person(2, "stern", 80), person(3, "child", 50))
    worked = plan(kitchen, 1)
    assert worked.bags[0].servings == 3.5
    day = worked.sheet.days[0]
    shares = {one.name: one for one in days_of_people(worked.sheet, worked.people, day)}
    assert list(shares) == ["bow", "stern", "child", "each of the others"]
    together = sum(one.energy for one in shares.values())
    assert together == pytest.approx(day.energy_per_person.value * 4)
    assert shares["bow"].energy == pytest.approx(1.2 * shares["each of the others"].energy)
    assert [one.wish for one in shares.values()] == [2400.0, 1600.0, 1000.0, 2000.0]


def test_servings_that_were_said_stay_as_they_were_said():
    kitchen = a_kitchen(person(1, "bow", 50))
    put_meal(kitchen, 1, 1, DAY + timedelta(days=1), servings=4.0)
    assert [bag.servings for bag in plan(kitchen, 1).bags] == [3.5, 4.0]


@every_row(
    ("avoids", "part", "found"),
    [
        ("meat", ("turkey", ""), True),
        ("meat", ("ground-beef", ""), True),
        ("vegetarian", ("cod", ""), True),
        ("vegetarian", ("carrot", ""), False),
        ("vegan", ("", "milk-nonfat-dry"), True),
        ("nuts", ("", "walnuts"), True),
        ("walnut", ("", "walnuts"), True),
        ("carrots", ("carrot", ""), True),
        ("onion, tomatoes", ("tomato", ""), True),
        ("pea", ("peach", ""), False),
        ("tree nuts", ("", "almonds"), True),
    ],
)
def test_what_someone_does_not_eat_is_found_in_the_bags(avoids, part, found):
    remarks = plan(a_kitchen(person(1, "bow", avoids=avoids), parts=(part,)), 1).remarks
    assert any("Bow does not eat" in line and "(Sun 20 Sep dinner)" in line for line in remarks) is found


def test_what_nobody_can_tell_is_said_to_be_unknown():
    remarks = plan(a_kitchen(person(1, "bow", avoids="nuts"), parts=(("", ""), ("vegetable-stew", ""))), 1).remarks
    (line,) = [line for line in remarks if "Read the label" in line]
    assert "camp sauce" in line
    assert "vegetable-stew" in line
    said = plan(a_kitchen(person(1, "bow", avoids="glutamate")), 1).remarks
    assert any("glutamate, which is no food or kind known here" in line for line in said)


def test_a_mix_is_looked_into_where_its_ingredients_are_recorded():
    pot = Batch("vegetable-stew", prepared_mass=Mass(900.0), dried_mass=Mass(150.0), id=1)
    more = (
        pot,
        BatchPart(1, 0, "onion", Mass(300.0), id=1),
        Lot("vegetable-stew", DAY, batch=1, mass=Mass(150.0), id=1),
    )
    kitchen = a_kitchen(person(1, "bow", avoids="onion"), parts=(("vegetable-stew", ""),), more=more)
    part = kitchen.journal.get(MealPart, 1)
    kitchen.journal.kept[MealPart][1] = replace(part, lot=1)
    assert any("Bow does not eat" in line for line in plan(kitchen, 1).remarks)


def test_nobody_at_risk_is_given_meat_that_is_not_known_to_be_heated():
    kitchen = a_kitchen(person(1, "bow", at_risk=True), parts=(("turkey", ""),))
    assert any(line.startswith("Bow: at risk, and stew") for line in plan(kitchen, 1).remarks)
    plants = a_kitchen(person(1, "bow", at_risk=True))
    assert not any("at risk" in line for line in plan(plants, 1).remarks)


def test_spare_days_are_fed_and_carried_but_not_counted_as_days_on_the_way():
    trip = replace(TRIP, spare_days=1, layovers="2")
    kitchen = a_kitchen(trip=trip)
    put_meal(kitchen, 1, 1, DAY + timedelta(days=2))
    sheet = plan(kitchen, 1).sheet
    assert [day.spare for day in sheet.days] == [False, False, True]
    assert [day.layover for day in sheet.days] == [False, True, False]
    assert layovers_of(trip) == (DAY + timedelta(days=1),)
    assert len(days_of(trip)) == 3
    # two bags of 100 g a serving: one eaten in the two days of the trip
    assert sheet.grams_per_person_day.value == pytest.approx(50.0)
    assert [day.carried_per_person for day in sheet.days] == pytest.approx([200.0, 100.0, 100.0])


def test_people_are_saved_with_their_trip_and_leave_with_it():
    kitchen = a_kitchen()
    done = save_trip(kitchen, TRIP, [TripPerson(0, " bow  seat "), TripPerson(0, "stern", 120.0)])
    assert [p.name for p in people_of(kitchen, 1)] == ["bow seat", "stern"]
    bow, _ = people_of(kitchen, 1)
    save_trip(kitchen, TRIP, [replace(bow, avoids="onion")])
    assert [(p.id, p.avoids) for p in people_of(kitchen, 1)] == [(bow.id, "onion")]
    save_trip(kitchen, TRIP)
    assert len(people_of(kitchen, 1)) == 1
    with pytest.raises(InputProblem, match="appetite"):
        save_trip(kitchen, TRIP, [replace(bow, appetite_pct=900.0)])
    assert done.changes


def test_fuel_goes_by_her_own_grams_else_by_the_heat_with_a_named_assumption():
    kitchen = a_kitchen()
    fuel = plan(kitchen, 1).fuel
    assert fuel.grams is None
    boiled = fuel.water.value / 1000 * 4.19 * 90
    # the pot simmers 18 minutes: 0.02 ml a minute and cm² of a pot 15 cm across, 2257 kJ for each liter of it
    steamed = 18 * 0.02 * 3.14159 * 7.5**2 / 1000 * 2257
    assert fuel.heat.value == pytest.approx(boiled + steamed, rel=0.01)
    assert "if 50 % of it ends in the water (assumed)" in fuel_words(fuel, style(kitchen))
    set_fuel_per_liter(kitchen, Mass(9.0))
    own = plan(kitchen, 1).fuel
    # 9 g for a liter boiled from 10 to 100 °C, which takes 377.1 kJ
    assert own.grams.value == pytest.approx(9.0 * own.heat.value / 377.1)
    set_preference(kitchen, UNITS_KEY, "metric")
    assert fuel_words(own, style(kitchen)).endswith("g of fuel, by what you weighed for a liter")
    set_fuel_per_liter(kitchen, None)
    assert fuel_per_liter(kitchen) is None
    with pytest.raises(InputProblem, match="between 0 and 500 g"):
        set_fuel_per_liter(kitchen, Mass(900.0))


def test_a_cold_soak_takes_no_fuel():
    kitchen = a_kitchen()
    kitchen.journal.kept[Meal][1] = Meal("stew", 1.0, cooking="cold soak", id=1)
    fuel = plan(kitchen, 1).fuel
    assert fuel.heat.value == 0.0
    assert fuel_words(fuel, style(kitchen)) == ""


def test_bags_of_one_meal_are_told_of_once_with_their_days():
    kitchen = a_kitchen(person(1, "bow", avoids="meat", at_risk=True), parts=(("turkey", ""),))
    put_meal(kitchen, 1, 1, DAY + timedelta(days=1))
    said = [line for line in plan(kitchen, 1).remarks if line.startswith("Bow")]
    assert said == [
        "Bow does not eat turkey, which is in stew (2 days, 20 Sep to 21 Sep dinner).",
        "Bow: at risk, and stew (2 days, 20 Sep to 21 Sep dinner) holds home-dried animal food that is not known "
        "to be heated.",
    ]
