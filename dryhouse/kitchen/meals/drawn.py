"""The ingredients of a meal with the very lots they would be drawn from: the ground on which its cautions stand."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

from dryhouse.kitchen.meals.ingredients import DRIED, Pantry
from dryhouse.kitchen.meals.lines import PartSheet
from dryhouse.kitchen.records import MealPart

Given = Callable[[PartSheet], Sequence[tuple[int, float]]]
"""The lots an ingredient is drawn from, by number, and the grams of each."""
_ROUNDING_G = 0.5


def parts_by_lot(lines: Sequence[PartSheet], given: Given) -> list[MealPart]:
    """Each ingredient once for every lot it is drawn from; what no lot covers stands without one, as food of which
    nothing is recorded."""
    parts: list[MealPart] = []
    for line in lines:
        drawn = given(line)
        parts += [replace(line.part, lot=lot) for lot, _ in drawn]
        if not drawn or line.grams is None or sum(grams for _, grams in drawn) < line.grams - _ROUNDING_G:
            parts.append(replace(line.part, lot=None))
    return parts


def from_the_shelf(pantry: Pantry, lines: Sequence[PartSheet]) -> list[MealPart]:
    """The ingredients with the lots that would be drawn today: those they name, else the ones to use first."""
    taken: dict[int, float] = {}

    def given(line: PartSheet) -> list[tuple[int, float]]:
        wanted, found = line.grams or 0.0, []
        for lot, held in pantry.good_lots(line.part.food):
            grams = min(wanted, held - taken.get(lot, 0.0))
            if grams > 0:
                found.append((lot, grams))
                taken[lot] = taken.get(lot, 0.0) + grams
                wanted -= grams
        return found

    named = [line.part for line in lines if line.part.lot is not None or line.ingredient.kind != DRIED]
    unnamed = [line for line in lines if line.part.lot is None and line.ingredient.kind == DRIED]
    return [*named, *parts_by_lot(unnamed, given)]
