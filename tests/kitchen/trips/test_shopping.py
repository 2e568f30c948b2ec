"""The shopping list: forms that are remembered, amounts as shops sell them, aisles, ticks."""

from datetime import UTC, date, datetime, timedelta

import pytest

from dryhouse.handbook.reader import handbook
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.ports import Change
from dryhouse.kitchen.records import Dryer, Lot, Meal, MealPart, Trip, TripMeal
from dryhouse.kitchen.settings import UNITS_KEY, set_preference
from dryhouse.kitchen.trips.provisioning import plan
from dryhouse.kitchen.trips.shopping import buy_as, forms_of, tick
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Area, Mass, Temperature
from dryhouse.science.units import SIZES
from tests.fakes import FakeJournal

NOW = datetime(2026, 8, 1, 9, tzinfo=UTC)
DAY = date(2026, 9, 20)


@pytest.fixture
def kitchen():
    parts = [("corn", "", 30.0), ("ground-beef", "", 20.0), ("lentil", "", 30.0), ("apple", "", 20.0)]
    parts += [("", "rice-white", 80.0), ("", "olive-oil", 10.0)]
    journal = FakeJournal(
        Dryer("shelf dryer", 6, Area(1000.0), id=1),
        Meal("stew", 1.0, id=1),
        *(
            MealPart(1, n, food or staple, food, staple, mass=Mass(grams), id=n + 1)
            for n, (food, staple, grams) in enumerate(parts)
        ),
        Trip("lakes", DAY, DAY + timedelta(days=1), 4, temperature=Temperature(18.0), id=1),
        TripMeal(1, 1, DAY, id=1),
    )
    return Kitchen(journal, handbook(), lambda: NOW, UTC)


def bought(kitchen, key):
    return next(line for line in plan(kitchen, 1).shopping if line.key == key)


def test_corn_is_bought_as_cobs_kernels_frozen_or_canned_and_the_choice_is_remembered(kitchen):
    cobs = bought(kitchen, "dry corn")
    assert cobs.forms == ("fresh", "ready", "frozen", "canned", "dried")
    assert cobs.note == "on the cob, in the husk"
    assert cobs.pieces.endswith("medium ears")
    buy_as(kitchen, "corn", "frozen")
    kernels = bought(kitchen, "dry corn")
    # 64 % of corn in the husk is refuse
    assert kernels.amount.value == pytest.approx(cobs.amount.value * 0.36)
    assert (kernels.form, kernels.aisle, kernels.pieces) == ("frozen", "Frozen", "")
    assert bought(kitchen, "dry corn").form == "frozen"


def test_food_bought_dried_is_not_dried(kitchen):
    buy_as(kitchen, "apple", "dried")
    worked = plan(kitchen, 1)
    assert "apple" not in {item.food for item in worked.items}
    assert "apple" not in {load.food for run in worked.calendar.runs for load in run.loads}
    line = bought(kitchen, "dry apple")
    assert (line.amount.value, line.for_drying, line.aisle) == (80.0, False, "Dried fruit and nuts")
    (apple,) = [part for part in worked.bags[0].parts if part.name == "apple"]
    assert apple.source == "to be bought dried"


def test_what_comes_as_dry_as_it_would_be_dried_is_bought_so(kitchen):
    dates = MealPart(1, 9, "date", "date", "", mass=Mass(25.0), id=9)
    kitchen.journal.write([Change(None, dates)])
    worked = plan(kitchen, 1)
    assert "date" not in {item.food for item in worked.items}
    line = bought(kitchen, "dry date")
    assert (line.amount.value, line.form, line.for_drying) == (100.0, "dried", False)
    buy_as(kitchen, "date", "ready")
    (item,) = [item for item in plan(kitchen, 1).items if item.food == "date"]
    assert item.prepared.low >= item.dried.value


