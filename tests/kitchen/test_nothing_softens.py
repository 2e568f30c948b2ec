"""Ways a caution could be lost unmeant: other names, mixes, bought food, deleted records, meals, trips."""

from __future__ import annotations

from contextlib import suppress
from dataclasses import replace
from datetime import timedelta

import pytest

from dryhouse.handbook.safety_table import safety_rules
from dryhouse.handbook.staples import staples
from dryhouse.kitchen.batches.dryness import verdicts_of
from dryhouse.kitchen.batches.log import BatchDraft, delete_batch, edit_batch
from dryhouse.kitchen.cards.batch_card import batch_card
from dryhouse.kitchen.cautions.cautions import (
    batch_cautions,
    cautions_for,
    food_cautions,
    lot_cautions,
    meal_cautions,
)
from dryhouse.kitchen.exchange.meal_files import bring_meal, meal_text
from dryhouse.kitchen.foods.catalog import food, set_figure
from dryhouse.kitchen.foods.own_foods import add_food
from dryhouse.kitchen.meals.sheet import meal_sheet, sheet_of
from dryhouse.kitchen.ports import Change
from dryhouse.kitchen.records import Batch, BatchPart, Meal, MealPart, Trip, TripMeal
from dryhouse.kitchen.records.meals import COLD_SOAK
from dryhouse.kitchen.shelf.lots import check_lot, edit_lot, open_lot, redry
from dryhouse.kitchen.shelf.packing import Package, shelve
from dryhouse.kitchen.shelf.shelf import NothingPublished, keeps
from dryhouse.kitchen.trips.bag_labels import bag_labels
from dryhouse.kitchen.trips.lots import lots_for
from dryhouse.kitchen.trips.provisioning import plan
from dryhouse.science.display import Style
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Duration, Mass, Temperature, parse_temperature
from dryhouse.science.safety import BatchFacts, FoodFacts, LotFacts, MealFacts
from dryhouse.science.statuses import FigureId
from dryhouse.science.units import to_celsius
from dryhouse.words.cautions import reason_words
from tests.kitchen.shelf_room import FREEZER, HEATED, NOW, PANTRY, TODAY, a_batch, a_shelf, packed, shelf_line
from tests.rows import every_row


def rules(cautions, severity="stop"):
    return {c.rule for c in cautions if c.severity == severity}


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
    moist = a_batch("corn", dried_mass=Mass(360.0), target_moisture_pct=45.0, felt="")
    kitchen = a_shelf(moist)
    card = batch_card(kitchen, 1)
    assert card.verdict.name == "dry enough"
    assert card.figure(FigureId.KEEPS) is None
    assert any("your own target" in sentence for sentence in card.sentences)
    assert "Not dry enough" in shelf_line(kitchen, packed(kitchen).id).reason
    set_figure(kitchen, "corn", "target_moisture", 45.0)
    edit_batch(kitchen, 1, BatchDraft(a_batch("corn", dried_mass=Mass(360.0), felt="")))
    assert shelf_line(kitchen, 1).standing == "check first"


def test_a_doubt_says_what_is_missing_and_lifts_nothing():
    doubted = a_batch("turkey", felt="", dried_mass=Mass(345.0), **HEATED)
    unpacked = a_shelf(doubted)
    batch = unpacked.journal.get(Batch, 1)
    assert verdicts_of(unpacked, batch)[1].in_doubt
    assert "animal-dryness-in-doubt" in rules(batch_cautions(unpacked, batch), "warn")
    assert batch_card(unpacked, 1).figure(FigureId.KEEPS) is None
    kitchen = a_shelf(doubted)
    lot = packed(kitchen, place=FREEZER)
    assert "dryness-in-doubt" in rules(lot_cautions(kitchen, lot), "warn")
    assert shelf_line(kitchen, lot.id).standing != "check first"
    sticky = a_shelf(a_batch("turkey", felt="sticky", dried_mass=Mass(345.0), **HEATED))
    assert "not-dry-thrown-out" in rules(lot_cautions(sticky, packed(sticky)))


