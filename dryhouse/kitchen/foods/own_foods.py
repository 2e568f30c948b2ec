"""Foods and dishes of her own: what is in them is asked, never preset, and what was not said counts as unknown."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from itertools import count

from dryhouse.handbook.animal_words import animal_words
from dryhouse.handbook.tables import ANIMAL_CATEGORIES, CATEGORIES, Food
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.ports import Done, Pending
from dryhouse.kitchen.records import OwnFood
from dryhouse.kitchen.records.foods import CONTENTS, EGG, FISH, MEAT, MILK, PLANT, POULTRY, UNKNOWN, contents_of
from dryhouse.science.errors import InputProblem
from dryhouse.science.safety.facts import UNKNOWN_FOOD

KIND_OF = {MEAT: "meat", POULTRY: "poultry", FISH: "fish", EGG: "egg", MILK: "dairy"}
"""The handbook's kind of food for each answer that names an animal."""
SAID = {
    PLANT: "Only plants",
    MEAT: "Meat",
    POULTRY: "Poultry",
    FISH: "Fish or shellfish",
    EGG: "Egg",
    MILK: "Milk",
    UNKNOWN: "I don't know",
}
"""The answers to “What is in it?” as they are shown."""


class ReallyPlant(InputProblem):
    """The name speaks of an animal and the answer says plants only: it has to be said once more."""


def as_food(own: OwnFood, like: Food | None) -> Food:
    """An own food; where she named a handbook food it is like, that food's figures and traits stand in.

    What she said is in it is among its traits. Where she has not said, or does not know, it is an unknown food.
    """
    names = tuple(n.strip() for n in own.other_names.split(";") if n.strip())
    said = contents_of(own)
    kinds = {KIND_OF[answer] for answer in said if answer in KIND_OF} | ({own.category} & ANIMAL_CATEGORIES)
    traits = kinds | ({"animal"} if kinds else set())
    if not kinds:
        traits |= {"low_acid"} if said == (PLANT,) else {UNKNOWN_FOOD}
    elif UNKNOWN in said:
        traits |= {UNKNOWN_FOOD}
    if like is None:
        return Food(own.slug, own.name, names, own.category, traits=frozenset(traits))
    if like.animal:
        traits -= {UNKNOWN_FOOD}
    category = like.category if like.animal else own.category
    kept = traits if "low_acid" not in traits else set[str]()
    return replace(
        like, slug=own.slug, name=own.name, other_names=names, category=category, traits=like.traits | kept
    )


def contents_of_food(kitchen: Kitchen, slug: str) -> tuple[str, ...]:
    """What she said is in the food of this slug; empty for a food that is not one of hers."""
    return next((contents_of(own) for own in kitchen.journal.where(OwnFood, slug=slug)), ())


def new_food(
    kitchen: Kitchen,
    name: str,
    contains: Sequence[str] = (),
    category: str = "",
    *,
    other_names: tuple[str, ...] = (),
    like: str = "",
    really_plant: bool = False,
) -> OwnFood:
    """The record of a food the handbook does not know, not yet written.

    `contains` are answers of `CONTENTS`; none means that she has not said. `category` is the kind it is kept as;
    without one the answer gives it. Raises InputProblem, and `ReallyPlant` where a name with an animal's word
    in it is said to be plants only and `really_plant` does not say so again.
    """
    title = " ".join(name.split())
    if not title:
        raise InputProblem("An own food needs a name, such as bean chili.", "name")
    said = tuple(dict.fromkeys(part.strip().casefold() for part in contains if part.strip()))
    if strange := [part for part in said if part not in CONTENTS]:
        raise InputProblem(f"“{strange[0]}” is no answer here; what is in it is {_listed(CONTENTS)}.", "contains")
    if category and category not in CATEGORIES:
        raise InputProblem(
            f"“{category}” is no kind of food here; choose one of {', '.join(CATEGORIES)}.", "category"
        )
    if like and like not in kitchen.handbook.foods:
        raise InputProblem(f"“{like}” is not a food of the handbook.", "like")
    kinds = [KIND_OF[answer] for answer in said if answer in KIND_OF]
    if not said and category in ANIMAL_CATEGORIES:
        said = tuple(answer for answer, kind in KIND_OF.items() if kind == category)
    if said == (PLANT,) and category in ANIMAL_CATEGORIES:
        raise InputProblem(f"Only plants, and of the kind {category}: one of the two is wrong.", "category")
    if said == (PLANT,) and not really_plant:
        ask_again(kitchen, (title, *other_names))
    taken = {own.slug for own in kitchen.journal.where(OwnFood)} | set(kitchen.handbook.foods)
    slug = re.sub(r"[^a-z0-9]+", "-", title.casefold()).strip("-")
    if slug in taken:
        raise InputProblem(
            f"“{title}” is already a food here; choose another name, or enter figures for it.", "name"
        )
    if not slug:
        slug = next(name for n in count(1) if (name := f"own-food-{n}") not in taken)
    kept = category or (kinds[0] if len(kinds) == 1 and PLANT not in said else "mixed" if kinds else "other")
    return OwnFood(
        slug, title, kept, ";".join(other_names), like, ";".join(said), id=kitchen.journal.next_id(OwnFood)
    )


def ask_again(kitchen: Kitchen, names: Sequence[str]) -> None:
    """Raises `ReallyPlant` where one of the names speaks of an animal; InputProblem where it is the very name of a
    food from an animal: what is made of plants needs a name of its own, however often she says so."""
    for name in names:
        if (known := kitchen.handbook.animal_named(name, exactly=True)) is not None:
            raise InputProblem(
                f"“{name}” is food from an animal here ({known.name}). Say what is in it; or where it is made of "
                f"plants only, give it a name of its own, such as “plant {name.casefold()}”.",
                "name",
            )
        if words := animal_words(name):
            raise ReallyPlant(
                f"“{name}” sounds like food from an animal ({', '.join(words)}). "
                "Is there really no meat, fish, egg or milk in it?",
                "contains",
            )


def add_food(
    kitchen: Kitchen,
    name: str,
    category: str = "",
    *,
    contains: Sequence[str] = (),
    other_names: tuple[str, ...] = (),
    like: str = "",
    really_plant: bool = False,
) -> Done[OwnFood]:
    """A food the handbook does not know; figures are entered with `set_figure`. Raises as `new_food` does."""
    own = new_food(kitchen, name, contains, category, other_names=other_names, like=like, really_plant=really_plant)
    pending = Pending()
    pending.add(own)
    return kitchen.commit(f"Added the food {own.name}", pending)


def say_contents(
    kitchen: Kitchen, slug: str, contains: Sequence[str], *, really_plant: bool = False
) -> Done[OwnFood]:
    """Answer, or answer anew, what is in a food of her own. Raises InputProblem, and `ReallyPlant` as above."""
    own = next(iter(kitchen.journal.where(OwnFood, slug=slug)), None)
    if own is None:
        raise InputProblem("That food is no longer here.", "food")
    said = tuple(dict.fromkeys(contains))
    if said == (PLANT,) and own.category in ANIMAL_CATEGORIES:
        raise InputProblem(f"{own.name} is recorded as {own.category}; that is not only plants.", "contains")
    if said == (PLANT,) and not really_plant:
        ask_again(kitchen, (own.name, *(n for n in own.other_names.split(";") if n.strip())))
    pending = Pending()
    pending.edit(own, replace(own, contains=";".join(said)))
    return kitchen.commit(f"Said what is in {own.name}", pending)


def _listed(words: Sequence[str]) -> str:
    return f"{', '.join(words[:-1])} or {words[-1]}"
