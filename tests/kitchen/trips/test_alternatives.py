"""What would help where a plan cannot be met."""

from dataclasses import replace
from datetime import timedelta

from dryhouse.handbook.reader import handbook
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.records import Dryer, Meal, MealPart, OwnFood, Trip, TripMeal
from dryhouse.kitchen.trips.provisioning import plan
from dryhouse.science.quantities import Area, Mass
from tests.builders import NOW
from tests.fakes import FakeJournal
from tests.rows import every_row

TODAY = NOW.date()
DRYER = Dryer("shelf dryer", 6, Area(1000.0), id=1)


def alternatives(food="carrot", grams=60.0, days=20, bags=1, dryers=(DRYER,)):
    start = TODAY + timedelta(days=days)
    journal = FakeJournal(
        *dryers,
        OwnFood("relish", "relish", "vegetable", id=1),
        Meal("stew", 1.0, id=1),
        MealPart(1, 0, food, food, mass=Mass(grams), id=1),
        Trip("lakes", start, start + timedelta(days=9), 1, id=1),
        *(TripMeal(1, 1, start + timedelta(days=n), id=n + 1) for n in range(bags)),
    )
    return plan(Kitchen(journal, handbook(), lambda: NOW), 1).alternatives


def test_a_plan_that_can_be_met_gives_nothing():
    assert alternatives() == ()


@every_row(
    ("more", "why"),
    [
        ({"days": 1}, "the day before departure is past"),
        ({"days": 2, "grams": 600.0}, "the dryers have no"),
        ({"food": "apple", "days": 9}, "10 days of conditioning left before departure"),
        ({"dryers": ()}, "no dryer is recorded"),
        ({"dryers": (replace(DRYER, tray_area=None),)}, "no dryer has its tray area recorded"),
        ({"food": "relish"}, "its yield is not known yet"),
    ],
)
def test_the_reason_is_the_one_that_holds(more, why):
    said = alternatives(**more)
    assert why in said[0]
    assert any(line.startswith("Buy dried: ") for line in said)


def test_fewer_bags_are_counted_by_what_each_holds():
    said = alternatives(days=1, bags=5)
    assert "Fewer bags: leave out 5 of the 5 bags with carrot." in said


def test_a_second_dryer_is_named_only_where_it_helps():
    assert "Another dryer: with a second one like shelf dryer, everything fits." in alternatives(
        days=3, grams=1200.0
    )
    some = alternatives(days=3, grams=3000.0)
    assert any("a second one like shelf dryer" in line and "more fit" in line for line in some)
    assert not any("second" in line for line in alternatives(days=1))
