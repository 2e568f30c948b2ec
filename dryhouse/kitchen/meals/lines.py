"""The lines of a meal's card: each ingredient with its dry mass, its measure, its water and what it holds."""

from __future__ import annotations

from dataclasses import dataclass

from dryhouse.kitchen.meals.ingredients import Ingredient
from dryhouse.kitchen.meals.water import uptake
from dryhouse.kitchen.records import MealPart
from dryhouse.science.nutrition import Contents, contents
from dryhouse.science.values import Figure


@dataclass(frozen=True, slots=True)
class PartSheet:
    """One line of the card: the ingredient, its dry mass and measure, its water and its energy."""

    ingredient: Ingredient
    grams: float | None
    ml: float | None
    water: Figure | None
    contents: Contents | None

    @property
    def part(self) -> MealPart:
        """The record behind the line."""
        return self.ingredient.part

    @property
    def energy_kcal(self) -> float | None:
        """Its energy, None where it is not known."""
        return None if self.contents is None else self.contents.amounts.get("energy")


def line_of(item: Ingredient, *, dry: bool = False) -> PartSheet:
    """The line of one ingredient; where it is eaten `dry` it takes up no water but what its label asks for."""
    grams = item.grams
    held = None if grams is None else contents(item.part.name, grams, item.per_100g)
    return PartSheet(item, grams, item.ml, None if dry and item.part.label_water is None else uptake(item), held)
