"""The foods a trip asks to be dried: recipe, trays, company, conditioning."""

from dataclasses import replace

import pytest

from dryhouse.handbook.pot import pot
from dryhouse.handbook.reader import handbook
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.records import Batch, Dryer
from dryhouse.kitchen.trips.plan_items import conditioning_days, recipe_for, tray_grams
from dryhouse.kitchen.yields.knowledge import learn
from dryhouse.science.quantities import Area, Mass, Temperature
from tests.builders import NOW
from tests.fakes import FakeJournal

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
