"""Records turned into cautions: what is not recorded speaks."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

import pytest

from dryhouse.kitchen.batches.dryness import NOT_WEIGHED, verdicts_of
from dryhouse.kitchen.batches.log import BatchDraft
from dryhouse.kitchen.cautions.cautions import (
    Preparation,
    asks_how_long,
    batch_cautions,
    batch_facts,
    facts_of_lot,
    food_cautions,
    goes_by_its_date,
    lot_cautions,
    lot_facts,
    meal_cautions,
    place_of,
    warmth_of,
)
from dryhouse.kitchen.records import (
    Batch,
    BatchPart,
    Lot,
    LotCheck,
    LotMove,
    Meal,
    MealPart,
    OwnFood,
    PlaceTemperature,
)
from dryhouse.kitchen.shelf.lots import Found, check_lot, move
from dryhouse.kitchen.shelf.packing import Package, shelve
from dryhouse.science.dryness import Verdict
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Duration, Length, Mass, Temperature
from dryhouse.science.safety import BatchFacts, FoodFacts, LotFacts
from dryhouse.science.statuses import VerdictName
from tests.kitchen.shelf_room import FREEZER, HEATED, NOW, TODAY, a_batch, a_shelf, packed
from tests.rows import every_row


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
    check_lot(kitchen, lot.id, Found(mould=True))
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
    soaked = meal_cautions(
        kitchen, meal, known, Preparation(soak_minutes=180.0, soak_temperature_c=22.0, altitude_m=200.0)
    )
    assert stops(soaked) == {"soak-two-hours"}
    cold = replace(meal, cooking="cold soak")
    assert "cold-soak-animal" in stops(meal_cautions(kitchen, cold, known))
    assert {"danger-zone", "boil-water-high"} <= {c.rule for c in meal_cautions(kitchen, meal)}


def test_what_is_recorded_of_a_batch_reaches_the_rules_in_their_units():
    kitchen = a_shelf()
    told = batch_facts(
        kitchen,
        Batch(
            "turkey",
            precook_temperature=Temperature(74.0),
            precook_held=Duration(1800.0),
            finish_temperature=Temperature(135.0),
            finish_held=Duration(600.0),
            set_temperature=Temperature(63.0),
            thickness=Length(6.0),
            identified=" by a forester ",
        ),
    )
    assert (told.precook_temperature_c, told.precook_held_min) == (74.0, 30.0)
    assert (told.finish_temperature_c, told.finish_min) == (135.0, 10.0)
    assert (told.set_temperature_c, told.thickness_mm, told.identified) == (63.0, 6.0, "by a forester")
    nothing = batch_facts(kitchen, Batch("turkey", made_from=""))
    names = [
        *("precook_temperature_c", "precook_held_min", "finish_temperature_c", "finish_min", "set_temperature_c"),
        *("thickness_mm", "identified", "made_from", "pretreatment", "precook_method", "precook_measured"),
    ]
    assert {name: getattr(nothing, name) for name in names} == dict.fromkeys(names)


def test_how_long_it_has_stood_is_asked_of_animal_food_that_is_off_the_dryer_and_on_no_shelf():
    off = NOW - timedelta(minutes=90)
    hot = a_batch("turkey", ended=off, kitchen_temperature=Temperature(34.0), **HEATED)
    kitchen = a_shelf(hot, replace(hot, id=2), replace(hot, id=3, food="corn"), replace(hot, id=4, state="drying"))
    packed(kitchen, batch=2)
    facts = [batch_facts(kitchen, kitchen.journal.get(Batch, n)) for n in (1, 2, 3, 4)]
    assert [f.off_dryer for f in facts] == [True, False, False, False]
    assert (facts[0].warm_min, facts[0].hot_min) == (90.0, 90.0)
    assert {(f.warm_min, f.hot_min) for f in facts[1:]} == {(None, None)}
    cool = batch_facts(kitchen, replace(hot, kitchen_temperature=Temperature(21.0)))
    assert (cool.warm_min, cool.hot_min) == (90.0, 0.0)


@every_row(
    ("lot", "by_its_date"),
    [
        (Lot("apple", TODAY, origin="bought", bought_keep_by=TODAY), True),
        (Lot("apple", TODAY, origin="bought", bought_keep_by=TODAY, opened_on=TODAY), False),
        (Lot("apple", TODAY, origin="bought"), False),
        (Lot("apple", TODAY, bought_keep_by=TODAY), False),
    ],
)
def test_only_a_closed_package_goes_by_its_printed_date(lot, by_its_date):
    assert goes_by_its_date(lot) is by_its_date


@every_row(
    ("dry", "found", "asked"),
    [(False, (), True), (True, (), False), (None, (), False), (True, (True,), True), (True, (None, False), False),
     (None, (False, True), True)],
)  # fmt: skip
def test_how_long_a_lot_stood_warm_matters_where_it_is_not_dry_or_was_found_moist(dry, found, asked):
    word = {True: VerdictName.DRY_ENOUGH, False: VerdictName.STILL_MOIST, None: VerdictName.UNKNOWN}[dry]
    checks = [LotCheck(1, TODAY, moist=moist) for moist in found]
    assert asks_how_long(Verdict(word), checks) is asked


@every_row(
    ("begun", "ended", "days"),
    [(TODAY, TODAY + timedelta(days=10), 10), (TODAY, None, None), (None, TODAY, None), (None, None, None)],
)
def test_conditioning_counts_from_its_first_day_to_its_last(begun, ended, days):
    lot = Lot("apple", TODAY, conditioned_from=begun, conditioned_to=ended)
    assert facts_of_lot(lot, FoodFacts("apple"), None, NOT_WEIGHED, (), None).conditioned_days == days


@every_row(
    ("redried", "found", "moist", "ever"),
    [
        (None, (), None, False),
        (None, ((0, None),), None, False),
        (None, ((0, False),), False, False),
        (None, ((0, True), (1, False)), True, True),
        (1, ((0, True),), None, True),
        (1, ((0, True), (1, False)), None, True),  # on the day it was dried again nobody knows which came first
        (1, ((0, True), (2, False)), False, True),
        (1, ((2, True), (3, False)), True, True),
    ],
)
def test_what_was_found_moist_stays_so_until_it_is_dried_again(redried, found, moist, ever):
    lot = Lot("apple", TODAY, redried_on=TODAY + timedelta(days=redried) if redried else None)
    checks = [LotCheck(1, TODAY + timedelta(days=day), moist=told) for day, told in found]
    facts = facts_of_lot(lot, FoodFacts("apple"), None, NOT_WEIGHED, checks, None)
    assert (facts.moist, facts.ever_moist, facts.checked) == (moist, ever, bool(found))


def test_a_place_is_as_warm_as_its_last_reading_and_a_lot_stands_where_it_was_put_last():
    readings = [PlaceTemperature(1, NOW - timedelta(days=d), Temperature(10.0 + d), id=d) for d in (3, 1, 2)]
    moves = [LotMove(1, d, NOW - timedelta(days=d), d) for d in (2, 3, 1)]
    for days, celsius, place in ((0, 11.0, 1), (1, 11.0, 1), (1.5, 12.0, 2), (2, 12.0, 2), (4, None, None)):
        moment = NOW - timedelta(days=days)
        assert warmth_of(readings, moment) == celsius
        assert place_of(moves, moment) == place
    twice = [LotMove(1, 7, NOW, 1), LotMove(1, 8, NOW, 2)]
    assert place_of(twice, NOW) == 8, "of two at one moment the later entry"


def test_every_fact_of_a_lot_comes_from_its_records():
    lot = Lot(
        "corn", TODAY, origin="bought", package="vacuum bag", in_oil=True, sealed=False, opened_on=TODAY,
        conditioned_from=TODAY, conditioned_to=TODAY + timedelta(days=7), pasteurised="oven",
    )  # fmt: skip
    checks = [LotCheck(1, TODAY, moist=True, smell="Sour"), LotCheck(1, TODAY, mould=True)]
    own, dry = FoodFacts("sweet corn"), Verdict(VerdictName.DRY_ENOUGH)
    told = facts_of_lot(lot, own, None, dry, checks, 18.5, (90.0, 30.0))
    assert told == LotFacts(
        own, None, bought=True, package="vacuum bag", airless=True, in_oil=True, sealed=False, opened=True,
        dry_enough=True, dry_doubted=dry.in_doubt, conditioned_days=7, pasteurised=True, temperature_c=18.5,
        checked=True, moist=True, ever_moist=True, warm_min=90.0, hot_min=30.0, mould=True, smell=True,
    )  # fmt: skip
    plain = facts_of_lot(Lot("corn", TODAY, package="jar"), own, None, NOT_WEIGHED, (), None)
    assert plain == LotFacts(
        own, package="jar", airless=False, opened=False, dry_enough=None, pasteurised=False, checked=False,
        in_oil=plain.in_oil, sealed=plain.sealed,
    )  # fmt: skip


@every_row(
    ("smell", "odd"),
    [
        ("", None),
        (" Fine ", None),
        ("as it should be", True),
        ("as it should", None),
        ("OK", None),
        ("musty", True),
    ],
)
def test_a_smell_is_odd_where_it_is_not_said_to_be_as_it_should(smell, odd):
    told = facts_of_lot(
        Lot("corn", TODAY), FoodFacts("corn"), None, NOT_WEIGHED, [LotCheck(1, TODAY, smell=smell)], None
    )
    assert told.smell is odd


def test_the_food_of_a_mix_is_what_its_batch_says_and_of_one_food_its_own():
    own, mix = FoodFacts("stew"), FoodFacts("stew", parts=(FoodFacts("corn"), FoodFacts("turkey")))
    for batch_food, wanted in ((mix, mix), (FoodFacts("corn"), own)):
        told = facts_of_lot(Lot("stew", TODAY), own, BatchFacts(batch_food), NOT_WEIGHED, (), None)
        assert told.food == wanted


def test_a_lot_is_what_was_known_of_it_at_that_moment():
    kitchen = a_shelf(a_batch("turkey", **HEATED))
    lot = packed(kitchen, place=FREEZER)
    move(kitchen, [lot.id], 1)
    check_lot(kitchen, lot.id, Found(moist=True))
    now, before = lot_facts(kitchen, lot), lot_facts(kitchen, lot, NOW - timedelta(days=1))
    assert (now.temperature_c, now.moist, now.checked) == (pytest.approx(21.1, abs=0.1), True, True)
    assert (before.temperature_c, before.moist, before.checked) == (-18.0, None, False)
    assert lot_facts(kitchen, lot, place=FREEZER).temperature_c == -18.0
    # off at 9:00 and in the freezer with the last second of that day; put in the pantry this moment
    assert (now.warm_min, now.hot_min) == (pytest.approx(15 * 60 - 1 / 60), 0.0)
    assert (before.warm_min, before.hot_min) == (None, None), "not asked of what is dry"
    bought = Lot("turkey", TODAY, origin="bought", id=9)
    assert (lot_facts(kitchen, bought).batch, lot_facts(kitchen, bought).bought) == (None, True)
    home = lot_facts(kitchen, Lot("turkey", TODAY, id=9))
    assert (home.batch.food, home.bought) == (home.food, False)


def test_in_a_bag_lots_are_judged_as_warm_as_it_is_on_the_way():
    kitchen = a_shelf(a_batch("turkey", **HEATED), Meal("soup", id=1))
    lot = packed(kitchen, place=FREEZER)
    parts = [MealPart(1, 1, "turkey", "turkey", lot=lot.id)]
    meal = kitchen.journal.get(Meal, 1)
    rules = {
        warm: stops(meal_cautions(kitchen, meal, parts, travels_at=warm))
        for warm in (None, (-18.0,), (21.0,), (None,))
    }
    assert rules[None] == rules[(-18.0,)] == set()
    assert "meat-room-limit" in rules[(21.0,)]
