"""What a lot holds. A bag of rice that was bought is the rice of the pantry, not the rice that is cooked and dried
at home, though both have one slug."""

from __future__ import annotations

from dataclasses import replace

from dryhouse.handbook.staples import staple_foods, staples
from dryhouse.handbook.tables import Food, HouseholdMeasure
from dryhouse.kitchen.foods.catalog import food_name
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.records import Lot, OwnFood
from dryhouse.kitchen.records.lots import BOUGHT
from dryhouse.science.units import SIZES


def pantry_food(kitchen: Kitchen, lot: Lot) -> Food | None:
    """The staple that a bought lot is, where the handbook has a food of the same slug; None for any other lot."""
    slug = lot.food
    if lot.origin != BOUGHT or slug not in staples() or slug not in kitchen.handbook.foods:
        return None
    if kitchen.journal.where(OwnFood, slug=slug):
        return None
    bought, cup = next(one for one in staple_foods() if one.slug == slug), staples()[slug].cup
    if cup is None:
        return bought
    return replace(
        bought, measures=(HouseholdMeasure("dried", cup.note, SIZES["cup"], cup.value, cup.source, cup.how),)
    )


def name_of_lot(kitchen: Kitchen, lot: Lot) -> str:
    """What to call the food in a lot; its slug where it is no longer known."""
    bought = pantry_food(kitchen, lot)
    return bought.name if bought is not None else food_name(kitchen, lot.food)
