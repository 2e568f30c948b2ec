"""Meals that are asked about, and the rules that cautions came from."""

from __future__ import annotations

from dryhouse.kitchen.records import Meal, MealPart
from dryhouse.science.quantities import Mass
from tests.kitchen.shelf_room import a_shelf


def rules(cautions, severity="stop"):
    return {c.rule for c in cautions if c.severity == severity}


def a_meal(*parts, cooking="short soak", **more):
    return a_shelf(Meal("supper", servings=2, cooking=cooking, id=1), *parts, **more)


MEAT = MealPart(1, 0, "turkey", "turkey", mass=Mass(50.0), id=1)


def not_to_be_eaten(cautions):
    return {c.rule for c in cautions if c.forbids_eating}
