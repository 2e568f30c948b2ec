"""The foods a trip asks to be dried: recipe, trays, company, conditioning."""

import math
from dataclasses import replace
from datetime import UTC, timedelta
from types import SimpleNamespace

import pytest

from dryhouse.handbook.pot import pot
from dryhouse.handbook.reader import handbook
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.records import Batch, Dryer, Meal, MealPart, Trip, TripMeal
from dryhouse.kitchen.trips.plan_items import conditioning_days, item_of, recipe_for, tray_grams
from dryhouse.kitchen.trips.provisioning import plan
from dryhouse.kitchen.yields.knowledge import learn
from dryhouse.science.provisioning import Cover, Need, Span, ToDry
from dryhouse.science.quantities import Area, Mass, Temperature
from dryhouse.science.values import Figure
from dryhouse.science.yields.belief import Predictive
from tests.builders import NOW, fact
from tests.fakes import FakeJournal
from tests.rows import every_row

SHELF, BOX = Dryer("shelf dryer", 6, Area(1000.0), id=1), Dryer("box dryer", 10, id=2)


def a_kitchen(*records):
    return Kitchen(FakeJournal(SHELF, BOX, *records), handbook(), lambda: NOW)


def known(kitchen, slug):
    return learn(kitchen, handbook().food(slug))


def test_a_tray_takes_her_own_load_else_one_layer_of_its_area_else_nothing():
    loaded = Batch("carrot", prepared_mass=Mass(3000.0), dried_mass=Mass(400.0), dryer=2, trays=10, id=1)
    kitchen = a_kitchen(loaded)
    found = tray_grams(kitchen, known(kitchen, "carrot"))
    assert found == {1: pytest.approx(pot("tray_load").value * 100.0), 2: 300.0}
    bare = a_kitchen()
    assert set(tray_grams(bare, known(bare, "carrot"))) == {1}


def test_fruit_waits_for_its_conditioning_and_nothing_else_does():
    kitchen = a_kitchen()
    days = {slug: conditioning_days(known(kitchen, slug)) for slug in ("apple", "carrot", "turkey", "rice-white")}
    assert days == {"apple": 10, "carrot": 0, "turkey": 0, "rice-white": 0}


def test_foods_share_a_dryer_by_heat_and_smell():
    kitchen = a_kitchen()
    slugs = ("apple", "carrot", "celery", "onion", "garlic", "turkey", "basil", "chili-bean")
    company = {s: recipe_for(kitchen, known(kitchen, s)).company for s in slugs}
    assert company["carrot"] == company["celery"] != ""
    assert company["onion"] == company["garlic"] != company["carrot"]
    assert len({company[s] for s in ("apple", "carrot", "onion", "turkey", "basil")}) == 5
    assert company["chili-bean"] == ""


def test_a_dryer_that_does_not_reach_the_heat_is_not_used():
    cool = replace(SHELF, temperature_high=Temperature(45.0))
    kitchen = Kitchen(FakeJournal(cool, BOX), handbook(), lambda: NOW)
    assert 1 not in tray_grams(kitchen, known(kitchen, "carrot"))
    assert 1 in tray_grams(kitchen, known(kitchen, "basil"))
    hot = replace(SHELF, temperature_low=Temperature(55.0))
    kitchen = Kitchen(FakeJournal(hot, BOX), handbook(), lambda: NOW)
    assert 1 not in tray_grams(kitchen, known(kitchen, "basil"))
    assert 1 in tray_grams(kitchen, known(kitchen, "carrot"))


def test_the_recipe_turns_the_yield_round_with_its_ends():
    kitchen = a_kitchen()
    carrot = known(kitchen, "carrot")
    recipe = recipe_for(kitchen, carrot)
    ratio = carrot.joined
    assert recipe.fresh_per_dried.value == pytest.approx(1 / ratio.value)
    assert recipe.fresh_per_dried.low == pytest.approx(1 / ratio.predictive.high)
    assert recipe.fresh_per_dried.high == pytest.approx(1 / ratio.predictive.low)
    assert recipe.refuse == pytest.approx(0.11)
    assert recipe.hours.low <= recipe.hours.value <= recipe.hours.high


@every_row(
    ("low", "high", "used"),
    [(None, None, True), (54.0, None, True), (None, 54.0, True), (60.0, 70.0, True), (60.1, 70.0, False),
     (40.0, 54.0, True), (40.0, 53.9, False)],
)  # fmt: skip
def test_a_dial_that_ends_within_three_degrees_of_a_foods_heat_reaches_it(low, high, used):
    ends = {"temperature_low": low, "temperature_high": high}
    dial = replace(SHELF, **{name: Temperature(c) if c is not None else None for name, c in ends.items()})
    kitchen = Kitchen(FakeJournal(dial), handbook(), lambda: NOW)
    carrot = known(kitchen, "carrot")
    heated = replace(carrot.food, facts={**carrot.food.facts, "drying_temperature": fact(57.0, "degC")})
    assert (1 in tray_grams(kitchen, replace(carrot, food=heated))) is used


