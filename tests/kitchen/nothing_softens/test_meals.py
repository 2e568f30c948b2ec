"""No caution is lost on the way into a meal, a bag or a trip, and none is made up there."""

from __future__ import annotations

from datetime import timedelta

import pytest

from dryhouse.handbook.staples import staples
from dryhouse.kitchen.cautions.cautions import (
    Preparation,
    food_cautions,
    meal_cautions,
)
from dryhouse.kitchen.exchange.meal_files import bring_meal, meal_text
from dryhouse.kitchen.foods.own_foods import add_food
from dryhouse.kitchen.meals.sheet import meal_sheet
from dryhouse.kitchen.records import Batch, Meal, MealPart, Trip, TripMeal
from dryhouse.kitchen.records.meals import COLD_SOAK
from dryhouse.kitchen.trips.bag_labels import bag_labels
from dryhouse.kitchen.trips.lots import lots_for
from dryhouse.kitchen.trips.provisioning import plan
from dryhouse.science.display import Style
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Mass, Temperature
from tests.kitchen.nothing_softens.caution_room import MEAT, a_meal, rules
from tests.kitchen.shelf_room import HEATED, NOW, TODAY, a_batch, a_shelf, packed
from tests.rows import every_row

SALAMI = MealPart(1, 0, "salami", staple="salami-dry", mass=Mass(50.0), id=1)


def test_a_thing_known_by_its_label_alone_is_what_its_name_says_in_any_language():
    for name in ("kangaroo steak", "Hühnersuppe", "queso fresco"):
        soaked = a_meal(MealPart(1, 0, name, mass=Mass(50.0), id=1), cooking=COLD_SOAK)
        assert "cold-soak-animal" in rules(meal_sheet(soaked, 1).cautions), name


def test_a_bought_animal_ingredient_has_its_cautions_on_the_meal():
    cautions = meal_sheet(a_meal(SALAMI), 1).cautions
    assert {"bought-animal", "heat-to-165", "defer-animal"} <= rules(cautions, "warn")
    assert not any(rule.startswith("heat-meat") for rule in rules(cautions))


@every_row(
    ("part", "rule", "severity"),
    [
        (SALAMI, "cold-soak-bought", "warn"),
        (MealPart(1, 0, "camp beef crumbles", mass=Mass(50.0), id=1), "cold-soak-animal", "stop"),
        (MealPart(1, 0, "trail mince, cooked", mass=Mass(50.0), id=1), "cold-soak-animal", "stop"),
        (MealPart(1, 0, "crunchy bits", mass=Mass(50.0), id=1), "cold-soak-label", "warn"),
        (MealPart(1, 0, "turkey", "turkey", mass=Mass(50.0), id=1), "cold-soak-animal", "stop"),
        (MealPart(1, 0, "kidney bean", "kidney-bean", mass=Mass(50.0), id=1), "cold-soak-beans", "stop"),
        (MealPart(1, 0, "shiitake", "shiitake", mass=Mass(50.0), id=1), "cold-soak-mushroom", "stop"),
    ],
)
def test_a_cold_soak_is_never_silent_about_what_it_does_not_heat(part, rule, severity):
    kitchen = a_meal(part, cooking=COLD_SOAK)
    assert rule in rules(meal_sheet(kitchen, 1).cautions, severity)
    assert rule in rules(meal_cautions(kitchen, kitchen.journal.get(Meal, 1)), severity)


def a_trip(*records, **more):
    start = TODAY + timedelta(days=2)
    given = {"people": 2, "temperature": Temperature(25.0), **more}
    return a_shelf(
        Meal("supper", servings=2, cooking=COLD_SOAK, id=1),
        Trip("lakes", start, start + timedelta(days=2), id=1, **given),
        TripMeal(1, 1, start + timedelta(days=1), id=1),
        *records,
    )


def test_the_bags_label_says_what_the_meals_card_says():
    kitchen = a_trip(SALAMI)
    (label,) = bag_labels(plan(kitchen, 1), Style())
    assert "cold-soak-bought" in {c.rule for c in label.cautions}


def test_a_meal_from_another_kitchen_brings_its_cautions_along():
    there = a_meal(MealPart(1, 0, "goat strips", "goat-strips", mass=Mass(50.0), id=1), cooking=COLD_SOAK)
    here = a_shelf()
    bring_meal(here, meal_text(there, 1))
    (meal,) = here.journal.where(Meal)
    assert "cold-soak-animal" in rules(meal_cautions(here, meal))


def test_another_kitchens_meat_is_not_taken_for_this_kitchens_vegetable():
    there = a_meal(MealPart(1, 0, "camp strips", "camp-strips", mass=Mass(50.0), id=1))
    add_food(there, "camp strips", "poultry")
    here = a_shelf()
    add_food(here, "camp strips", "vegetable", contains=("plant",))
    with pytest.raises(InputProblem, match="animal food where this meal comes from"):
        bring_meal(here, meal_text(there, 1))
    assert here.journal.where(Meal) == ()
    elsewhere = a_shelf()
    bring_meal(elsewhere, meal_text(there, 1))
    (meal,) = elsewhere.journal.where(Meal)
    assert "heat-poultry-missing" in rules(meal_cautions(elsewhere, meal))