@pytest.mark.parametrize("package", ["vacuum bag", "jar with absorber"])
def test_shut_away_from_air_a_doubt_is_a_stop_until_a_hand_or_a_look_answers_it(package):
    kitchen = a_shelf(a_batch("corn", felt="", dried_mass=Mass(255.0)))
    lot = packed(kitchen, package=Package(package, place=PANTRY))
    assert "airless-dryness-in-doubt" in rules(lot_cautions(kitchen, lot))
    assert shelf_line(kitchen, lot.id).standing == "check first"
    check_lot(kitchen, lot.id, moist=False)
    assert "airless-dryness-in-doubt" not in rules(lot_cautions(kitchen, lot))
    felt = a_shelf(a_batch("corn", dried_mass=Mass(255.0)))
    lot = packed(felt, package=Package(package, place=PANTRY))
    assert not rules(lot_cautions(felt, lot)) & {"airless-dryness-in-doubt", "airless-dryness-unknown"}
    sticky = a_shelf(a_batch("corn", felt="sticky", dried_mass=Mass(255.0)))
    lot = packed(sticky, package=Package(package, place=PANTRY))
    assert shelf_line(sticky, lot.id).standing == "do not eat"


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


def a_meal(*parts, cooking="short soak", **more):
    return a_shelf(Meal("supper", servings=2, cooking=cooking, id=1), *parts, **more)


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


# --- heated before drying ----------------------------------------------------------------------------------


def heated(food="turkey", method="simmered or steamed", temperature="170 F", **more):
    said = {"precook_method": method, "precook_measured": "thermometer", **more}
    if temperature is not None:
        said["precook_temperature"] = parse_temperature(temperature)
    return a_batch(food, ended=NOW - timedelta(minutes=30), **said)


def heat_stops(batch):
    said = rules(batch_cautions(a_shelf(batch), batch))
    return {r for r in said if r.startswith(("heat-", "fish-held"))}


@every_row(
    ("batch", "stops"),
    [
        (heated(), set()),
        (heated(method="roasted in an oven"), set()),
        (heated(method="in the dryer"), {"heat-method"}),
        (heated(method="bought cooked"), {"heat-method"}),
        (heated(method="none"), {"heat-method"}),
        (heated(method="other"), {"heat-method"}),
        (heated(method=""), {"heat-method"}),
        (heated(precook_measured="not measured"), {"heat-poultry-unmeasured"}),
        (heated(precook_measured=""), {"heat-poultry-unmeasured"}),
        (heated(temperature="350 F"), {"heat-implausible"}),
        (heated(temperature="900 F", method="in the dryer"), {"heat-implausible", "heat-method"}),
        (heated(temperature="160 C"), {"heat-implausible"}),
        (heated(temperature="164.9 F"), {"heat-poultry-below"}),
        (heated(temperature=None), {"heat-poultry-missing"}),
        (heated("beef-jerky", temperature="160 F"), set()),
        (heated("beef-jerky", temperature="71.1 C"), set()),
        (heated("beef-jerky", temperature="72 C"), set()),
        (heated("beef-jerky", temperature="159.9 F"), {"heat-meat-below"}),
        (heated("beef-jerky", temperature="71 C"), {"heat-meat-below"}),
        (heated("ground-venison", temperature="162 F"), {"heat-game-below"}),
        (heated("ground-venison", temperature="165 F"), set()),
    ],
)
def test_only_what_was_steamed_or_roasted_to_a_measured_and_possible_temperature_counts(batch, stops):
    assert heat_stops(batch) == stops


def test_an_oven_finish_is_said_and_lifts_nothing():
    finish = {"finish_temperature": Temperature(135.0, "275 F"), "finish_held": Duration(600.0, "10 min")}
    batch = heated("beef-jerky", method="", temperature=None, precook_measured="", **finish)
    said = batch_cautions(a_shelf(batch), batch)
    assert "heat-meat-missing" in rules(said)
    (note,) = [c for c in said if c.rule == "oven-finish"]
    assert "275 °F (135 °C) for 10 min" in reason_words(note)


