"""The other ways to cook a meal: what each takes in minutes, water and fuel, one line each."""

from __future__ import annotations

from dataclasses import dataclass, replace

from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.meals.heat import PotHeat, pot_heat
from dryhouse.kitchen.meals.ingredients import Pantry
from dryhouse.kitchen.meals.remarks import not_softened
from dryhouse.kitchen.meals.sheet import MealSheet, cooking_line, sheet_of
from dryhouse.kitchen.meals.water import meal_water
from dryhouse.kitchen.records import Meal
from dryhouse.kitchen.records.meals import COLD_SOAK, WAYS
from dryhouse.science.display import Style
from dryhouse.science.values import Figure
from dryhouse.words.cooking_ways import heat_words, not_this_way, way_line


@dataclass(frozen=True, slots=True)
class Way:
    """One way to cook a meal; `never` says why not, where it must not or cannot be."""

    cooking: str
    line: str
    """Soak and cook in words."""
    soak: Figure
    cook: Figure
    flame: Figure
    water: Figure
    heat: PotHeat | None
    never: str = ""

    def sentence(self, style: Style) -> str:
        """`no soak: simmer 25 min; 1⅝ cups of water, 330 kJ of heat`."""
        if self.never:
            return not_this_way(self.cooking, self.never)
        return way_line(self.cooking, self.line, style.figure(self.water), fuel_of(self.heat, style))


def fuel_of(heat: PotHeat | None, style: Style) -> str:
    """The fuel of a pot where she weighed a liter's, else its heat; or that it takes none."""
    grams = None if heat is None or heat.grams is None else style.mass(heat.grams.value)
    return heat_words(None if heat is None else heat.heat.value, grams)


def other_ways(
    kitchen: Kitchen,
    sheet: MealSheet,
    *,
    altitude_m: float | None = None,
    soak_temperature_c: float | None = None,
    pantry: Pantry | None = None,
) -> tuple[Way, ...]:
    """Every other way to cook this pot; none where it needs no pot, must not be eaten, or is not known."""
    if not sheet.needs_pot or sheet.forbidden or not sheet.parts or sheet.unweighed:
        return ()
    known = pantry or Pantry(kitchen)
    found = []
    for cooking in WAYS:
        if cooking == sheet.meal.cooking:
            continue
        meal = replace(sheet.meal, cooking=cooking, cook_minutes=None, servings=sheet.servings)
        if COLD_SOAK in (cooking, sheet.meal.cooking):
            parts = [line.part for line in sheet.parts]
            anew = sheet_of(
                kitchen,
                meal,
                parts,
                altitude_m=altitude_m,
                soak_temperature_c=soak_temperature_c,
                pantry=known,
            )
            found.append(_way(anew))
        else:
            found.append(_way(_on_the_stove(kitchen, sheet, meal, altitude_m, known.own_fuel)))
    return tuple(found)


def _on_the_stove(
    kitchen: Kitchen, sheet: MealSheet, meal: Meal, altitude_m: float | None, own_g: float | None
) -> MealSheet:
    """A hot sheet with the water, minutes and heat of another hot way, which brings no caution of its own."""
    wet = meal_water(kitchen, meal, [line.ingredient for line in sheet.parts], altitude_m=altitude_m)
    return replace(
        sheet,
        meal=meal,
        minutes=wet.minutes,
        bag=replace(sheet.bag, water=wet.water),
        heat=pot_heat(wet.water.value, wet.steam_ml, altitude_m, own_g),
        steam_ml=wet.steam_ml,
    )


def _way(sheet: MealSheet) -> Way:
    minutes, line, never = sheet.minutes, cooking_line(sheet), ""
    if sheet.meal.cooking == COLD_SOAK:
        hard = not_softened(sheet.meal, [part.ingredient for part in sheet.parts])
        stopped = any(c.severity == "stop" and c.rule.startswith("cold-soak-") for c in sheet.cautions)
        never = line if stopped else hard[0] if hard else ""
    return Way(
        sheet.meal.cooking, line, minutes.soak, minutes.cook, minutes.flame, sheet.bag.water, sheet.heat, never
    )
