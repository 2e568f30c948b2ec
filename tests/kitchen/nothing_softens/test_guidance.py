"""What a stop asks for, what is said of plants that need care, whose rule it is, and how long food keeps."""

from __future__ import annotations

from dataclasses import replace

import pytest

from dryhouse.handbook.safety_table import safety_rules
from dryhouse.kitchen.cautions.cautions import (
    batch_cautions,
    cautions_for,
    food_cautions,
    lot_cautions,
    meal_cautions,
)
from dryhouse.kitchen.meals.sheet import sheet_of
from dryhouse.kitchen.records import Batch, Meal, MealPart
from dryhouse.kitchen.shelf.packing import Package
from dryhouse.kitchen.shelf.shelf import NothingPublished, keeps
from dryhouse.science.quantities import Duration, Mass
from dryhouse.science.safety import BatchFacts, FoodFacts, LotFacts, MealFacts
from dryhouse.science.units import to_celsius
from tests.kitchen.nothing_softens.caution_room import a_meal, not_to_be_eaten, rules
from tests.kitchen.shelf_room import HEATED, PANTRY, a_batch, a_shelf, packed, shelf_line
from tests.rows import every_row

# --- questions with an answer ------------------------------------------------------------------------------


def test_mushrooms_are_not_eaten_until_somebody_says_who_knows_them():
    unknown = a_batch("mushroom")
    assert "mushroom-kind" in not_to_be_eaten(batch_cautions(a_shelf(unknown), unknown))
    for who in ("bought", "the county mushroom society"):
        known = a_batch("mushroom", identified=who)
        assert "mushroom-kind" not in rules(batch_cautions(a_shelf(known), known))
    assert "mushroom-kind" in rules(food_cautions(a_shelf(), "mushroom"))


@pytest.mark.parametrize("slug", ["garlic", "basil"])
def test_oil_is_a_stop_only_where_it_is_packed_in_oil(slug):
    kitchen = a_shelf(a_batch(slug, dried_mass=Mass(150.0)))
    lot = packed(kitchen)
    assert not {r for r in rules(lot_cautions(kitchen, lot)) if r.startswith("oil")}
    assert "oil-never-garlic" in rules(food_cautions(kitchen, slug), "warn")
    assert "oil-never-garlic" in rules(batch_cautions(kitchen, kitchen.journal.get(Batch, 1)), "warn")
    oily = replace(lot, in_oil=True)
    assert "oil-not-cold" in not_to_be_eaten(lot_cautions(kitchen, oily))


def test_raw_beans_are_told_to_soak_pour_off_and_boil_until_they_are_recorded_as_cooked():
    raw = a_batch("kidney-bean", made_from="fresh")
    (stop,) = [c for c in batch_cautions(a_shelf(raw), raw) if c.rule == "beans-not-boiled"]
    assert "at least 5 hours, pour the water off" in stop.text
    assert "30 minutes" in stop.text
    assert not stop.forbids_eating
    for made_from in ("cooked", "canned"):
        done = a_batch("kidney-bean", made_from=made_from)
        assert "beans-not-boiled" not in rules(batch_cautions(a_shelf(done), done))


# --- what nobody knows, and guidance that was missing ------------------------------------------------------


@every_row("kind", ["", "plant", "MEAT", "Vegetable", "vegetables", None])
def test_a_kind_that_is_none_is_unknown_food_and_treated_as_animal(kind):
    facts = FoodFacts("supper", kind)
    assert {"unknown food", "animal"} <= facts.kinds
    assert {"ingredients-unknown", "heat-poultry-missing"} <= rules(cautions_for(BatchFacts(facts)))


@every_row(
    ("name", "rule", "severity"),
    [
        ("elderberry", "elderberry", "warn"),
        ("Elderberries", "elderberry", "warn"),
        ("rhubarb", "rhubarb-leaves", "warn"),
        ("taro root", "taro", "warn"),
        ("cassava flour", "cassava", "stop"),
        ("apricot kernels", "bitter-kernels", "stop"),
        ("comfrey leaves", "comfrey", "stop"),
        ("bracken", "bracken", "stop"),
        ("fiddleheads", "fiddleheads", "warn"),
        ("mung bean sprouts", "raw-sprouts", "warn"),
    ],
)
def test_a_plant_that_needs_care_says_so_on_food_batch_jar_and_meal(name, rule, severity):
    facts = FoodFacts(name, "vegetable", frozenset({"vegetable"}))
    batch = BatchFacts(facts, set_temperature_c=52.0)
    lot = LotFacts(facts, batch)
    for surface in (facts, batch, lot, MealFacts((lot,))):
        assert rule in rules(cautions_for(surface), severity), surface


