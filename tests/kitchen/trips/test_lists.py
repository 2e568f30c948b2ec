"""What to buy and what goes into each bag."""

from dataclasses import replace
from datetime import date, timedelta

import pytest

from dryhouse.handbook.reader import handbook
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.records import Dryer, Lot, Meal, MealPart, Trip, TripMeal
from dryhouse.kitchen.trips.lists import packing_list
from dryhouse.kitchen.trips.provisioning import plan
from dryhouse.kitchen.trips.shopping import shopping_list
from dryhouse.science.quantities import Area, Mass, Temperature, Volume
from dryhouse.science.values import Figure
from tests.builders import NOW
from tests.fakes import FakeJournal

START = date(2027, 2, 1)
NEXT = START + timedelta(days=1)
PARTS = (
    MealPart(1, 0, "carrot", "carrot", mass=Mass(30.0), id=1),
    MealPart(1, 1, "Rice", staple="rice-white", mass=Mass(80.0), id=2),
    MealPart(1, 2, "camp sauce", volume=Volume(100.0), id=3),
    MealPart(2, 0, "rice from the shop", staple="rice-white", mass=Mass(50.0), id=4),
)
TRIP = Trip("lakes", START, NEXT, 2, temperature=Temperature(18.0), id=1)
LOT = Lot(
    "carrot", date(2026, 11, 1), "tall jar", mass=Mass(40.0), bought_keep_by=date(2027, 9, 1), origin="bought", id=7
)


@pytest.fixture
def kitchen():
    journal = FakeJournal(
        Meal("stew", 1.0, id=1), Meal("rice pot", 1.0, id=2), *PARTS, TRIP, LOT,
        Dryer("shelf dryer", 6, Area(1000.0), id=1), TripMeal(1, 1, START, id=1), TripMeal(1, 2, NEXT, id=2),
    )  # fmt: skip
    return Kitchen(journal, handbook(), lambda: NOW)


@pytest.fixture
def worked(kitchen):
    return plan(kitchen, 1)


def test_fresh_food_comes_first_as_purchased_then_what_the_bags_need(kitchen, worked):
    carrot, *bought = shopping_list(kitchen, worked.sheet, worked.items, worked.cover)
    assert (carrot.name, carrot.for_drying, carrot.note) == ("carrot", True, "as purchased")
    assert carrot.amount.value > worked.items[0].prepared.value
    assert not any(line.for_drying for line in bought)


def test_one_thing_is_one_line_whatever_the_meals_call_it(worked):
    rice = [line for line in worked.shopping if line.name.startswith("rice")]
    assert len(rice) == 1
    # two servings of 80 g and two of 50 g
    assert rice[0].amount.value == pytest.approx(260.0)


def test_what_has_no_weight_is_bought_by_measure(worked):
    (sauce,) = [line for line in worked.shopping if line.name == "camp sauce"]
    assert (sauce.amount.value, sauce.amount.unit) == (pytest.approx(200.0), "ml")
    assert sauce.note == "by measure; its weight is not known"


def test_each_bag_says_where_its_food_comes_from(kitchen, worked):
    stew, rice_pot = packing_list(kitchen, worked.sheet, worked.cover, worked.lots)
    assert (stew.day, stew.name, stew.servings) == (START, "stew", 2.0)
    told = {part.name: part.source for part in stew.parts}
    assert told == {
        "carrot": "1.4 oz of carrot, tall jar, 0.71 oz to be dried", "Rice": "bought", "camp sauce": "bought",
    }  # fmt: skip
    assert rice_pot.day == NEXT
    assert stew.water.value > rice_pot.water.value > 0


def test_every_gram_of_a_bag_is_drawn_or_to_be_dried(worked):
    drawn = sum(d.grams for d in worked.cover.draws)
    assert drawn + worked.cover.short_of("carrot") == pytest.approx(60.0)


def test_what_is_cooked_before_it_is_dried_is_bought_raw(kitchen, worked):
    """Ground beef crumbles: 0.69 to 0.71 g cooked for a gram raw (USDA cooking yields)."""
    beef = replace(
        worked.items[0],
        food="ground-beef",
        name="ground beef, cooked",
        purchased=None,
        prepared=Figure(710.0, "g", low=640.0, high=710.0),
    )
    first, *_ = shopping_list(kitchen, worked.sheet, [beef], worked.cover)
    assert first.note == "raw or dry, to be cooked before it is dried"
    assert 1000.0 <= first.amount.value <= 710.0 / 0.64
    assert first.amount.low <= first.amount.value <= first.amount.high
    odd = replace(beef, food="polenta", name="polenta, cooked")
    assert "not known" in shopping_list(kitchen, worked.sheet, [odd], worked.cover)[0].note
