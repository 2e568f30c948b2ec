"""Swapping one ingredient for another, seen before it is made: beans for meat, bought for home-dried."""

from __future__ import annotations

from dataclasses import dataclass, replace

from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.meals.meals import draft_part, save_as_new, the_meal, the_part
from dryhouse.kitchen.meals.sheet import MealSheet, meal_parts, sheet_of
from dryhouse.kitchen.ports import Done, Pending
from dryhouse.kitchen.records import Meal, MealPart
from dryhouse.science.quantities import Mass
from dryhouse.science.values import Figure


@dataclass(frozen=True, slots=True)
class Swap:
    """A swap before it is made: the part that would stand in, and the sheets before and after."""

    out: MealPart
    into: MealPart
    before: MealSheet
    after: MealSheet


def preview_swap(
    kitchen: Kitchen, part: int, name: str, amount: str = "", *, altitude_m: float | None = None
) -> Swap:
    """What swapping a part for another would change. Without an amount, the same dry mass stands in."""
    out = the_part(kitchen, part)
    meal = the_meal(kitchen, out.meal)
    parts = meal_parts(kitchen, meal.id)
    before = sheet_of(kitchen, meal, parts, altitude_m=altitude_m)
    into = replace(draft_part(kitchen, name, amount), meal=meal.id, position=out.position, id=out.id)
    if into.mass is None and into.volume is None:
        grams = next((line.grams for line in before.parts if line.part.id == out.id), None)
        into = replace(into, mass=None if grams is None else Mass(grams))
    after = sheet_of(kitchen, meal, [into if p.id == out.id else p for p in parts], altitude_m=altitude_m)
    return Swap(out, into, before, after)


def swap_part(kitchen: Kitchen, part: int, name: str, amount: str = "") -> Done[MealPart]:
    """Make the swap."""
    swap = preview_swap(kitchen, part, name, amount)
    pending = Pending()
    pending.edit(swap.out, swap.into)
    return kitchen.commit(f"Swapped {swap.out.name} for {swap.into.name}", pending)


def swap_in_copy(kitchen: Kitchen, part: int, name: str, amount: str = "") -> Done[Meal]:
    """Make the swap in a copy, called after what stands in; the meal itself stays as it is."""
    swap = preview_swap(kitchen, part, name, amount)
    meal = the_meal(kitchen, swap.out.meal)
    parts = [swap.into if p.id == swap.out.id else p for p in meal_parts(kitchen, meal.id)]
    return save_as_new(kitchen, replace(meal, name=f"{meal.name} with {swap.into.name}"), parts)


@dataclass(frozen=True, slots=True)
class Difference:
    """One figure per serving before and after a swap."""

    name: str
    before: Figure | None
    after: Figure | None

    @property
    def change(self) -> float | None:
        """After less before, in the figures' unit; None where either is not known."""
        if self.before is None or self.after is None:
            return None
        return self.after.value - self.before.value


def differences(before: MealSheet, after: MealSheet) -> tuple[Difference, ...]:
    """What a change does to one serving, figure by figure, and to the minutes."""
    names = {
        "dry weight": "dry_mass",
        "water": "water",
        "energy": "energy",
        "energy per gram": "energy_per_gram",
        "protein": "protein",
        "fat": "fat",
        "carbohydrate": "carbohydrate",
        "fiber": "fibre",
        "sodium": "sodium",
    }
    per_serving = [Difference(n, getattr(before.serving, f), getattr(after.serving, f)) for n, f in names.items()]
    return (
        *per_serving,
        Difference("soak", before.minutes.soak, after.minutes.soak),
        Difference("cook", before.minutes.cook, after.minutes.cook),
    )
