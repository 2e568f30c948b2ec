"""Foods as this person knows them: the handbook's, with her own figures laid over them, and her own foods."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from dryhouse.handbook.tables import ANIMAL_CATEGORIES, CATEGORIES, Food
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.ports import Done, Pending
from dryhouse.kitchen.records import OwnFigure, OwnFood
from dryhouse.science.errors import InputProblem
from dryhouse.science.values import Fact

FIGURE_UNITS = {
    "water": "%",
    "energy": "kcal/100 g",
    "protein": "g/100 g",
    "fat": "g/100 g",
    "carbohydrate": "g/100 g",
    "fibre": "g/100 g",
    "sodium": "mg/100 g",
    "refuse": "%",
    "target_moisture": "%",
    "drying_temperature": "degC",
    "drying_hours": "h",
    "tray_load": "kg/m2",
}
"""The figures a person may enter for a food, and the unit each is kept in."""

_PERCENT = {"water": 100.0, "refuse": 100.0, "target_moisture": 100.0}
_ENTERED = "entered by you"


def food(kitchen: Kitchen, text: str) -> Food:
    """The one food meant by a slug or a name, with her own figures in place of the handbook's.

    Raises InputProblem naming near foods where it is not clear which is meant.
    """
    own = kitchen.journal.where(OwnFood)
    key = text.strip().casefold()
    for mine in own:
        if key in (
            mine.slug,
            mine.name.casefold(),
            *(n.strip().casefold() for n in mine.other_names.split(";")),
        ):
            return _overlaid(kitchen, _as_food(kitchen, mine))
    known = kitchen.handbook.foods.get(key)
    return _overlaid(kitchen, known if known is not None else kitchen.handbook.identify(text))


def food_name(kitchen: Kitchen, slug: str) -> str:
    """What to call the food of this slug; the slug itself where it is no longer known."""
    known = kitchen.handbook.name(slug)
    if known is not None:
        return known
    mine = kitchen.journal.where(OwnFood, slug=slug)
    return mine[0].name if mine else slug


def find_foods(kitchen: Kitchen, text: str, limit: int = 8) -> list[Food]:
    """Foods that the words may mean, her own first, then the handbook's by nearness."""
    words = text.casefold().split()
    mine = [
        _as_food(kitchen, own)
        for own in kitchen.journal.where(OwnFood)
        if all(w in f"{own.name} {own.other_names}".casefold() for w in words)
    ]
    return [*mine, *kitchen.handbook.find(text, limit)][:limit]


def _as_food(kitchen: Kitchen, own: OwnFood) -> Food:
    """An own food; where she named a handbook food it is like, that food's figures and traits stand in."""
    names = tuple(n.strip() for n in own.other_names.split(";") if n.strip())
    like = kitchen.handbook.foods.get(own.like)
    if like is not None:
        category = like.category if like.animal else own.category
        kinds = {own.category} & ANIMAL_CATEGORIES
        traits = like.traits | kinds | ({"animal"} if kinds else set())
        return replace(like, slug=own.slug, name=own.name, other_names=names, category=category, traits=traits)
    return Food(own.slug, own.name, names, own.category)


def _overlaid(kitchen: Kitchen, known: Food) -> Food:
    own = kitchen.journal.where(OwnFigure, food=known.slug)
    if not own:
        return known
    entered = {f.name: Fact(f.value, f.unit, f.note or _ENTERED, "entered") for f in own}
    return replace(known, facts={**known.facts, **entered})


def add_food(
    kitchen: Kitchen, name: str, category: str, *, other_names: tuple[str, ...] = (), like: str = ""
) -> Done:
    """A food the handbook does not know; figures are entered with `set_figure`."""
    title = " ".join(name.split())
    if not title:
        raise InputProblem("An own food needs a name.", "name")
    if category not in CATEGORIES:
        raise InputProblem(
            f"“{category}” is no kind of food here; choose one of {', '.join(CATEGORIES)}.", "category"
        )
    slug = re.sub(r"[^a-z0-9]+", "-", title.casefold()).strip("-") or "food"
    taken = {f.slug for f in kitchen.journal.where(OwnFood)} | set(kitchen.handbook.foods)
    if slug in taken:
        raise InputProblem(
            f"“{title}” is already a food here; choose another name, or enter figures for it.", "name"
        )
    if like and like not in kitchen.handbook.foods:
        raise InputProblem(f"“{like}” is not a food of the handbook.", "like")
    _refuse_disguise(kitchen, (title, *other_names), category, like)
    pending = Pending()
    pending.add(OwnFood(slug, title, category, ";".join(other_names), like, id=kitchen.journal.next_id(OwnFood)))
    return kitchen.commit(f"Added the food {title}", pending)


def _refuse_disguise(kitchen: Kitchen, names: Sequence[str], category: str, like: str) -> None:
    """The name of an animal food may not stand for a plant: its cautions would be lost with it.

    A mix of which nothing else is said needs no refusing, since the rules treat it as holding meat.
    """
    opaque = category in ("mixed", "other") and not like
    if opaque or category in ANIMAL_CATEGORIES or (like and kitchen.handbook.foods[like].animal):
        return
    for name in names:
        known = kitchen.handbook.animal_named(name, exactly=True)
        if known is not None:
            raise InputProblem(
                f"“{name}” is an animal food here ({known.name}); choose its kind, or another name.", "category"
            )


def set_figure(
    kitchen: Kitchen, slug: str, name: str, value: float | None, *, typed: str = "", note: str = ""
) -> Done:
    """Enter a figure of her own for a food; None takes it back, and the handbook's stands again."""
    if name not in FIGURE_UNITS:
        raise InputProblem(f"“{name}” is no figure of a food; it is one of {', '.join(FIGURE_UNITS)}.", "name")
    if value is not None and not 0 <= value <= _PERCENT.get(name, 1e6):
        raise InputProblem(f"{name.replace('_', ' ').capitalize()} of {value:g} cannot be right.", "value")
    if value is not None and name in ("water", "target_moisture") and value >= 100:
        raise InputProblem("A food that is all water cannot be dried; moisture is below 100 %.", "value")
    known = food(kitchen, slug)
    before = kitchen.journal.where(OwnFigure, food=known.slug, name=name)
    pending = Pending()
    if value is None:
        pending.remove(*before)
        return kitchen.commit(f"Took back your {name.replace('_', ' ')} for {known.name}", pending)
    id = before[0].id if before else kitchen.journal.next_id(OwnFigure)
    after = OwnFigure(known.slug, name, value, FIGURE_UNITS[name], typed, note, id)
    if before:
        pending.edit(before[0], after)
    else:
        pending.add(after)
    return kitchen.commit(f"Entered {name.replace('_', ' ')} for {known.name}", pending)
