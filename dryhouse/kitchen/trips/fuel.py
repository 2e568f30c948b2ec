"""The fuel of a trip: what has to be boiled, and what that takes."""

from __future__ import annotations

from dataclasses import dataclass

from dryhouse.handbook.boiling import boiling_tables
from dryhouse.handbook.pot import pot
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.ports import Done
from dryhouse.kitchen.records import Preference
from dryhouse.kitchen.records.meals import COLD_SOAK
from dryhouse.kitchen.settings import preference, set_preference
from dryhouse.kitchen.trips.sheet import TripSheet, altitude_of
from dryhouse.science.boiling import boiling_point
from dryhouse.science.display import Style
from dryhouse.science.errors import InputProblem
from dryhouse.science.fuel import burnt, heat_to_boil, own_fuel
from dryhouse.science.quantities import Mass
from dryhouse.science.values import Fact, Figure
from dryhouse.words.trip_plans import OWN_FUEL, fuel_not_weighed, fuel_weighed

KEY = "fuel_per_liter"
_MOST_G = 500.0


@dataclass(frozen=True, slots=True)
class Fuel:
    """What the pots of a trip boil, the heat that takes, what the stove burns for it, and its fuel by own grams."""

    water: Figure
    heat: Figure
    burnt: Figure
    grams: Figure | None
    """None until she has weighed what a liter takes."""


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


def trip_fuel(kitchen: Kitchen, sheet: TripSheet) -> Fuel:
    """The fuel of every pot that is boiled; a cold soak takes none."""
    pots = [
        eaten.sheet.bag.water.value
        for day in sheet.days
        for eaten in day.meals
        if eaten.sheet.meal.cooking != COLD_SOAK
    ]
    water = sum(pots)
    boils = boiling_point(altitude_of(sheet.trip) or 0.0, boiling_tables())
    heat = heat_to_boil(water, pot("cold_water"), boils, pot("water_heat"))
    own = fuel_per_liter(kitchen)
    return Fuel(
        water=Figure(water, "ml"),
        heat=heat,
        burnt=burnt(heat, pot("stove_efficiency")),
        grams=None if own is None else own_fuel(water, Fact(own, "g per liter", OWN_FUEL, "entered")),
    )


def fuel_words(fuel: Fuel, style: Style) -> str:
    """`9 oz of fuel by your own weighing`, or the heat that boiling takes and what a stove burns for it."""
    if fuel.water.value <= 0:
        return ""
    if fuel.grams is not None:
        return fuel_weighed(style.mass(fuel.grams.value))
    return fuel_not_weighed(fuel.heat.value, fuel.burnt.value, pot("stove_efficiency").value)