@every_row(("minutes", "stops"), [(None, {"fish-held"}), (29, {"fish-held"}), (30, set())])
def test_fish_is_asked_for_its_thirty_minutes(minutes, stops):
    held = {} if minutes is None else {"precook_held": Duration(minutes * 60.0, f"{minutes} min")}
    assert heat_stops(heated("salmon", temperature="160 F", **held)) == stops


def test_a_refused_temperature_is_told_with_a_limit_that_passes_in_both_scales():
    batch = heated("beef-jerky", temperature="71 C")
    (stop,) = [c for c in batch_cautions(a_shelf(batch), batch) if c.rule == "heat-meat-below"]
    assert "159.8 °F (71 °C), below 160 °F (71.1 °C)" in reason_words(stop)
    assert heat_stops(heated("beef-jerky", temperature="71.1 C")) == set()


def test_game_has_one_temperature_the_stricter_one():
    kitchen = a_shelf()
    for slug in ("ground-venison", "venison-jerky", "bear", "moose-jerky", "wild-boar"):
        asked = [c for c in food_cautions(kitchen, slug) if c.rule.startswith("heat-") and c.severity == "stop"]
        assert [c.rule for c in asked] == ["heat-game-missing"]
        saying = food(kitchen, slug).saying("pretreatment")
        assert "165 °F" in saying.text, slug
        assert "160 °F" not in saying.text, slug


# --- off the dryer and not dry -----------------------------------------------------------------------------

WET = {"dried_mass": Mass(700.0)}


def not_to_be_eaten(cautions):
    return {c.rule for c in cautions if c.forbids_eating}


@pytest.mark.parametrize("kind", ["jar", "vacuum bag", "jar with absorber"])
@pytest.mark.parametrize("slug", ["turkey", "corn"])
def test_wet_food_that_stood_in_the_pantry_for_a_month(slug, kind):
    kitchen = a_shelf(a_batch(slug, **WET, **(HEATED if slug == "turkey" else {})))
    lot = packed(kitchen, package=Package(kind, place=PANTRY))
    said = lot_cautions(kitchen, lot)
    thrown_out = {"airless-not-dry"} if kind != "jar" else {"not-dry-thrown-out"} if slug == "turkey" else set()
    assert not_to_be_eaten(said) == thrown_out
    assert ("not-dry-enough" in rules(said)) is (not thrown_out)
    if thrown_out:
        assert not any("ack in the dryer" in c.text or "dry the food to its target" in c.text for c in said)


@pytest.mark.parametrize(("minutes", "rule"), [(60, "airless-not-dry-yet"), (150, "airless-not-dry")])
def test_a_wet_bag_sealed_just_now_is_opened_and_one_sealed_this_morning_thrown_out(minutes, rule):
    kitchen = a_shelf(a_batch(ended=NOW - timedelta(minutes=minutes), **WET))
    lot = packed(kitchen, package=Package("vacuum bag", place=PANTRY), at=NOW - timedelta(minutes=minutes - 10))
    assert rule in rules(lot_cautions(kitchen, lot))


def test_wet_meat_put_in_the_freezer_at_once_may_be_dried_on():
    kitchen = a_shelf(a_batch("turkey", **WET, **HEATED))
    at = NOW - timedelta(days=30) + timedelta(minutes=20)
    lot = packed(kitchen, place=FREEZER, at=at)
    assert not not_to_be_eaten(lot_cautions(kitchen, lot))
    assert "not-dry-enough" in rules(lot_cautions(kitchen, lot))


@every_row(("minutes", "thrown_out"), [(30, False), (180, True), (None, True)])
def test_a_wet_batch_of_meat_off_the_dryer_is_thrown_out_after_two_hours(minutes, thrown_out):
    ended = None if minutes is None else NOW - timedelta(minutes=minutes)
    batch = replace(a_batch("turkey", **WET, **HEATED), ended=ended)
    assert ("left-moist" in rules(batch_cautions(a_shelf(batch), batch))) is thrown_out
    drying = replace(batch, state="drying", ended=None)
    assert "left-moist" not in rules(batch_cautions(a_shelf(drying), drying))


