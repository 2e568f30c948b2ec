"""Records turned into cautions: what is not recorded speaks."""

from __future__ import annotations

from dataclasses import replace

import pytest

from dryhouse.kitchen.batches.dryness import verdicts_of
from dryhouse.kitchen.batches.log import BatchDraft
from dryhouse.kitchen.cautions.cautions import (
    batch_cautions,
    batch_facts,
    food_cautions,
    lot_cautions,
    lot_facts,
    meal_cautions,
)
from dryhouse.kitchen.records import Batch, BatchPart, Meal, MealPart, OwnFood
from dryhouse.kitchen.shelf.lots import check_lot, move
from dryhouse.kitchen.shelf.packing import Package, shelve
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Mass, Temperature
from tests.kitchen.shelf_room import FREEZER, HEATED, TODAY, a_batch, a_shelf, packed


def stops(cautions):
    return {c.rule for c in cautions if c.severity == "stop"}


def test_a_form_as_far_as_it_is_filled_in():
    kitchen = a_shelf()
    draft = BatchDraft(Batch("turkey"))
    assert stops(batch_cautions(kitchen, draft)) == {"heat-poultry-missing"}
    low = replace(draft, batch=Batch("turkey", precook_temperature=Temperature(60.0)))
    assert stops(batch_cautions(kitchen, low)) == {"heat-poultry-below", "heat-method"}
    said = replace(draft, batch=Batch("turkey", **{**HEATED, "precook_measured": "not measured"}))
    assert stops(batch_cautions(kitchen, said)) == {"heat-poultry-unmeasured"}
    assert stops(batch_cautions(kitchen, replace(draft, batch=Batch("turkey", **HEATED)))) == set()


def test_165_fahrenheit_as_typed_is_enough_for_poultry():
    kitchen = a_shelf()
    at = Temperature((165 - 32) / 1.8, "165 F")
    batch = Batch("turkey", **{**HEATED, "precook_temperature": at})
    assert stops(batch_cautions(kitchen, batch)) == set()


def test_a_mix_has_the_stops_of_its_ingredients():
    stew = OwnFood("stew", "paddlers' stew", "mixed", id=1)
    parts = (BatchPart(1, 1, "turkey", Mass(400.0), id=1), BatchPart(1, 2, "mushroom", Mass(100.0), id=2))
    kitchen = a_shelf(stew, Batch("stew", id=1), *parts)
    batch = kitchen.journal.get(Batch, 1)
    assert stops(batch_cautions(kitchen, batch)) == {"heat-poultry-missing", "mushroom-kind"}
    assert stops(batch_cautions(kitchen, batch, ())) == {"ingredients-unknown", "heat-poultry-missing"}


def test_a_food_that_is_no_longer_known_is_asked_about():
    kitchen = a_shelf()
    assert "ingredients-unknown" in stops(batch_cautions(kitchen, Batch("lost-food")))
    with pytest.raises(InputProblem):
        food_cautions(kitchen, "zzzzqqqq")


def test_a_lot_knows_its_place_its_checks_and_its_batch():
    kitchen = a_shelf(a_batch("turkey", **HEATED))
    lot = packed(kitchen, place=FREEZER)
    facts = lot_facts(kitchen, lot)
    assert facts.temperature_c == -18.0
    assert facts.dry_enough is True
    assert stops(lot_cautions(kitchen, lot)) == set()
    move(kitchen, [lot.id], 1)
    assert stops(lot_cautions(kitchen, lot)) == {"meat-room-limit"}
    check_lot(kitchen, lot.id, mould=True)
    assert "mould-seen" in stops(lot_cautions(kitchen, lot))


def test_weights_that_cannot_tell_are_unknown_not_passed():
    kitchen = a_shelf(
        a_batch(), a_batch(id=2, prepared_mass=None), a_batch(id=3, dried_mass=Mass(500.0)),
        a_batch(id=4, dried_mass=Mass(20.0)), a_batch("zucchini-lost", 5),
    )  # fmt: skip
    told = [verdicts_of(kitchen, kitchen.journal.get(Batch, n))[1].dry for n in range(1, 6)]
    assert told == [True, None, False, None, None]


def test_measured_means_a_thermometer():
    kitchen = a_shelf()
    for words, known in (("thermometer", True), ("not measured", False), ("", None), ("by eye", False)):
        assert batch_facts(kitchen, Batch("turkey", precook_measured=words)).precook_measured is known


def test_bought_jerky_goes_by_its_maker():
    kitchen = a_shelf()
    lot = shelve(kitchen, "beef jerky", Package("bag", place=FREEZER), TODAY).record
    cautions = lot_cautions(kitchen, lot)
    assert stops(cautions) == set()
    assert "bought-animal" in {c.rule for c in cautions}


def test_a_meal_has_what_its_lots_have_and_a_food_without_a_lot_counts_as_unrecorded():
    kitchen = a_shelf(a_batch("turkey", **HEATED), Meal("turkey and wild rice soup", id=1))
    lot = packed(kitchen, place=FREEZER)
    meal = kitchen.journal.get(Meal, 1)
    known = [MealPart(1, 1, "turkey", "turkey", lot=lot.id), MealPart(1, 2, "couscous", staple="couscous")]
    assert stops(meal_cautions(kitchen, meal, known)) == set()
    unknown = [MealPart(1, 1, "turkey", "turkey")]
    assert "heat-poultry-missing" in stops(meal_cautions(kitchen, meal, unknown))
    soaked = meal_cautions(kitchen, meal, known, soak_minutes=180.0, soak_temperature_c=22.0, altitude_m=200.0)
    assert stops(soaked) == {"soak-two-hours"}
    cold = replace(meal, cooking="cold soak")
    assert "cold-soak-animal" in stops(meal_cautions(kitchen, cold, known))
    assert {"danger-zone", "boil-water-high"} <= {c.rule for c in meal_cautions(kitchen, meal)}
