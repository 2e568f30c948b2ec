"""A pot that was dried whole: what one serving of it weighs, the water it lost, and the energy of its
ingredients."""

from __future__ import annotations

from dataclasses import dataclass

from dryhouse.kitchen.foods.catalog import food
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.records import Batch, Lot
from dryhouse.kitchen.yields.composition import dried_composition
from dryhouse.kitchen.yields.jar_water import batch_of, takes_up
from dryhouse.science.display import Style, calories
from dryhouse.science.values import Figure, merge_bases
from dryhouse.science.workings import StepKind as Kind
from dryhouse.science.workings import step
from dryhouse.words.portions import each_of, portion_name, portion_sentence, servings_held

_NEAR = 0.1
"""A bag within a tenth of one serving holds one."""


@dataclass(frozen=True, slots=True)
class Portion:
    """So many servings of a dried pot: their dried mass (g), the water to bring them back, and their energy."""

    servings: float
    of: float
    """How many the whole pot made."""
    number: int | None
    """Which of them, where it is one serving in a bag of its own."""
    grams: float
    water: Figure | None
    energy: Figure | None

    def which(self, style: Style) -> str:
        """`1 of 6`, or `2 of 6 servings`."""
        if self.number is not None:
            return portion_name(self.number, round(self.of))
        return servings_held(style.number(self.servings), style.number(self.of))

    def sentence(self, style: Style, *, forbidden: bool = False) -> str:
        """`1 of 6: 58 g dried, about 1¼ cups of water, 410 kcal`; of what must not be eaten the weight alone."""
        return portion_sentence(self.which(style), style.mass(self.grams), *_pot(self, style, forbidden))


def _pot(portion: Portion, style: Style, forbidden: bool) -> tuple[str, str]:
    """The water and the energy in words, each empty where it is not known or must not be said."""
    water = "" if portion.water is None or forbidden else style.volume(portion.water.value)
    energy = "" if portion.energy is None or forbidden else f"{calories(portion.energy.value)} kcal"
    return water, energy


def serving_of(kitchen: Kitchen, batch: Batch) -> Portion | None:
    """One serving of a batch that says how many it made; None where it does not, or has no dried weight."""
    if batch.servings is None or batch.dried_mass is None or batch.dried_mass.si <= 0:
        return None
    return _portion(kitchen, batch, batch.dried_mass.si / batch.servings, None)


def portion_of(kitchen: Kitchen, lot: Lot, left_g: float | None = None) -> Portion | None:
    """What is left in a lot (`left_g`, else all it was packed with) of a pot that was dried whole; None where its
    batch says no servings, or a weight is missing."""
    batch = batch_of(kitchen, lot)
    grams = left_g if left_g is not None or lot.mass is None else lot.mass.si
    one = None if batch is None else serving_of(kitchen, batch)
    if batch is None or one is None or not grams:
        return None
    number = None
    if abs(grams / one.grams - 1.0) <= _NEAR:
        bags = sorted(other.id for other in kitchen.journal.where(Lot, batch=batch.id))
        number = bags.index(lot.id) + 1 if lot.id in bags else None
    return _portion(kitchen, batch, grams, number)


def each_sentence(kitchen: Kitchen, batch: Batch, style: Style, *, forbidden: bool = False) -> str:
    """`6 servings, each: 58 g dried, about 1¼ cups of water, 410 kcal`; empty where the batch says no servings."""
    one = serving_of(kitchen, batch)
    if one is None:
        return ""
    return portion_sentence(each_of(style.number(one.of)), style.mass(one.grams), *_pot(one, style, forbidden))


def _portion(kitchen: Kitchen, batch: Batch, grams: float, number: int | None) -> Portion:
    assert batch.servings is not None
    assert batch.dried_mass is not None
    known = food(kitchen, batch.food)
    wet = takes_up(kitchen, known, batch)
    held = dried_composition(kitchen, known, batch, wet.ratio).get("energy")
    energy = None
    if held is not None:
        value = held.value * grams / 100.0
        line = step(Kind.PART_WEIGHT, (value, "kcal", held.source), food=known.name)
        energy = Figure(value, "kcal", basis=merge_bases([held.basis]), workings=(line,), as_is=True)
    servings = batch.servings * grams / batch.dried_mass.si
    return Portion(servings, batch.servings, number, grams, wet.water(grams), energy)