def test_a_food_without_a_published_heat_goes_into_every_dryer():
    cold = replace(SHELF, temperature_high=Temperature(20.0))
    kitchen = Kitchen(FakeJournal(cold), handbook(), lambda: NOW)
    carrot = known(kitchen, "carrot")
    bare = {name: fact for name, fact in carrot.food.facts.items() if name != "drying_temperature"}
    assert 1 in tray_grams(kitchen, replace(carrot, food=replace(carrot.food, facts=bare)))
    assert recipe_for(kitchen, replace(carrot, food=replace(carrot.food, facts=bare))).temperature_c is None


def test_the_hours_of_a_recipe_reach_from_the_shortest_to_the_longest():
    kitchen = a_kitchen()
    carrot = known(kitchen, "carrot")
    for told, span in (
        (Figure(8.0, "h", 6.0, 12.0), Span(8.0, 6.0, 12.0)),
        (Figure(8.0, "h"), Span(8.0, 8.0, 8.0)),
        (Figure(8.0, "h", 9.0, 7.0), Span(8.0, 8.0, 8.0)),
    ):
        assert recipe_for(kitchen, replace(carrot, hours=told)).hours == span
    without = recipe_for(kitchen, replace(carrot, hours=None, joined=None, refuse=None))
    assert (without.hours, without.fresh_per_dried, without.refuse) == (None, None, None)


def test_a_yield_without_ends_has_none_and_fresh_food_never_weighs_less_than_what_it_dries_to():
    kitchen = a_kitchen()
    carrot = known(kitchen, "carrot")
    plain = recipe_for(kitchen, replace(carrot, joined=replace(carrot.joined, value=0.125, predictive=None)))
    assert plain.fresh_per_dried == Span(8.0, 8.0, 8.0)
    wide = replace(carrot.joined, value=0.9, predictive=Predictive(9.0, math.log(0.9), 0.5))
    span = recipe_for(kitchen, replace(carrot, joined=wide)).fresh_per_dried
    assert (span.value, span.low) == (pytest.approx(1 / 0.9), 1.0)
    assert span.high == pytest.approx(1 / wide.predictive.low)


def test_a_load_names_the_usual_tray_load_where_none_of_her_own_stands_behind_it():
    """The dryer it goes into counts: a load that was weighed in another one says nothing of this one's trays."""
    stew = (
        Meal("stew", 1.0, id=1),
        MealPart(1, 0, "carrot", "carrot", mass=Mass(30.0), id=1),
        Trip("lakes", NOW.date() + timedelta(days=30), NOW.date() + timedelta(days=33), 2, id=1),
        TripMeal(1, 1, NOW.date() + timedelta(days=30), id=1),
    )
    weighed = Batch("carrot", prepared_mass=Mass(3000.0), dried_mass=Mass(400.0), trays=6, id=1)
    for dryer, assumed in ((None, True), (1, False), (2, True)):
        kitchen = Kitchen(
            FakeJournal(SHELF, BOX, *stew, replace(weighed, dryer=dryer)), handbook(), lambda: NOW, UTC
        )
        (item,) = plan(kitchen, 1).items
        lines = [line for line in item.loads if line.startswith("shelf dryer: ")]
        if dryer != 2:
            assert lines
        assert all(("one layer, 4 kg per m²" in line) is assumed for line in lines)


def test_what_is_prepared_has_ends_only_where_its_yield_strays():
    kitchen = a_kitchen()
    carrot = known(kitchen, "carrot")
    need = Need(NOW.date(), "carrot", 100.0)
    for low, high, ends in ((800.0, 800.0, (None, None)), (700.0, 900.0, (700.0, 900.0))):
        batch = ToDry("carrot", 100.0, Span(800.0, low, high), None)
        made = SimpleNamespace(runs=())
        item = item_of(kitchen, carrot, batch, [need], Cover((), (need,)), made, 0.0)
        assert (item.prepared.value, item.prepared.low, item.prepared.high) == (800.0, *ends)
        assert (item.left_over, item.latest_start, item.loads) == (100.0, None, ())
        assert (item.needed, item.shelved) == (100.0, 0.0)
    bare = ToDry("carrot", 100.0, None, None)
    nothing = item_of(kitchen, carrot, bare, [need], Cover((), (need,)), SimpleNamespace(runs=()), 0.0)
    assert (nothing.prepared, nothing.purchased) == (None, None)
