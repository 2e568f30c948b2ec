"""One line of a meal's card: mass and measure agree, water is what was lost, energy what is held."""

import pytest

from dryhouse.kitchen.meals.ingredients import ingredient
from dryhouse.kitchen.meals.lines import line_of
from dryhouse.kitchen.records import MealPart
from dryhouse.science.quantities import Mass, Volume
from tests.builders import a_kitchen


def line(**amount):
    return line_of(ingredient(a_kitchen(), MealPart(1, 0, "corn", "corn", **amount)))


def test_mass_and_measure_are_one_amount_through_the_bulk_density():
    by_mass, by_cup = line(mass=Mass(100.0)), line(volume=Volume(236.588))
    assert by_mass.ml == pytest.approx(236.588)
    assert by_cup.grams == pytest.approx(100.0)
    assert by_cup.water.value == pytest.approx(by_mass.water.value)


def test_the_water_is_what_left_the_tray():
    # from 76.05 % to 10 %: 100 g dried were 100 × 90 ÷ 23.95 g fresh, give or take what yields stray
    found = line(mass=Mass(100.0)).water
    assert found.low < 100 * (90 / 23.95 - 1) < found.high


def test_without_an_amount_the_line_counts_for_nothing_and_says_nothing():
    empty = line()
    assert (empty.grams, empty.ml, empty.water, empty.contents, empty.energy_kcal) == (None,) * 5


def test_energy_is_that_of_its_amount_and_none_where_it_is_not_published():
    assert line(mass=Mass(100.0)).energy_kcal is None
    assert line(mass=Mass(50.0), label_energy_kcal=360.0).energy_kcal == pytest.approx(180.0)
