"""The heat of one pot and the fuel it burns: what she weighed for a liter boiled, else the heat alone."""

from __future__ import annotations

from dataclasses import dataclass

from dryhouse.handbook.boiling import boiling_tables
from dryhouse.handbook.pot import pot
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.ports import Done
from dryhouse.kitchen.records import Preference
from dryhouse.kitchen.settings import preference, set_preference
from dryhouse.science.boiling import boiling_point
from dryhouse.science.errors import InputProblem
from dryhouse.science.fuel import burnt, heat_of_pot, heat_to_boil, own_fuel
from dryhouse.science.quantities import Mass
from dryhouse.science.values import Fact, Figure
from dryhouse.words.trip_plans import OWN_FUEL

KEY = "fuel_per_liter"
_MOST_G = 500.0
_SEA_LEVEL_C = 100.0


@dataclass(frozen=True, slots=True)
class PotHeat:
    """The heat that goes into a pot, what the stove burns for it, and its fuel by own grams."""

    heat: Figure
    burnt: Figure
    grams: Figure | None
    """None until she has weighed what a liter takes."""


def pot_heat(water_ml: float, steam_ml: float, altitude_m: float | None, own_g: float | None) -> PotHeat:
    """The heat that brings water to boiling and boils some of it off; `own_g` is her fuel for a liter boiled."""
    boils = boiling_point(altitude_m or 0.0, boiling_tables())
    boiling = heat_to_boil(water_ml, pot("cold_water"), boils, pot("water_heat"))
    heat = heat_of_pot(boiling, steam_ml, pot("vapor_heat"))
    grams = None
    if own_g is not None:
        liter = heat_to_boil(1000.0, pot("cold_water"), Figure(_SEA_LEVEL_C, "degC"), pot("water_heat"))
        grams = own_fuel(heat, liter, Fact(own_g, "g per liter", OWN_FUEL, "entered"))
    return PotHeat(heat, burnt(heat, pot("stove_efficiency")), grams)


def fuel_per_liter(kitchen: Kitchen) -> float | None:
    """Her own grams of fuel for a liter boiled; None until she says."""
    text = preference(kitchen, KEY)
    try:
        value = float(text)
    except ValueError:
        return None
    return value if 0 < value <= _MOST_G else None


def set_fuel_per_liter(kitchen: Kitchen, mass: Mass | None) -> Done[Preference]:
    """Remember what a liter takes; None forgets it. Raises InputProblem where it cannot be."""
    if mass is not None and not 0 < mass.si <= _MOST_G:
        raise InputProblem(
            "A liter boils on between 0 and 500 g of fuel; write what you weighed, such as 9 g.", "fuel"
        )
    return set_preference(kitchen, KEY, "" if mass is None else f"{mass.si:g}")
