"""What leaves the shelf when a meal is cooked."""

from __future__ import annotations

from datetime import date

from dryhouse.kitchen.ingredients import DRIED
from dryhouse.kitchen.meal_sheet import meal_sheet
from dryhouse.kitchen.records import LotDraw, Meal
from dryhouse.kitchen.room import Kitchen
from dryhouse.kitchen.shelf import GOOD, shelf
from dryhouse.science.provisioning import Need, Supply, cover
from dryhouse.science.quantities import Mass


def draws_for(kitchen: Kitchen, meal: Meal, servings: float, on: date) -> tuple[LotDraw, ...]:
    """The draws that cover a meal cooked on a day: the lots it names, else those that go off first.

    Only lots in good standing that day are drawn; what the shelf cannot give is not drawn.
    """
    sheet = meal_sheet(kitchen, meal, servings=servings)
    needs = [
        Need(on, line.part.food, line.grams, meal.name, line.part.lot)
        for line in sheet.parts
        if line.ingredient.kind == DRIED and line.grams
    ]
    foods = {need.food for need in needs}
    stock = [
        Supply(line.lot.id, line.lot.food, line.mass_left_g, line.keep_by or on)
        for line in shelf(kitchen, on)
        if line.lot.food in foods and line.standing in GOOD and line.mass_left_g is not None
    ]
    return tuple(LotDraw(d.lot, on, mass=Mass(d.grams), meal=meal.id) for d in cover(needs, stock).draws)
