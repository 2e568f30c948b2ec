"""One jar has one water, wherever it is asked; and no water is said of a mass that is not known."""

from __future__ import annotations

import json
from dataclasses import replace
from datetime import date

import pytest

from dryhouse.cli import main
from dryhouse.handbook.tables import Food
from dryhouse.journal.opening import open_journal
from dryhouse.kitchen.cards.batch_card import batch_card
from dryhouse.kitchen.foods.catalog import food
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.meals.meals import draft_part
from dryhouse.kitchen.meals.sheet import sheet_of
from dryhouse.kitchen.ports import Change
from dryhouse.kitchen.records import CookingNote, CookingNotePart, Meal, Trip, TripMeal
from dryhouse.kitchen.shelf.labels import lot_labels
from dryhouse.kitchen.trips.lists import packing_list
from dryhouse.kitchen.trips.provisioning import plan
from dryhouse.kitchen.yields.jar_water import jar_ratio, notes_on
from dryhouse.kitchen.yields.quick_answers import water
from dryhouse.science.display import METRIC, Style
from dryhouse.science.quantities import Mass, Temperature, Volume
from dryhouse.science.statuses import FigureId
from tests.builders import a_kitchen
from tests.kitchen.shelf_room import NOW, ROOM, a_batch, a_shelf, packed

DAY = date(2026, 11, 27)
POT = Meal("pot", 1.0, liquid="dry", boil_off_ml_per_min=0.0, id=1)
TRIP = Trip("lakes", DAY, DAY, 1, temperature=Temperature(18.0), id=1)
WET_CORN = a_batch(dried_mass=Mass(330.0))
"""1000 g that came to 330 g: no more than 2.03 ml go back into a gram, where dried corn takes up 2.21."""
SOUPY = (
    CookingNote(1, date(2026, 10, 1), id=1),
    CookingNote(1, date(2026, 10, 8), id=2),
    *(CookingNotePart(note, "corn", "soupy", "corn", id=note) for note in (1, 2)),
)


@pytest.mark.parametrize("notes", [(), SOUPY])
def test_one_jar_has_one_water_on_six_surfaces(tmp_path, capsys, notes):
    file = str(tmp_path / "j.dryhouse")
    journal = open_journal(tmp_path / "j.dryhouse", write=True)
    journal.write([Change(None, r) for r in (*ROOM, WET_CORN, POT, TRIP, TripMeal(1, 1, DAY, id=1), *notes)])
    kitchen = Kitchen(journal, a_shelf().handbook, lambda: NOW)
    lot = packed(kitchen)
    part = replace(draft_part(kitchen, "corn", "330 g", lot=lot.id), meal=1, id=1)
    journal.write([Change(None, part)])

    card = batch_card(kitchen, 1).figure(FigureId.WATER_BACK).value
    meal = sheet_of(kitchen, POT, [part]).parts[0].water.value
    worked = plan(kitchen, 1)
    (bag,) = packing_list(kitchen, worked.sheet, worked.cover, worked.lots)
    (label,) = lot_labels(kitchen, [lot.id], Style(METRIC))
    said = next(line for line in label.lines if line.startswith("Water"))
    journal.close()

    def answer(*arguments):
        assert main(["--journal", file, *arguments, "--json"]) == 0
        return json.loads(capsys.readouterr().out)

    (shelved,) = answer("shelf")["items"]
    typed = answer("water", "corn", "--dried", "330 g", "--lot", str(lot.id))

    same = pytest.approx(card, rel=1e-6)
    assert (meal, bag.parts[0].water.value, shelved["water"]["value"], typed["value"]) == (same,) * 4
    assert said.startswith(f"Water {card:.0f} ml")
    assert card == pytest.approx(670.0 if not notes else 330 * 2.21 * 0.85 ** (2 / 3))


def test_another_jar_of_the_same_food_goes_by_its_own_batch():
    kitchen = a_shelf(WET_CORN, a_batch(id=2))
    wet, dry = (water(kitchen, "corn", "100 g", batch)[0].value for batch in (WET_CORN, a_batch(id=2)))
    assert (wet, dry) == pytest.approx((203.03, 221.0), abs=0.1)


def test_where_the_weights_do_not_add_up_the_card_says_no_water():
    kitchen = a_shelf(a_batch(dried_mass=Mass(90.0)))
    assert not any(shown.id == FigureId.WATER_BACK for shown in batch_card(kitchen, 1).figures)


def test_a_jar_of_unknown_weight_has_no_water_on_its_label():
    kitchen = a_shelf(a_batch(dried_mass=None, dried_volume=None))
    (label,) = lot_labels(kitchen, [packed(kitchen).id], Style())
    assert not any("Water" in line for line in label.lines)


def test_a_packed_cup_of_greens_says_nothing_of_greens_that_were_weighed():
    kitchen = a_shelf()
    _, published = water(kitchen, "kale", "100 g")
    assert [p for p in published if "Bulletin 989" in p.basis[0].source] == []
    _, published = water(kitchen, "kale", "1 cup")
    assert published[0].measure.value == 1.0


def test_a_lot_of_another_food_is_not_asked_about(tmp_path, capsys):
    journal = open_journal(tmp_path / "j.dryhouse", write=True)
    journal.write([Change(None, r) for r in (*ROOM, WET_CORN)])
    packed(Kitchen(journal, a_shelf().handbook, lambda: NOW))
    journal.close()
    file = str(tmp_path / "j.dryhouse")
    assert main(["--journal", file, "water", "apple", "--dried", "50 g", "--lot", "1"]) == 2
    assert "another food" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("came_back", "water_used", "counts"),
    [("", None, True), ("", Volume(500.0), True), ("dry", Volume(500.0), True), ("dry", None, False)],
)
def test_a_note_that_says_how_the_whole_pot_came_back_without_its_water_is_counted_with_its_meal(
    came_back, water_used, counts
):
    note = CookingNote(1, DAY, came_back=came_back, water=water_used, id=1)
    kitchen = a_shelf(POT, note, CookingNotePart(1, "corn", "soupy", "corn", id=1))
    found = notes_on(kitchen, food(kitchen, "corn"))
    assert (found is not None) is counts


def test_of_food_nothing_is_known_of_the_weights_of_its_batch_are_believed():
    kitchen = a_kitchen()
    kitchen.handbook.foods["sorrel"] = Food("sorrel", "sorrel", (), "herb")
    batch = a_batch("sorrel", prepared_mass=Mass(1000.0), dried_mass=Mass(120.0))
    ratio = jar_ratio(kitchen, food(kitchen, "sorrel"), batch)
    assert (ratio.value, ratio.unit, [(b.kind, b.n) for b in ratio.basis]) == (0.12, "g/g", [("own", 1)])
    assert jar_ratio(kitchen, food(kitchen, "sorrel")) is None
    assert jar_ratio(kitchen, food(kitchen, "sorrel"), a_batch("sorrel", dried_mass=None)) is None
