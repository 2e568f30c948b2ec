"""No caution is lost by what a food is called, what is mixed into it, or where it was bought."""

from __future__ import annotations

from datetime import timedelta

import pytest

from dryhouse.kitchen.batches.log import BatchDraft, delete_batch, edit_batch
from dryhouse.kitchen.cautions.cautions import (
    food_cautions,
    lot_cautions,
)
from dryhouse.kitchen.foods.catalog import food
from dryhouse.kitchen.foods.own_foods import add_food
from dryhouse.kitchen.ports import Change
from dryhouse.kitchen.records import BatchPart, Meal, MealPart
from dryhouse.kitchen.shelf.lots import edit_lot, open_lot
from dryhouse.kitchen.shelf.packing import Package, shelve
from dryhouse.kitchen.shelf.shelf import keeps
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Mass
from tests.kitchen.nothing_softens.caution_room import rules
from tests.kitchen.shelf_room import FREEZER, HEATED, PANTRY, TODAY, a_batch, a_shelf, packed, shelf_line
from tests.rows import every_row

# --- names -------------------------------------------------------------------------------------------------


@every_row("name", ["Turkey", "beef mince", "Deer", "eggs", "hard cheese"])
def test_an_animal_foods_name_is_not_given_to_a_plant(name):
    kitchen = a_shelf()
    with pytest.raises(InputProblem, match=r"food from an animal|is already a food"):
        add_food(kitchen, name, "vegetable", contains=("plant",))
    with pytest.raises(InputProblem, match="food from an animal"):
        add_food(kitchen, "garden strips", "vegetable", contains=("plant",), other_names=(name,))
    with pytest.raises(InputProblem, match=r"food from an animal|is already a food"):
        add_food(kitchen, name, "mixed", contains=("plant",), like="corn")
    assert rules(food_cautions(kitchen, name))


def test_an_own_animal_food_keeps_its_kind_and_that_of_the_food_it_is_like():
    kitchen = a_shelf()
    add_food(kitchen, "duck strips", "poultry", like="beef-jerky")
    said = rules(food_cautions(kitchen, "duck strips"))
    assert {"heat-poultry-missing", "heat-meat-missing"} <= said


def test_an_own_food_like_an_animal_one_is_one_whatever_kind_is_chosen():
    kitchen = a_shelf()
    add_food(kitchen, "camp strips", "vegetable", like="turkey")
    assert food(kitchen, "camp strips").animal
    assert "heat-poultry-missing" in rules(food_cautions(kitchen, "camp strips"))


def test_a_mix_of_which_nothing_is_said_is_treated_as_meat():
    kitchen = a_shelf()
    add_food(kitchen, "beef stew", "mixed")
    assert "ingredients-unknown" in rules(food_cautions(kitchen, "beef stew"))
    assert keeps(kitchen, "beef stew", 20.0).value == keeps(kitchen, "beef-jerky", 20.0).value


# --- mixes -------------------------------------------------------------------------------------------------


TWO = (BatchPart(1, 0, "corn", Mass(500.0), id=1), BatchPart(1, 1, "turkey", Mass(500.0), id=2))


def test_a_vegetable_with_meat_in_it_is_meat_on_the_shelf_and_keeps_as_meat():
    kitchen = a_shelf(a_batch("corn"), *TWO)
    lot = packed(kitchen)
    assert "heat-poultry-missing" in rules(lot_cautions(kitchen, lot))
    kitchen = a_shelf(a_batch("corn", **HEATED), *TWO)
    lot = packed(kitchen)
    meat = a_shelf(a_batch("turkey", **HEATED))
    until = shelf_line(meat, packed(meat).id).keep_by
    assert until is not None
    assert shelf_line(kitchen, lot.id).keep_by == until


def test_meat_with_only_its_vegetables_listed_still_keeps_as_meat():
    dry = a_batch("turkey", dried_mass=Mass(240.0), **HEATED)
    kitchen = a_shelf(dry, BatchPart(1, 0, "corn", Mass(1000.0), id=1))
    meat = a_shelf(a_batch("turkey", **HEATED))
    assert (
        shelf_line(kitchen, packed(kitchen).id).keep_by
        == shelf_line(meat, packed(meat).id).keep_by
        == TODAY - timedelta(days=30 - 14)
    )


def test_a_leather_whose_fruit_is_listed_keeps_as_a_leather():
    kitchen = a_shelf(a_batch("fruit-leather"), BatchPart(1, 0, "apple", Mass(1000.0), id=1))
    plain = a_shelf(a_batch("fruit-leather"))
    assert shelf_line(kitchen, packed(kitchen).id).keep_by == shelf_line(plain, packed(plain).id).keep_by


