"""The fuel of a trip: what has to be boiled, and what that takes."""

from __future__ import annotations

from dataclasses import dataclass

from dryhouse.handbook.pot import pot
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.meals.heat import fuel_per_liter, pot_heat
from dryhouse.kitchen.trips.sheet import TripSheet, altitude_of
from dryhouse.science.display import Style
from dryhouse.science.values import Figure
from dryhouse.words.trip_plans import fuel_not_weighed, fuel_weighed


@dataclass(frozen=True, slots=True)
class Fuel:
    """What the pots of a trip boil, the heat that takes, what the stove burns for it, and its fuel by own grams."""

    water: Figure
    heat: Figure
    burnt: Figure
    grams: Figure | None
    """None until she has weighed what a liter takes."""


def trip_fuel(kitchen: Kitchen, sheet: TripSheet) -> Fuel:
    """The fuel of every pot on the stove; a cold soak and what needs no pot take none."""
    pots = [eaten.sheet for day in sheet.days for eaten in day.meals if eaten.sheet.heat is not None]
    water = sum(each.bag.water.value for each in pots)
    steam = sum(each.steam_ml for each in pots)
    took = pot_heat(water, steam, altitude_of(sheet.trip), fuel_per_liter(kitchen))
    return Fuel(Figure(water, "ml"), took.heat, took.burnt, took.grams)


def fuel_words(fuel: Fuel, style: Style) -> str:
    """`9 oz of fuel by your own weighing`, or the heat that boiling takes and what a stove burns for it."""
    if fuel.water.value <= 0:
        return ""
    if fuel.grams is not None:
        return fuel_weighed(style.mass(fuel.grams.value))
    return fuel_not_weighed(fuel.heat.value, fuel.burnt.value, pot("stove_efficiency").value)
