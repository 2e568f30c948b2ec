"""What is in a bag: its ingredients, the heaviest first, the allergens among them, and what nobody recorded."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from dryhouse.handbook.allergens import ALLERGENS, GLUTEN, WHEAT, held_by
from dryhouse.handbook.animal_words import animal_words
from dryhouse.handbook.tables import Food
from dryhouse.kitchen.cautions.cautions import facts_of_food
from dryhouse.kitchen.foods.catalog import food
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.meals.ingredients import Ingredient
from dryhouse.kitchen.records import BatchPart, Lot
from dryhouse.science.safety.facts import UNKNOWN_ANIMAL, UNKNOWN_FOOD, FoodFacts

NOT_KNOWN = frozenset({UNKNOWN_ANIMAL, UNKNOWN_FOOD})
"""The kinds that say that nobody can tell what is in it."""
_MIX = "mixed"


@dataclass(frozen=True, slots=True)
class Held:
    """What one ingredient is: the kinds of food in it, its allergens, and whether that is all."""

    name: str
    """As a label names it, with what was recorded in a mix."""
    kinds: frozenset[str]
    foods: tuple[Food, ...]
    allergens: frozenset[str]
    label: bool = False
    """Its makers may have added what only its label tells."""
    unknown: bool = False
    """Nobody recorded what is in it."""


@dataclass(frozen=True, slots=True)
class Holds:
    """What is in a bag, as a label says it."""

    ingredients: tuple[str, ...] = ()
    """The heaviest first; what has no weight comes last."""
    allergens: tuple[str, ...] = ()
    labels: tuple[str, ...] = ()
    """Bought things whose own label says more."""
    unknown: tuple[str, ...] = ()
    """Ingredients of which nobody recorded what is in them."""


def held(kitchen: Kitchen, item: Ingredient, lots: Sequence[int] = ()) -> Held:
    """What an ingredient is; of a mix what was recorded in its batches (of the lot it names, or of `lots`)."""
    name = item.part.name
    if item.staple is not None:
        kinds = frozenset({item.staple.kind, item.staple.animal, *_said(item.staple.name)} - {""})
        own = held_by(item.staple.slug, kinds)
        return Held(name, kinds, (), own.allergens, own.label)
    if item.food is None:
        own = held_by("", _said(name) | FoodFacts(name).own_kinds)
        return Held(name, frozenset(), (), own.allergens, label=True)
    kinds, inside = facts_of_food(item.food).kinds, inside_of(kitchen, item, lots)
    if inside:
        of_which = ", ".join(dict.fromkeys(known.name for known in inside))
        kinds = (kinds - NOT_KNOWN).union(*(facts_of_food(known).kinds for known in inside))
        return Held(f"{name} ({of_which})", kinds, (item.food, *inside), _allergens(inside))
    own = held_by(item.food.slug, kinds)
    if item.food.category == _MIX and not own.source:
        kinds |= {UNKNOWN_FOOD}
    return Held(name, kinds, (item.food,), own.allergens, own.label, bool(kinds & NOT_KNOWN))


def _said(name: str) -> frozenset[str]:
    """The kinds of animal food that a name speaks of: there is something of it in the thing."""
    return frozenset("holds dairy" if kind == "milk" else f"holds {kind}" for kind in animal_words(name).values())


def _allergens(foods: Iterable[Food]) -> frozenset[str]:
    return frozenset[str]().union(*(held_by(known.slug, facts_of_food(known).kinds).allergens for known in foods))


def inside_of(kitchen: Kitchen, item: Ingredient, lots: Sequence[int] = ()) -> tuple[Food, ...]:
    """What was recorded in the batches of a mix: of the lot it names, or of these; nothing where one of them has
    nothing recorded."""
    drawn = [lot for id in lots if (lot := kitchen.journal.get(Lot, id)) is not None]
    found: dict[str, Food] = {}
    for lot in [item.lot] if item.lot is not None else drawn:
        parts = () if lot.batch is None else kitchen.journal.where(BatchPart, batch=lot.batch)
        if not parts:
            return ()
        found |= {part.food: food(kitchen, part.food) for part in parts}
    return tuple(found.values())


def holds(items: Iterable[tuple[Held, float | None]]) -> Holds:
    """What is in a bag, of its ingredients with their grams."""
    by_weight = sorted(items, key=lambda pair: (pair[1] is None, -(pair[1] or 0.0)))
    each = [one for one, _ in by_weight]
    among = frozenset[str]().union(*(one.allergens for one in each))
    if WHEAT in among:
        among -= {GLUTEN}
    return Holds(
        tuple(dict.fromkeys(one.name for one in each)),
        tuple(one for one in ALLERGENS if one in among),
        tuple(dict.fromkeys(one.name for one in each if one.label and not one.unknown)),
        tuple(dict.fromkeys(one.name for one in each if one.unknown)),
    )


NOTHING = Holds()
