"""The rows of a plan, which window, paper and command line share."""

from datetime import UTC, date, datetime, timedelta

import pytest

from dryhouse.handbook.reader import handbook
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.records import Dryer, Meal, MealPart, Trip, TripMeal
from dryhouse.kitchen.trips.plan_rows import buy_rows, meal_rows, run_rows
from dryhouse.kitchen.trips.provisioning import plan
from dryhouse.science.display import Style
from dryhouse.science.quantities import Area, Mass, Temperature
from tests.fakes import FakeJournal

NOW = datetime(2026, 8, 1, 9, tzinfo=UTC)
DAY = date(2026, 9, 20)


@pytest.fixture
def kitchen():
    foods = (("apple", 30.0), ("ground-beef", 20.0))
    journal = FakeJournal(
        Dryer("shelf dryer", 6, Area(1000.0), id=1),
        Meal("stew", 1.0, id=1),
        *(MealPart(1, n, food, food, mass=Mass(grams), id=n + 1) for n, (food, grams) in enumerate(foods)),
        Trip("lakes", DAY, DAY + timedelta(days=4), 2, temperature=Temperature(18.0), id=1),
        *(TripMeal(1, 1, DAY + timedelta(days=n), id=n + 1) for n in range(3)),
    )
    return Kitchen(journal, handbook(), lambda: NOW, UTC)


def test_a_run_says_when_where_how_hot_what_and_what_comes_after(kitchen):
    fruit, meat = run_rows(kitchen, plan(kitchen, 1), Style())
    (apple,), (beef,) = fruit.loads, meat.loads
    assert fruit.line.startswith(fruit.when)
    assert "shelf dryer at 140 °F: apple" in fruit.line
    assert apple.amount.endswith("trays")
    assert apple.after.startswith("condition 10 days, ready ")
    assert beef.after == "into the freezer once it is cool, until you leave"
    assert "h (" in apple.takes
    assert fruit.start < fruit.end < meat.start


def test_bags_of_one_meal_stand_in_one_row(kitchen):
    (row,) = meal_rows(plan(kitchen, 1), Style())
    assert row.line.startswith("3 days, 20 Sep to 22 Sep, dinner: stew for 2, do not eat")
    assert row.cautions


def test_the_list_names_food_as_the_shop_does(kitchen):
    told = {aisle: [row.line for row in rows] for aisle, rows in buy_rows(plan(kitchen, 1), Style())}
    assert set(told) == {"Produce", "Meat and fish"}
    assert told["Meat and fish"][0].startswith("ground beef, raw ")


def test_what_is_needed_is_said_beside_what_is_bought(kitchen):
    told = [row for _, rows in buy_rows(plan(kitchen, 1), Style()) for row in rows]
    assert [row.needs for row in told] == ["2 lb 7 oz", "13 oz"]
    assert [row.amount for row in told] == ["2 lb 8 oz", "1 lb"]
