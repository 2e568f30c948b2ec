"""Where a precook is not recorded, a stop with a USDA or extension source is on every surface there is."""

from __future__ import annotations

import pytest

from dryhouse.kitchen.batches.log import BatchDraft
from dryhouse.kitchen.cards.batch_card import batch_card, draft_card
from dryhouse.kitchen.cautions.cautions import batch_cautions, food_cautions, lot_cautions, meal_cautions
from dryhouse.kitchen.dryer.runs import run_of
from dryhouse.kitchen.meals.sheet import meal_sheet
from dryhouse.kitchen.records import Batch, Meal, MealPart
from dryhouse.kitchen.shelf.labels import lot_labels
from dryhouse.kitchen.shelf.packing import Package, pack
from dryhouse.kitchen.shelf.shelf import keep_by_figure, keeps
from dryhouse.kitchen.yields.quick_answers import target, water
from dryhouse.kitchen.yields.yields import yields
from dryhouse.science.display import Style
from dryhouse.science.quantities import Mass
from tests.kitchen.shelf_room import FREEZER, a_batch, a_shelf, shelf_line
from tests.rows import every_row

ANIMALS = ("turkey", "ground-beef", "beef-jerky", "venison-jerky", "salmon", "egg", "cheese")
WORDS = ("No record of heating", "at home: do not eat", "Egg", "Dairy")


def has_stop(cautions):
    assert any(c.severity == "stop" for c in cautions)
    assert any("USDA" in c.source or "Extension" in c.source for c in cautions)


@pytest.fixture(params=ANIMALS)
def food(request):
    return request.param


@pytest.fixture
def kitchen(food):
    return a_shelf(a_batch(food), Meal("supper", id=1), MealPart(1, 1, food, food, mass=Mass(50.0), id=1))


@pytest.fixture
def lot(kitchen):
    return pack(kitchen, 1, [Package(mass=Mass(100.0), place=FREEZER)]).record


def test_the_food_the_form_and_the_batch(kitchen, food):
    has_stop(food_cautions(kitchen, food))
    has_stop(batch_cautions(kitchen, BatchDraft(Batch(food))))
    has_stop(batch_cautions(kitchen, kitchen.journal.get(Batch, 1)))


def test_the_card_and_every_figure_on_it(kitchen, food):
    for card in (batch_card(kitchen, 1), draft_card(kitchen, BatchDraft(Batch(food)))):
        has_stop(card.cautions)
        for figure in (f.figure for f in card.figures):
            has_stop(figure.cautions)


def test_the_running_batch(kitchen):
    has_stop(run_of(kitchen, 1).cautions)


def test_the_shelf_and_the_lot(kitchen, lot):
    line = shelf_line(kitchen, lot.id)
    assert (line.standing, line.keep_by) == ("do not eat", None)
    has_stop(lot_cautions(kitchen, lot))
    figure = keep_by_figure(kitchen, lot)
    if figure is not None:
        has_stop(figure.cautions)


def test_the_label(kitchen, lot):
    (label,) = lot_labels(kitchen, [lot.id], Style())
    assert any(word in stop for word in WORDS for stop in label.stops)


def test_the_meal(kitchen):
    has_stop(meal_cautions(kitchen, kitchen.journal.get(Meal, 1)))
    has_stop(meal_sheet(kitchen, 1).cautions)


@every_row("food", ["turkey", "ground-beef", "beef-jerky"])
def test_answers_at_the_bench(food):
    kitchen = a_shelf()
    has_stop(target(kitchen, food, "1 kg", moisture="10").cautions)
    has_stop(water(kitchen, food, "50 g")[0].cautions)
    has_stop(keeps(kitchen, food, 20.0).cautions)
    has_stop(yields(kitchen, food, Mass(1000.0)).joined.cautions)
