"""The heat and the fuel of one pot."""

from datetime import UTC, datetime

import pytest

from dryhouse.handbook.reader import handbook
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.meals.heat import KEY, fuel_per_liter, pot_heat, set_fuel_per_liter
from dryhouse.kitchen.records import Preference
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Mass
from dryhouse.words.cooking_ways import heat_words
from tests.fakes import FakeJournal
from tests.rows import every_row


def test_a_liter_from_a_lake_is_brought_to_the_boil_and_some_of_it_boiled_off():
    """Steam tables (IAPWS-IF97): 419.0 less 42.1 kJ to boil a kilogram, 2676 less 419 kJ to turn it to steam."""
    boiled = pot_heat(1000.0, 0.0, None, None)
    assert boiled.heat.value == pytest.approx(419.0 - 42.1, rel=0.01)
    simmered = pot_heat(1000.0, 100.0, None, None)
    assert simmered.heat.value - boiled.heat.value == pytest.approx(225.7, rel=0.001)
    assert simmered.burnt.value == pytest.approx(2 * simmered.heat.value)
    assert simmered.grams is None


def test_her_own_grams_are_for_a_liter_boiled_and_simmering_takes_its_share():
    assert pot_heat(2000.0, 0.0, None, 10.0).grams.value == pytest.approx(20.0, rel=0.01)
    assert pot_heat(1000.0, 100.0, None, 10.0).grams.value == pytest.approx(
        10.0 * (377.1 + 225.7) / 377.1, rel=0.01
    )


def test_fuel_is_said_as_it_is_known():
    assert heat_words(None, None) == "no fuel"
    assert heat_words(384.0, None) == "380 kJ of heat"
    assert heat_words(384.0, "0.4 oz") == "0.4 oz of fuel"


def test_the_most_that_is_taken_is_kept():
    kitchen = Kitchen(FakeJournal(), handbook(), lambda: datetime(2026, 8, 1, tzinfo=UTC), UTC)
    set_fuel_per_liter(kitchen, Mass(500.0))
    assert fuel_per_liter(kitchen) == 500.0


@every_row("text", ["0", "-9", "500.1", "nan", "a spoonful", ""])
def test_what_no_stove_burns_is_as_if_nobody_had_said(text):
    kept = Preference(KEY, text, id=1)
    kitchen = Kitchen(FakeJournal(kept), handbook(), lambda: datetime(2026, 8, 1, tzinfo=UTC), UTC)
    assert fuel_per_liter(kitchen) is None


def test_where_no_height_is_told_water_boils_as_at_the_sea_and_higher_up_it_takes_less():
    sea, unknown, high = (pot_heat(1000.0, 0.0, height, 10.0) for height in (0.0, None, 3000.0))
    assert unknown == sea
    assert high.heat.value < sea.heat.value
    assert high.grams.value < sea.grams.value == pytest.approx(10.0)


@every_row(("grams", "taken"), [(0.0, False), (0.5, True), (500.0, True), (500.5, False)])
def test_what_a_liter_takes_is_more_than_nothing_and_no_more_than_half_a_kilogram(grams, taken):
    kitchen = Kitchen(FakeJournal(), handbook(), lambda: datetime(2026, 8, 1, tzinfo=UTC), UTC)
    if not taken:
        with pytest.raises(InputProblem, match="between 0 and 500 g"):
            set_fuel_per_liter(kitchen, Mass(grams))
        return
    set_fuel_per_liter(kitchen, Mass(grams))
    assert fuel_per_liter(kitchen) == grams
    set_fuel_per_liter(kitchen, None)
    assert fuel_per_liter(kitchen) is None