# --- trips -------------------------------------------------------------------------------------------------


CORN = MealPart(1, 0, "corn", "corn", mass=Mass(50.0), id=1)


def coming(kitchen, slug):
    (found,) = lots_for(kitchen, kitchen.journal.get(Trip, 1), (slug,))
    return found


def test_an_unpacked_batch_without_its_precook_is_not_eaten_on_the_trip():
    kitchen = a_trip(MEAT, a_batch("turkey", trip=1, ended=NOW - timedelta(days=1)))
    assert (coming(kitchen, "turkey").last_day, plan(kitchen, 1).cover.draws) == (None, ())
    assert "No record of heating" in coming(kitchen, "turkey").why


def test_an_unpacked_batch_of_meat_does_not_serve_past_its_keep_by():
    fresh = a_trip(MEAT, a_batch("turkey", trip=1, ended=NOW - timedelta(days=1), **HEATED))
    assert coming(fresh, "turkey").last_day == fresh.journal.get(Trip, 1).ends_on
    old = a_trip(MEAT, a_batch("turkey", trip=1, ended=NOW - timedelta(days=20), **HEATED))
    assert coming(old, "turkey").last_day is None
    assert plan(old, 1).cover.draws == ()


def test_an_unpacked_batch_that_is_not_dry_is_not_counted_on():
    wet = a_trip(CORN, a_batch("corn", trip=1, dried_mass=Mass(700.0)))
    assert coming(wet, "corn").last_day is None
    dry = a_trip(CORN, a_batch("corn", trip=1))
    assert coming(dry, "corn").last_day == dry.journal.get(Trip, 1).ends_on


def test_a_batch_still_on_the_dryer_counts_as_it_will_come_out():
    drying = Batch("corn", state="drying", prepared_mass=Mass(1000.0), started=NOW, trip=1, id=1)
    assert coming(a_trip(CORN, drying), "corn").last_day is not None


# --- no false stops ----------------------------------------------------------------------------------------


@every_row("slug", ["salami-dry", "hard-cheese", "milk-nonfat-dry", "milk-whole-dry"])
def test_bought_food_in_a_cold_soak_goes_by_its_package(slug):
    assert slug in staples()
    kitchen = a_meal(MealPart(1, 0, slug, staple=slug, mass=Mass(50.0), id=1), cooking=COLD_SOAK)
    said = meal_cautions(kitchen, kitchen.journal.get(Meal, 1), made=Preparation(soak_minutes=30.0))
    assert "cold-soak-animal" not in rules(said)
    assert "cold-soak-bought" in rules(said, "warn")


@every_row(("made_from", "speaks"), [("canned", False), ("cooked", False), ("fresh", True)])
def test_canned_beans_in_a_cold_soak_are_not_called_raw(made_from, speaks):
    kitchen = a_shelf(a_batch("white-bean", made_from=made_from), Meal("supper", cooking=COLD_SOAK, id=1))
    lot = packed(kitchen)
    part = MealPart(1, 0, "white bean", "white-bean", lot=lot.id, mass=Mass(50.0), id=1)
    said = rules(meal_cautions(kitchen, kitchen.journal.get(Meal, 1), [part], Preparation(soak_minutes=30.0)))
    assert ("cold-soak-beans" in said) is speaks
    assert ("beans-not-boiled" in said) is speaks


@every_row("slug", ["tofu", "lentil", "hummus", "split-pea", "egg-noodles", "applesauce", "chickpea"])
def test_plain_food_has_no_caution_of_another_one(slug):
    said = {c.rule for c in food_cautions(a_shelf(), slug)}
    assert not said & {"beans-boil", "beans-not-boiled", "holds-egg", "mixed-meals", "staph-toxin", "heat-to-165"}
    assert not rules(food_cautions(a_shelf(), slug))


# --- water and heat ----------------------------------------------------------------------------------------


def test_an_hour_is_the_limit_where_the_trip_is_hotter_than_ninety():
    kitchen = a_meal(MealPart(1, 0, "corn", "corn", mass=Mass(50.0), id=1), cooking=COLD_SOAK)
    meal = kitchen.journal.get(Meal, 1)
    hot = meal_cautions(kitchen, meal, made=Preparation(soak_minutes=90.0, soak_temperature_c=36.0))
    assert "soak-one-hour-hot" in rules(hot)
    cool = meal_cautions(kitchen, meal, made=Preparation(soak_minutes=90.0, soak_temperature_c=25.0))
    assert not {r for r in rules(cool) if r.startswith("soak")}


@every_row(("altitude_m", "once"), [(None, "3 min"), (300.0, "1 min"), (2000.0, "3 min")])
def test_water_is_boiled_once_and_the_longer_where_the_height_is_unknown(altitude_m, once):
    kitchen = a_meal(MealPart(1, 0, "corn", "corn", mass=Mass(50.0), id=1))
    said = meal_cautions(kitchen, kitchen.journal.get(Meal, 1), made=Preparation(altitude_m=altitude_m))
    assert [c.short for c in said if "Boil water" in c.short] == [f"Boil water {once}"]
