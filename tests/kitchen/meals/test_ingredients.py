"""What goes into a meal: what it holds per 100 g dried, from the lot's own batch where there is one."""

from dataclasses import replace
from datetime import date

import pytest

from dryhouse.handbook.reader import handbook
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.meals.ingredients import identify_ingredient, ingredient, lot_density
from dryhouse.kitchen.records import Batch, BatchPart, Lot, MealPart
from dryhouse.kitchen.yields.composition import dried_composition
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Mass, Volume
from tests.builders import APPLE, CORN, NOW, TURKEY, a_kitchen, fact
from tests.fakes import FakeJournal
from tests.rows import every_row
from tests.told import told

FATTY = replace(
    CORN,
    facts={
        "water": fact(70.0),
        "target_moisture": fact(10.0),
        "energy": fact(120.0, "kcal"),
        "fat": fact(8.0, "g"),
        "protein": fact(5.0, "g"),
    },
)
DRIED = Batch("corn", cooked_mass_in=Mass(1000.0), cooked_mass_out=Mass(800.0), dried_mass=Mass(320.0), id=1)


def holds(food, batch=None, *records):
    found = dried_composition(a_kitchen(*records), food, batch, None)
    return {name: fact.value for name, fact in found.items()}


def test_dry_matter_is_conserved_between_the_two_published_moistures():
    assert holds(FATTY)["protein"] == pytest.approx(5.0 * 90 / 30)


def test_the_lots_own_batch_says_how_many_fresh_grams_one_dried_gram_was():
    assert holds(FATTY, DRIED)["energy"] == pytest.approx(120 * 1000 / 320)


def test_a_batch_that_would_make_dry_matter_is_not_believed():
    light = replace(DRIED, dried_mass=Mass(150.0))
    assert holds(FATTY, light) == holds(FATTY)


def test_fat_that_was_poured_off_is_not_eaten():
    # 64 g of fat from 1000 g: 20 g for each 100 g dried, 180 kcal of it
    lean = replace(DRIED, drained_fat=Mass(64.0))
    whole, left = holds(FATTY, DRIED), holds(FATTY, lean)
    assert whole["fat"] - left["fat"] == pytest.approx(20.0)
    assert whole["energy"] - left["energy"] == pytest.approx(180.0)
    assert left["protein"] == whole["protein"]


def test_more_fat_than_there_was_leaves_both_figures_missing():
    found = holds(FATTY, replace(DRIED, drained_fat=Mass(200.0)))
    assert set(found) == {"protein"}


def test_figures_of_cooked_food_go_by_what_was_loaded_cooked():
    cooked = replace(TURKEY, facts={**TURKEY.facts, "energy": fact(150.0, "kcal")})
    batch = Batch("turkey", cooked_mass_in=Mass(1400.0), prepared_mass=Mass(1000.0), dried_mass=Mass(380.0), id=1)
    assert holds(cooked, batch)["energy"] == pytest.approx(150 * 1000 / 380)


def test_a_mix_is_the_sum_of_what_went_in_and_a_hole_stays_a_hole():
    batch = Batch("apple", dried_mass=Mass(200.0), id=1)
    parts = (BatchPart(1, 0, "corn", Mass(300.0), id=1), BatchPart(1, 1, "turkey", Mass(100.0), id=2))
    found = dried_composition(a_kitchen(batch, *parts), APPLE, batch, None)
    assert "energy" not in found


def test_a_lots_own_mass_and_volume_are_its_bulk_density():
    lot = Lot("corn", None, mass=Mass(90.0), volume=Volume(180.0), id=1)
    assert lot_density(lot).value == 0.5
    assert lot_density(replace(lot, volume=None)) is None
    by_cup = ingredient(a_kitchen(lot), MealPart(1, 0, "corn", "corn", lot=1, volume=Volume(100.0)))
    assert by_cup.grams == pytest.approx(50.0)


def test_a_staple_whose_name_begins_as_typed_is_not_taken_for_a_food_to_dry():
    kitchen = Kitchen(FakeJournal(), handbook(), lambda: NOW)
    with told(InputProblem, "dry milk, nonfat, instant, bought; dry milk, whole, bought"):
        identify_ingredient(kitchen, "dry milk")
    assert identify_ingredient(kitchen, "dry milk, whole").slug == "milk-whole-dry"
    assert identify_ingredient(kitchen, "milk").kind == "dried"


@every_row(
    ("mass", "volume", "density"),
    [(120.0, 300.0, 0.4), (120.0, None, None), (None, 300.0, None), (120.0, 0.0, None)],
)
def test_a_lot_of_which_both_are_recorded_says_what_a_milliliter_of_it_weighs(mass, volume, density):
    lot = Lot(
        "corn",
        date(2026, 8, 1),
        mass=Mass(mass) if mass is not None else None,
        volume=Volume(volume) if volume is not None else None,
    )
    found = lot_density(lot)
    assert (None if found is None else found.value) == density
    assert lot_density(None) is None


@every_row(("dried", "believed"), [(240.0, True), (238.5, False), (500.0, True)])
def test_a_batch_lighter_than_its_dry_matter_is_not_believed_to_hold_what_it_says(dried, believed):
    """76.05 % of water leave 239.5 g of a kilogram."""
    known = replace(FATTY, facts={**FATTY.facts, "water": fact(76.05)})
    kitchen = a_kitchen()
    batch = Batch("corn", prepared_mass=Mass(1000.0), dried_mass=Mass(dried), id=1)
    plain = dried_composition(kitchen, known, None, None)["energy"].value
    found = dried_composition(kitchen, known, batch, None)["energy"].value
    assert found == pytest.approx(120.0 * 1000.0 / dried if believed else plain)
