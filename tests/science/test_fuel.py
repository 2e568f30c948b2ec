"""The fuel of a trip."""

import pytest

from dryhouse.science.fuel import burnt, heat_of_pot, heat_to_boil, own_fuel
from dryhouse.science.values import Basis, Fact, Figure
from tests.workings import read

SEA_LEVEL, COLD, EACH = Figure(100.0, "degC"), Fact(10.0, "°C", "a lake"), Fact(4.19, "kJ per kg and °C", "tables")


def test_a_liter_from_10_degrees_takes_90_degrees_of_it():
    assert heat_to_boil(1000.0, COLD, SEA_LEVEL, EACH).value == pytest.approx(4.19 * 90)
    assert heat_to_boil(0.0, COLD, SEA_LEVEL, EACH).value == 0.0
    assert heat_to_boil(1000.0, Fact(100.0, "°C", "a kettle"), Figure(90.0, "degC"), EACH).value == 0.0


def test_half_of_the_fuels_heat_ends_in_the_water_and_that_is_said_to_be_assumed():
    heat = heat_to_boil(1000.0, COLD, SEA_LEVEL, EACH)
    found = burnt(heat, Fact(50.0, "%", "an assumption"))
    assert found.value == pytest.approx(2 * heat.value)
    assert found.basis[-1].kind == "assumption"
    assert "an assumption" in read(found.workings)


def test_own_grams_for_a_liter_count_by_the_heat_of_as_many_liters():
    liter, pot = (heat_to_boil(ml, COLD, SEA_LEVEL, EACH) for ml in (1000.0, 2500.0))
    found = own_fuel(pot, liter, Fact(8.0, "g", "weighed", "entered"))
    assert (found.value, found.unit) == (pytest.approx(20.0), "g")
    assert found.basis == (Basis("own", "weighed", 1),)


def test_what_boils_off_takes_its_own_heat_along():
    boiling = heat_to_boil(1000.0, COLD, SEA_LEVEL, EACH)
    steam = Fact(2257.0, "kJ per kg", "tables")
    found = heat_of_pot(boiling, 100.0, steam)
    assert (found.value, found.unit, found.as_is) == (pytest.approx(4.19 * 90 + 225.7), "kJ", True)
    assert [basis.source for basis in found.basis] == ["a lake", "tables"]
    assert read(found.workings).split("\n")[-1] == "Together 602.8 kJ"
    assert heat_of_pot(boiling, 0.0, steam) is boiling
    other = heat_of_pot(boiling, 100.0, Fact(2257.0, "kJ per kg", "other tables"))
    assert [basis.source for basis in other.basis] == ["a lake", "tables", "other tables"]
    assert all(figure.as_is for figure in (boiling, burnt(boiling, Fact(50.0, "%", "an assumption"))))
