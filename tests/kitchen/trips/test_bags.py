"""A bag of a trip, whole: where each ingredient comes from, its water and minutes, its label, the trip's fuel."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta

import pytest

from dryhouse.handbook.reader import handbook
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.meals.heat import set_fuel_per_liter
from dryhouse.kitchen.meals.holds import Holds
from dryhouse.kitchen.ports import Record
from dryhouse.kitchen.records import Lot, Meal, MealPart, Trip, TripMeal, TripPerson
from dryhouse.kitchen.settings import UNITS_KEY, set_preference
from dryhouse.kitchen.trips.bag_labels import bag_labels
from dryhouse.kitchen.trips.fuel import fuel_words, trip_fuel
from dryhouse.kitchen.trips.people import not_known_here, words_of
from dryhouse.kitchen.trips.provisioning import plan
from dryhouse.kitchen.trips.shopping import buy_as
from dryhouse.science.display import METRIC, Style
from dryhouse.science.quantities import Length, Mass, Temperature, Volume
from tests.fakes import FakeJournal
from tests.rows import every_row

DAY = date(2026, 8, 20)
TRIP = Trip("lakes", DAY, DAY + timedelta(days=1), 2, 2500.0, Temperature(18.0), id=1)
GRAMS = Style(METRIC)
STEW = Meal("stew", 1.0, id=1)
CARROT = MealPart(1, 0, "carrot", "carrot", mass=Mass(30.0), id=1)
RICE = MealPart(1, 1, "rice", staple="rice-white", mass=Mass(80.0), id=2)
FLAKES = MealPart(1, 1, "flakes", staple="potato-flakes", mass=Mass(80.0), id=2)


def lot(id: int, food: str, grams: float, days: int = 300) -> Lot:
    until = DAY + timedelta(days=days)
    return Lot(food, date(2026, 7, 1), mass=Mass(grams), bought_keep_by=until, origin="bought", id=id)


def a_kitchen(*more: Record, meal: Meal = STEW, trip: Trip = TRIP) -> Kitchen:
    journal = FakeJournal(meal, trip, TripMeal(1, 1, DAY, id=1), *more)
    made = Kitchen(journal, handbook(), lambda: datetime(2026, 8, 1, 9, tzinfo=UTC), UTC)
    set_preference(made, UNITS_KEY, "metric")
    return made


@every_row(
    ("lots", "source"),
    [
        ((), "to be dried"),
        ((lot(1, "carrot", 60.0),), "carrot, lot 1"),
        ((lot(1, "carrot", 59.5),), "carrot, lot 1"),
        ((lot(1, "carrot", 59.0),), "59 g of carrot, lot 1, 1 g to be dried"),
        ((lot(1, "carrot", 20.0), lot(2, "carrot", 90.0, 400)), "20 g of carrot, lot 1, 40 g of carrot, lot 2"),
        (
            (lot(1, "carrot", 20.0), lot(2, "carrot", 10.0, 400)),
            "20 g of carrot, lot 1, 10 g of carrot, lot 2, 30 g to be dried",
        ),
    ],
)
def test_dried_food_comes_from_its_lots_and_the_rest_is_dried(lots: tuple[Lot, ...], source: str) -> None:
    (bag,) = plan(a_kitchen(CARROT, *lots), 1).bags
    assert [(part.name, part.grams, part.source) for part in bag.parts] == [("carrot", 60.0, source)]
    if source.endswith("to be dried"):
        kitchen = a_kitchen(CARROT, *lots)
        buy_as(kitchen, "carrot", "dried")
        (bag,) = plan(kitchen, 1).bags
        assert bag.parts[0].source == source.replace("to be dried", "to be bought dried")


FLAKES_LOT = "potato flakes, lot 1"


@every_row(
    ("part", "lots", "source"),
    [
        (FLAKES, (), "bought"),
        (FLAKES, (lot(1, "potato-flakes", 200.0),), FLAKES_LOT),
        (FLAKES, (lot(1, "potato-flakes", 159.5),), FLAKES_LOT),
        (FLAKES, (lot(1, "potato-flakes", 100.0),), f"100 g of {FLAKES_LOT}, 60 g bought"),
        (replace(FLAKES, mass=None), (), "bought"),
        (MealPart(1, 1, "sauce", volume=Volume(9.0), id=2), (), "bought"),
    ],
)
def test_what_is_bought_comes_from_the_shelf_first(part: MealPart, lots: tuple[Lot, ...], source: str) -> None:
    (bag,) = plan(a_kitchen(part, *lots), 1).bags
    assert [one.source for one in bag.parts] == [source]


def test_a_bag_says_its_water_and_minutes_and_where_it_must_not_be_eaten_neither() -> None:
    worked = plan(a_kitchen(CARROT, RICE), 1)
    (bag,) = worked.bags
    (eaten,) = worked.sheet.days[0].meals
    assert (bag.day, bag.slot, bag.meal, bag.name, bag.servings) == (DAY, "dinner", 1, "stew", 2.0)
    assert (bag.soak_minutes, bag.cook_minutes, bag.cooking) == (20.0, 18.0, "Soak 20 min, simmer 18 min")
    assert bag.water == eaten.sheet.bag.water
    assert [part.water for part in bag.parts] == [line.water for line in eaten.sheet.parts]
    assert all(part.water for part in bag.parts)
    assert (bag.forbidden, bag.to_weigh) == (False, "")
    assert bag.pot(GRAMS) == f"{GRAMS.figure(bag.water)} of water, soak 20 min, simmer 18 min"
    assert bag.inside == ("Ingredients: rice, carrot", "Allergens: none known by name.")
    assert replace(bag, holds=Holds()).inside == ()
    meat = MealPart(1, 2, "turkey", "turkey", mass=Mass(30.0), id=3)
    (raw,) = plan(a_kitchen(meat, CARROT), 1).bags
    assert (raw.forbidden, raw.water, raw.soak_minutes, raw.cook_minutes, raw.cooking) == (
        True,
        None,
        None,
        None,
        "",
    )
    assert [part.water for part in raw.parts] == [None, None]
    assert raw.pot(GRAMS) == "do not eat"


def test_what_has_to_be_weighed_first_stands_in_place_of_the_water() -> None:
    honey = MealPart(1, 2, "honey", staple="honey", volume=Volume(15.0), id=3)
    (bag,) = plan(a_kitchen(honey, CARROT), 1).bags
    assert (bag.water, bag.to_weigh) == (None, "weigh one cup of honey")
    assert bag.pot(GRAMS).startswith("weigh one cup of honey, soak 20 min")


def test_what_needs_no_pot_has_no_minutes_and_water_only_where_it_is_drunk() -> None:
    no_pot = Meal("lunch", 1.0, "no pot", id=1)
    (dry,) = plan(a_kitchen(CARROT, meal=no_pot), 1).bags
    assert (dry.water, dry.soak_minutes, dry.cook_minutes) == (None, None, None)
    assert dry.pot(GRAMS) == "eaten as it is, no cooking"
    lemon = MealPart(1, 0, "lemon", mass=Mass(10.0), label_water=Volume(2500.0), id=1)
    (wet,) = plan(a_kitchen(lemon, meal=no_pot), 1).bags
    assert wet.water is not None
    assert (wet.water.value, wet.pot(GRAMS)) == (500.0, "500 ml of water, stir into cold water, no cooking")


def test_a_label_says_the_bag_in_its_lines() -> None:
    bar = MealPart(1, 0, "bar", mass=Mass(50.0), label_energy_kcal=400.0, id=1)
    kitchen = a_kitchen(bar, RICE)
    worked = plan(kitchen, 1)
    (label,) = bag_labels(worked, GRAMS)
    water = worked.bags[0].water
    assert water is not None
    # a serving: 200 kcal of bar, 80 g of rice at 365 kcal for 100 g are 292
    assert (label.title, label.moment) == ("Stew", "pot")
    assert label.lines == (
        "Thu 20 Aug, dinner",
        "For 2 · 260 g dry · 490 kcal each",
        f"Water {GRAMS.volume(water.value)}",
        "Simmer 18 min",
        "Ingredients: rice, bar",
        "Allergens: none known by name. Read the label of bar.",
    )
    assert label.cautions == worked.bags[0].cautions
    (bare,) = bag_labels(plan(a_kitchen(replace(bar, label_energy_kcal=None)), 1), GRAMS)
    assert bare.lines[1] == "For 2 · 100 g dry"
    meat = MealPart(1, 0, "turkey", "turkey", mass=Mass(30.0), id=1)
    (raw,) = bag_labels(plan(a_kitchen(meat), 1), GRAMS)
    assert not any("Water" in line or "immer" in line for line in raw.lines)
    assert len(raw.lines) == 4


def test_the_fuel_of_a_trip_is_that_of_every_pot_on_the_stove() -> None:
    second, cold = TripMeal(1, 1, DAY + timedelta(days=1), id=2), Meal("salad", 1.0, "cold soak", id=2)
    kitchen = a_kitchen(RICE, second, cold, replace(CARROT, meal=2, id=3), TripMeal(1, 2, DAY, id=3))
    sheet = plan(kitchen, 1).sheet
    pots = [eaten.sheet for day in sheet.days for eaten in day.meals if eaten.sheet.heat is not None]
    assert len(pots) == 2
    fuel = trip_fuel(kitchen, sheet)
    assert (fuel.water.value, fuel.water.unit) == (sum(pot.bag.water.value for pot in pots), "ml")
    assert fuel.heat.value == pytest.approx(sum(pot.heat.heat.value for pot in pots if pot.heat))
    assert fuel_words(fuel, GRAMS) == (
        f"boiling takes {fuel.heat.value / 1000:.1f} MJ of heat: {fuel.heat.value / 500:.1f} MJ of fuel if 50 % of "
        "it ends in the water (assumed)"
    )
    set_fuel_per_liter(kitchen, Mass(10.0))
    own = trip_fuel(kitchen, sheet)
    assert own.grams is not None
    assert fuel_words(own, GRAMS) == f"{GRAMS.mass(own.grams.value)} of fuel, by what you weighed for a liter"
    high = a_kitchen(RICE, trip=replace(TRIP, altitude=Length(3000e3)))
    assert (
        trip_fuel(high, plan(high, 1).sheet).heat.value
        != trip_fuel(a_kitchen(RICE), plan(a_kitchen(RICE), 1).sheet).heat.value
    )
    none = a_kitchen(trip=TRIP)
    assert fuel_words(trip_fuel(none, plan(none, 1).sheet), GRAMS) == ""


# --- what somebody does not eat -----------------------------------------------------------------------------------


@every_row(
    ("avoids", "part", "found"),
    [
        ("potatoes", MealPart(1, 0, "potato", "potato", id=1), True),
        ("Potato ", MealPart(1, 0, "mashed potatoes", id=1), True),
        ("rice,  carrots", RICE, True),
        ("white rice", RICE, True),
        ("wild rice", RICE, False),
        ("peas", MealPart(1, 0, "green pea", "green-pea", id=1), True),
        ("cress", MealPart(1, 0, "cress", id=1), True),
        ("cres", MealPart(1, 0, "cress", id=1), False),
        ("shellfish", MealPart(1, 0, "cod", "cod", id=1), False),
        ("fish", MealPart(1, 0, "cod", "cod", id=1), True),
        ("vegan", MealPart(1, 0, "egg", "egg", id=1), True),
        ("vegetarian", MealPart(1, 0, "egg", "egg", id=1), False),
        ("animal food", MealPart(1, 0, "egg", "egg", id=1), True),
        ("dairy", MealPart(1, 0, "milk", staple="milk-whole-dry", id=1), True),
        ("peanuts", MealPart(1, 0, "walnuts", staple="walnuts", id=1), False),
        *(
            (diet, MealPart(1, 0, food, food, id=1), food in found)
            for diet, found in (("vegan", ("turkey", "cod", "egg")), ("vegetarian", ("turkey", "cod")))
            for food in ("turkey", "cod", "egg", "carrot")
        ),
        ("vegan", MealPart(1, 0, "milk", staple="milk-whole-dry", id=1), True),
        ("peas", MealPart(1, 0, "pea mash", id=1), True),
        ("pea", MealPart(1, 0, "mash of peas", id=1), True),
        ("ham", MealPart(1, 0, "hams", id=1), True),
        ("", RICE, False),
    ],
)
def test_a_word_finds_what_is_of_its_kind_or_called_so(avoids: str, part: MealPart, found: bool) -> None:
    bow = TripPerson(1, "bow", avoids=avoids, id=1)
    kitchen = a_kitchen(replace(part, mass=Mass(20.0), lot=None), bow)
    said = [line for line in plan(kitchen, 1).remarks if line.startswith("Bow does not eat")]
    assert said == [f"Bow does not eat {part.name}, which is in stew (Thu 20 Aug dinner)."] * found


def test_words_nobody_knows_here_are_told_each_and_those_known_are_not() -> None:
    bow = TripPerson(1, "bow", avoids=" Onion ,, tree  nuts, glutamate, rice, fine dust", id=1)
    assert words_of(bow) == ("onion", "tree nuts", "glutamate", "rice", "fine dust")
    assert not_known_here(a_kitchen(), bow) == ("glutamate", "fine dust")


def test_what_only_its_label_knows_is_to_be_read_by_who_avoids_what_labels_tell() -> None:
    sauce = MealPart(1, 0, "sauce", mass=Mass(9.0), id=1)
    said = "Bow avoids {}; what is in sauce of stew is not recorded. Read the label."
    for avoids in ("nuts", "onion", "nuts, onion"):
        bow = TripPerson(1, "bow", avoids=avoids, id=1)
        remarks = plan(a_kitchen(sauce, bow), 1).remarks
        assert said.format(avoids) in remarks
    stern = TripPerson(1, "stern", at_risk=True, id=1)
    assert not any("stern" in line.casefold() for line in plan(a_kitchen(sauce, stern), 1).remarks)
