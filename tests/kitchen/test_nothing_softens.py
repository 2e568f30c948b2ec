"""Ways a caution could be lost unmeant: other names, mixes, bought food, deleted records, meals, trips."""

from __future__ import annotations

from datetime import timedelta

import pytest

from dryhouse.kitchen.batches.log import BatchDraft, delete_batch, edit_batch
from dryhouse.kitchen.cards.batch_card import batch_card
from dryhouse.kitchen.cautions.cautions import food_cautions, lot_cautions, meal_cautions
from dryhouse.kitchen.exchange.meal_files import bring_meal, meal_text
from dryhouse.kitchen.foods.catalog import food, set_figure
from dryhouse.kitchen.foods.own_foods import add_food
from dryhouse.kitchen.meals.sheet import meal_sheet
from dryhouse.kitchen.ports import Change
from dryhouse.kitchen.records import Batch, BatchPart, Meal, MealPart, Trip, TripMeal
from dryhouse.kitchen.records.meals import COLD_SOAK
from dryhouse.kitchen.shelf.lots import check_lot, edit_lot, open_lot
from dryhouse.kitchen.shelf.packing import Package, shelve
from dryhouse.kitchen.shelf.shelf import keeps, shelf_line
from dryhouse.kitchen.trips.bag_labels import bag_labels
from dryhouse.kitchen.trips.lots import lots_for
from dryhouse.kitchen.trips.provisioning import plan
from dryhouse.science.display import Style
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Mass, Temperature
from tests.kitchen.shelf_room import FREEZER, HEATED, NOW, PANTRY, TODAY, a_batch, a_shelf, packed


def rules(cautions, severity="stop"):
    return {c.rule for c in cautions if c.severity == severity}


# --- names -------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", ["Turkey", "beef mince", "Deer", "eggs", "hard cheese"])
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
    until = shelf_line(meat, packed(meat).id).keep_by
    assert until is not None
    assert shelf_line(kitchen, lot.id).keep_by == until
    assert rules(lot_cautions(kitchen, lot)) == rules(lot_cautions(meat, packed(meat)))
    assert kitchen.journal.get(MealPart, 1).lot is None


# --- weights and looks -------------------------------------------------------------------------------------


def test_a_jar_that_no_weight_shows_dry_is_looked_at_first():
    kitchen = a_shelf(a_batch("corn", dried_mass=None))
    lot = packed(kitchen)
    line = shelf_line(kitchen, lot.id)
    assert (line.standing, "Dryness not shown" in line.reason) == ("check first", True)
    check_lot(kitchen, lot.id, moist=False)
    assert shelf_line(kitchen, lot.id).standing in ("keeping", "use soon")
    assert "dryness-unknown" in rules(lot_cautions(kitchen, lot), "warn")


def test_weights_that_do_not_add_up_show_nothing_dry():
    kitchen = a_shelf(a_batch("corn", dried_mass=Mass(90.0)))
    assert shelf_line(kitchen, packed(kitchen).id).standing == "check first"


def test_a_moister_target_of_her_own_does_not_make_food_keep():
    moist = a_batch("corn", dried_mass=Mass(420.0), target_moisture_pct=45.0)
    kitchen = a_shelf(moist)
    card = batch_card(kitchen, 1)
    assert card.verdict.name == "dry enough"
    assert not any(title.startswith("Keeps at") for title, _ in card.figures)
    assert any("your own target" in sentence for sentence in card.sentences)
    assert "Not dry enough" in shelf_line(kitchen, packed(kitchen).id).reason
    set_figure(kitchen, "corn", "target_moisture", 45.0)
    edit_batch(kitchen, 1, BatchDraft(a_batch("corn", dried_mass=Mass(420.0))))
    assert shelf_line(kitchen, 1).standing == "check first"


def test_a_drier_target_of_her_own_is_held_to():
    kitchen = a_shelf(a_batch("corn", dried_mass=Mass(262.0), target_moisture_pct=4.0))
    assert shelf_line(kitchen, packed(kitchen).id).standing == "check first"


def test_a_lot_to_check_says_that_it_is_past_its_keep_by_too():
    kitchen = a_shelf(a_batch("turkey", **HEATED), now=NOW + timedelta(days=60))
    lot = packed(kitchen)
    open_lot(kitchen, lot.id)
    assert "past its keep-by" in shelf_line(kitchen, lot.id).reason


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


# --- meals -------------------------------------------------------------------------------------------------


def a_meal(*parts, cooking="simmer", **more):
    return a_shelf(Meal("supper", servings=2, cooking=cooking, id=1), *parts, **more)


SALAMI = MealPart(1, 0, "salami", staple="salami-dry", mass=Mass(50.0), id=1)


def test_a_bought_animal_ingredient_has_its_cautions_on_the_meal():
    cautions = meal_sheet(a_meal(SALAMI), 1).cautions
    assert {"bought-animal", "heat-to-165", "defer-animal"} <= rules(cautions, "warn")
    assert not any(rule.startswith("heat-meat") for rule in rules(cautions))


@pytest.mark.parametrize(
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
    (label,) = bag_labels(kitchen, plan(kitchen, 1), Style())
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
MEAT = MealPart(1, 0, "turkey", "turkey", mass=Mass(50.0), id=1)


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