def test_a_later_dry_look_does_not_cancel_that_it_was_found_moist():
    kitchen = a_shelf(a_batch("corn"))
    lot = packed(kitchen)
    check_lot(kitchen, lot.id, moist=True)
    check_lot(kitchen, lot.id, moist=False)
    assert "found-moist" in rules(lot_cautions(kitchen, lot))
    redry(kitchen, lot.id)
    assert "found-moist" not in rules(lot_cautions(kitchen, kitchen.journal.get(type(lot), lot.id)))


def test_meat_found_moist_is_thrown_out_and_drying_again_does_not_bring_it_back():
    kitchen = a_shelf(a_batch("turkey", **HEATED))
    lot = packed(kitchen)
    check_lot(kitchen, lot.id, moist=True)
    assert "found-moist-thrown-out" in not_to_be_eaten(lot_cautions(kitchen, lot))
    with suppress(InputProblem):
        redry(kitchen, lot.id)
    lot = kitchen.journal.get(type(lot), lot.id)
    assert "found-moist-thrown-out" in not_to_be_eaten(lot_cautions(kitchen, lot))
    assert shelf_line(kitchen, lot.id).standing == "do not eat"


def test_without_air_and_without_a_weight_it_is_not_eaten_until_that_is_answered():
    kitchen = a_shelf(a_batch("corn", dried_mass=None))
    lot = packed(kitchen, package=Package("vacuum bag", Mass(200.0), place=PANTRY))
    assert "airless-dryness-unknown" in not_to_be_eaten(lot_cautions(kitchen, lot))
    check_lot(kitchen, lot.id, moist=False)
    assert "airless-dryness-unknown" not in rules(lot_cautions(kitchen, lot))


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


# --- no false stops ----------------------------------------------------------------------------------------


@every_row("slug", ["salami-dry", "hard-cheese", "milk-nonfat-dry", "milk-whole-dry"])
def test_bought_food_in_a_cold_soak_goes_by_its_package(slug):
    assert slug in staples()
    kitchen = a_meal(MealPart(1, 0, slug, staple=slug, mass=Mass(50.0), id=1), cooking=COLD_SOAK)
    said = meal_cautions(kitchen, kitchen.journal.get(Meal, 1), soak_minutes=30.0)
    assert "cold-soak-animal" not in rules(said)
    assert "cold-soak-bought" in rules(said, "warn")


@every_row(("made_from", "speaks"), [("canned", False), ("cooked", False), ("fresh", True)])
def test_canned_beans_in_a_cold_soak_are_not_called_raw(made_from, speaks):
    kitchen = a_shelf(a_batch("white-bean", made_from=made_from), Meal("supper", cooking=COLD_SOAK, id=1))
    lot = packed(kitchen)
    part = MealPart(1, 0, "white bean", "white-bean", lot=lot.id, mass=Mass(50.0), id=1)
    said = rules(meal_cautions(kitchen, kitchen.journal.get(Meal, 1), [part], soak_minutes=30.0))
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
    hot = meal_cautions(kitchen, meal, soak_minutes=90.0, soak_temperature_c=36.0)
    assert "soak-one-hour-hot" in rules(hot)
    cool = meal_cautions(kitchen, meal, soak_minutes=90.0, soak_temperature_c=25.0)
    assert not {r for r in rules(cool) if r.startswith("soak")}


@every_row(("altitude_m", "once"), [(None, "3 min"), (300.0, "1 min"), (2000.0, "3 min")])
def test_water_is_boiled_once_and_the_longer_where_the_height_is_unknown(altitude_m, once):
    kitchen = a_meal(MealPart(1, 0, "corn", "corn", mass=Mass(50.0), id=1))
    said = meal_cautions(kitchen, kitchen.journal.get(Meal, 1), altitude_m=altitude_m)
    assert [c.short for c in said if "Boil water" in c.short] == [f"Boil water {once}"]


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