def test_what_is_in_a_jar_is_not_lost_with_its_batch():
    kitchen = a_shelf(a_batch("corn"), *TWO)
    lot = packed(kitchen)
    with pytest.raises(InputProblem, match="only the batch says"):
        delete_batch(kitchen, 1)
    assert "heat-poultry-missing" in rules(lot_cautions(kitchen, lot))


def test_a_jar_whose_batch_is_deleted_is_not_taken_for_a_bought_one():
    kitchen = a_shelf(a_batch("turkey", **HEATED))
    lot = packed(kitchen, place=FREEZER)
    assert not {r for r in rules(lot_cautions(kitchen, lot)) if r.startswith("heat-")}
    delete_batch(kitchen, 1)
    (lot,) = kitchen.journal.where(type(lot))
    assert "heat-poultry-missing" in rules(lot_cautions(kitchen, lot))
    assert shelf_line(kitchen, lot.id).standing == "do not eat"


def test_a_precook_struck_from_the_batch_is_missed_on_the_shelf_at_once():
    kitchen = a_shelf(a_batch("turkey", **HEATED))
    lot = packed(kitchen, place=FREEZER)
    assert shelf_line(kitchen, lot.id).standing == "keeping"
    edit_batch(kitchen, 1, BatchDraft(a_batch("turkey")))
    assert shelf_line(kitchen, lot.id).standing == "do not eat"


def test_a_batch_put_right_to_meat_makes_its_jars_meat():
    kitchen = a_shelf(a_batch("corn"), Meal("supper", id=1))
    lot = packed(kitchen)
    kitchen.journal.write([Change(None, MealPart(1, 0, "corn", "corn", lot=lot.id, mass=Mass(50.0), id=1))])
    edit_batch(kitchen, 1, BatchDraft(a_batch("turkey", **HEATED)))
    (lot,) = kitchen.journal.where(type(lot))
    meat = a_shelf(a_batch("turkey", **HEATED))
    assert lot.food == "turkey"
    jar = packed(meat)
    until = shelf_line(meat, jar.id).keep_by
    assert until is not None
    assert shelf_line(kitchen, lot.id).keep_by == until
    assert rules(lot_cautions(kitchen, lot)) == rules(lot_cautions(meat, jar))
    assert kitchen.journal.get(MealPart, 1).lot is None


# --- bought ------------------------------------------------------------------------------------------------


def test_a_bought_package_that_is_opened_no_longer_goes_by_its_date_alone():
    kitchen = a_shelf()
    far = TODAY + timedelta(days=400)
    lot = shelve(kitchen, "beef jerky", Package("bag", Mass(200.0), place=PANTRY), far, bought_on=TODAY).record
    assert shelf_line(kitchen, lot.id).keep_by == far
    open_lot(kitchen, lot.id)
    assert shelf_line(kitchen, lot.id).keep_by == TODAY + timedelta(days=14)


def test_an_opened_package_never_outlives_its_date():
    kitchen = a_shelf()
    near = TODAY + timedelta(days=5)
    lot = shelve(kitchen, "beef jerky", Package("bag", Mass(200.0), place=PANTRY), near, bought_on=TODAY).record
    open_lot(kitchen, lot.id)
    assert shelf_line(kitchen, lot.id).keep_by == near


def test_a_date_written_on_a_home_dried_lot_does_not_make_it_bought():
    kitchen = a_shelf(a_batch("turkey", **HEATED))
    lot = packed(kitchen, place=FREEZER)
    before = shelf_line(kitchen, lot.id).keep_by
    far = TODAY + timedelta(days=900)
    edit_lot(kitchen, type(lot)(**{f: getattr(lot, f) for f in lot.__slots__} | {"bought_keep_by": far}))
    line = shelf_line(kitchen, lot.id)
    assert (line.keep_by, line.standing) == (before, "keeping")


def test_bought_dried_egg_is_not_called_home_dried_but_keeps_its_cautions():
    kitchen = a_shelf()
    lot = shelve(kitchen, "egg", Package("bag", Mass(200.0), place=PANTRY), TODAY + timedelta(days=90)).record
    assert "egg-not-at-home" not in rules(lot_cautions(kitchen, lot))
    assert {"bought-animal", "defer-animal"} <= rules(lot_cautions(kitchen, lot), "warn")
    assert "egg-not-at-home" in rules(food_cautions(kitchen, "egg"))