def test_potatoes_are_peeled_of_what_is_green_and_sweet_potatoes_are_not_meant():
    kitchen = a_shelf()
    assert "green-potato" in rules(food_cautions(kitchen, "potato"), "note")
    for other in ("sweet-potato", "brussels-sprout", "corn", "bean"):
        said = {c.rule for c in food_cautions(kitchen, other)} if other != "bean" else set()
        assert not said & {"green-potato", "raw-sprouts", "bitter-kernels"}


@every_row(
    ("slug", "rule", "severity"),
    [
        ("pork-jerky", "trichinella-freezing", "warn"),
        ("bear", "trichinella-freezing", "warn"),
        ("turkey", "outdoor-drying", "stop"),
        ("turkey", "risk-people", "warn"),
        ("avocado", "fatty-plants", "note"),
        ("chili-bean", "beans-boil", "warn"),
    ],
)
def test_guidance_that_was_missing_is_said_of_the_food(slug, rule, severity):
    assert rule in rules(food_cautions(a_shelf(), slug), severity)


def test_what_is_said_of_leftovers_and_of_perishable_food_stands_on_the_meal():
    kitchen = a_meal(MealPart(1, 0, "turkey", "turkey", mass=Mass(50.0), id=1))
    said = meal_cautions(kitchen, kitchen.journal.get(Meal, 1))
    assert {"no-leftovers", "no-cold-source", "heat-to-165", "risk-people"} <= rules(said, "warn")
    assert "leftovers-cold" in rules(said, "note")


def test_an_absorber_is_stopped_with_fruit_and_fatty_food():
    kitchen = a_shelf(a_batch("apple"))
    lot = packed(kitchen, package=Package("jar with absorber", place=PANTRY))
    assert "absorber-limits" in rules(lot_cautions(kitchen, lot))
    kitchen = a_shelf(a_batch("corn"))
    lot = packed(kitchen, package=Package("jar with absorber", place=PANTRY))
    assert "absorber-limits" not in rules(lot_cautions(kitchen, lot))


def test_sulfite_is_told_with_its_ten_milligrams():
    batch = a_batch("apple", pretreatment="sulfite dip")
    (said,) = [c for c in batch_cautions(a_shelf(batch), batch) if c.rule == "sulfite"]
    assert "10 milligrams" in said.text


# --- sources -----------------------------------------------------------------------------------------------


OWN = {
    *("cold-soak-animal", "ingredients-unknown", "defer-animal", "bought-animal", "dryer-too-cool", "odd-smell"),
    *("risk-people", "heat-method", "heat-implausible", "airless-not-dry", "not-dry-thrown-out", "left-moist"),
}


def test_our_own_rules_are_called_so_and_nothing_is_called_recalled():
    for rule in safety_rules():
        if rule.id in OWN:
            assert rule.source.startswith("our own rule"), rule.id
        assert "recalled" not in rule.source, rule.id
    unchecked = {r.id for r in safety_rules() if "from memory, not yet checked" in r.source}
    assert unchecked == {"dairy-not-at-home", "absorber-limits", "taro"}


# --- keeping -----------------------------------------------------------------------------------------------


@every_row(
    ("slug", "fahrenheit"), [("salmon", 70), ("salmon", 41), ("turkey", 71), ("beef-jerky", 90), ("chili-meat", 75)]
)
def test_meat_and_fish_have_no_invented_keeping_time(slug, fahrenheit):
    with pytest.raises(NothingPublished, match="refrigerate or freeze it") as told:
        keeps(a_shelf(), slug, to_celsius(fahrenheit))
    assert rules(told.value.cautions)


def test_fish_has_no_keep_by_in_the_pantry_and_meat_in_the_heat_at_most_its_room_limit():
    kitchen = a_shelf(a_batch("salmon", **HEATED, precook_held=Duration(1800.0, "30 min"), dried_mass=Mass(330.0)))
    assert shelf_line(kitchen, packed(kitchen).id).keep_by is None


def test_a_meal_that_names_a_jar_that_must_not_be_eaten_says_so_and_no_water():
    kitchen = a_shelf(a_batch("turkey"), Meal("soup", id=1))
    lot = packed(kitchen)
    part = MealPart(1, 1, "turkey", "turkey", lot=lot.id, mass=Mass(50.0))
    assert sheet_of(kitchen, kitchen.journal.get(Meal, 1), [part]).forbidden.startswith("Do not eat.")
    planned = sheet_of(kitchen, kitchen.journal.get(Meal, 1), [replace(part, lot=None)])
    assert planned.forbidden == ""