def test_meat_is_bought_raw_and_beans_dry_with_the_raw_amount(kitchen):
    items = {item.food: item for item in plan(kitchen, 1).items}
    beef, lentil = bought(kitchen, "dry ground-beef"), bought(kitchen, "dry lentil")
    assert beef.amount.value > items["ground-beef"].prepared.value
    assert lentil.amount.value < items["lentil"].prepared.value
    buy_as(kitchen, "lentil", "canned")
    assert bought(kitchen, "dry lentil").amount == items["lentil"].prepared


def test_amounts_are_rounded_up_to_what_shops_sell(kitchen):
    lines = plan(kitchen, 1).shopping
    assert all(line.amount.value <= line.to_buy.value + 1e-9 for line in lines)
    halves = bought(kitchen, "dry apple").to_buy.value / (SIZES["lb"] / 2)
    assert halves == pytest.approx(round(halves))
    set_preference(kitchen, UNITS_KEY, "metric")
    assert bought(kitchen, "dry apple").to_buy.value % 250 == pytest.approx(0.0, abs=1e-6)


def test_the_list_goes_by_aisle_what_is_dried_first(kitchen):
    lines = plan(kitchen, 1).shopping
    assert [line.aisle for line in lines if line.for_drying] == ["Produce", "Produce", "Meat and fish", "Dry goods"]
    assert [line.aisle for line in lines if not line.for_drying] == ["Dry goods", "Oil and seasoning"]


def test_a_line_is_ticked_and_the_tick_taken_back(kitchen):
    tick(kitchen, 1, "dry corn", True)
    tick(kitchen, 1, "rice-white", True)
    assert {line.key for line in plan(kitchen, 1).shopping if line.ticked} == {"dry corn", "rice-white"}
    done = tick(kitchen, 1, "dry corn", False)
    assert not bought(kitchen, "dry corn").ticked
    kitchen.journal.write(done.undone().changes)
    assert bought(kitchen, "dry corn").ticked


def test_a_form_a_food_is_not_sold_in_is_refused(kitchen):
    with pytest.raises(InputProblem, match="ground beef, cooked is bought in; choose raw, cooked, dried"):
        buy_as(kitchen, "ground-beef", "canned")
    assert forms_of(handbook().food("parsley"))[0] == "fresh"


def on_the_shelf(kitchen, food, grams, keep_by=date(2027, 6, 1)):
    lot = Lot(food, date(2026, 7, 1), mass=Mass(grams), bought_keep_by=keep_by, origin="bought", id=7)
    kitchen.journal.write([Change(None, lot)])


def test_a_staple_on_the_shelf_is_not_bought_again(kitchen):
    """Four servings of 80 g of rice are 320 g; 200 g are there."""
    on_the_shelf(kitchen, "rice-white", 200.0)
    worked = plan(kitchen, 1)
    rice = bought(kitchen, "rice-white")
    assert rice.amount.value == pytest.approx(120.0)
    assert rice.note == "7 oz more is on the shelf"
    (packed,) = [part for part in worked.bags[0].parts if part.name == "rice-white"]
    assert packed.source.endswith("lot 7, 4.2 oz bought")
    assert [(draw.lot, draw.grams) for draw in worked.cover.draws] == [(7, pytest.approx(200.0))]


def test_a_staple_that_the_shelf_covers_is_not_on_the_list(kitchen):
    on_the_shelf(kitchen, "rice-white", 500.0)
    assert "rice-white" not in {line.key for line in plan(kitchen, 1).shopping}
    (packed,) = [part for part in plan(kitchen, 1).bags[0].parts if part.name == "rice-white"]
    assert "bought" not in packed.source


def test_a_staple_past_its_date_is_bought_again(kitchen):
    on_the_shelf(kitchen, "rice-white", 500.0, keep_by=date(2026, 8, 20))
    assert bought(kitchen, "rice-white").amount.value == pytest.approx(320.0)


def test_bought_rice_does_not_stand_in_for_rice_that_was_cooked_and_dried(kitchen):
    part = MealPart(1, 9, "cooked rice", "rice-white", mass=Mass(50.0), id=90)
    kitchen.journal.write([Change(None, part)])
    on_the_shelf(kitchen, "rice-white", 500.0)
    worked = plan(kitchen, 1)
    assert "rice-white" in {item.food for item in worked.items}
