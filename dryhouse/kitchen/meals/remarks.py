"""Plain notes on a meal: what is not known, what a cold soak will not soften, what is salty."""

from __future__ import annotations

from collections.abc import Sequence

from dryhouse.handbook.pot import pot
from dryhouse.kitchen.meals.ingredients import Ingredient
from dryhouse.kitchen.meals.lines import PartSheet
from dryhouse.kitchen.records import Meal
from dryhouse.kitchen.records.meals import COLD_SOAK, NO_POT


def unknown(lines: Sequence[PartSheet], *, dry: bool = False) -> list[str]:
    """What keeps a figure from being whole, ingredient by ingredient; `dry` where no pot asks for water."""
    said = []
    for line in lines:
        name = line.part.name
        if line.part.mass is None and line.part.volume is None:
            said.append(f"{name}: no amount yet, so it counts for nothing.")
        elif line.grams is None:
            how = "weigh one cup of it" if line.ingredient.slug else "give its weight"
            said.append(f"{name}: what a cup of it weighs is not known: {how}.")
        else:
            if not line.ingredient.per_100g:
                said.append(f"{name}: nothing is known of what it holds; the sums leave it out.")
            elif "energy" not in line.ingredient.per_100g:
                said.append(f"{name}: its energy is not known; the sum leaves it out.")
            if line.water is None and line.ingredient.food is not None and not dry:
                said.append(f"{name}: what it lost in drying is not known; no water is counted for it.")
    return said


def still_to_dry(names: Sequence[str]) -> list[str]:
    """That the water of animal food rests on a general figure until there is a batch of it."""
    return [
        f"{name}: none of it stands dried on the shelf, so its water is a general figure; weigh its batch before "
        "and after drying, and the water follows from that."
        for name in names
    ]


def not_softened(meal: Meal, items: Sequence[Ingredient]) -> list[str]:
    """What a cold soak, or no pot at all, will not soften."""
    if meal.cooking not in (COLD_SOAK, NO_POT):
        return []
    hard = [i.part.name for i in items if i.staple is not None and not i.staple.cold_soak]
    how = "A cold soak does not cook" if meal.cooking == COLD_SOAK else "Without a pot nothing cooks"
    return [f"{how} {', '.join(hard)}: boil it, or swap it for an instant kind."] if hard else []


def salty(lines: Sequence[PartSheet], servings: float) -> list[str]:
    """A plain note where one serving passes a day's common limit of sodium, and which ingredients bring it."""
    limit = pot("sodium_day")
    salt = {
        line.part.name: line.contents.amounts["sodium"] / servings
        for line in lines
        if line.contents is not None and "sodium" in line.contents.amounts
    }
    each = sum(salt.values())
    if each <= limit.value:
        return []
    most = max(salt, key=lambda name: salt[name])
    return [
        f"One serving holds {each:.0f} mg of sodium, past a day's common limit of {limit.value:.0f} mg; "
        f"{salt[most]:.0f} mg of it comes with the {most.lower()}. [{limit.source}]"
    ]
