"""Foods as this person knows them: the handbook's, with her own figures laid over them, and her own foods."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from dryhouse.handbook.spelling import words
from dryhouse.handbook.staples import staples
from dryhouse.handbook.tables import Food
from dryhouse.kitchen.foods.own_foods import as_food
from dryhouse.kitchen.foods.taught import with_tests
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.ports import Done, Pending
from dryhouse.kitchen.records import OwnFigure, OwnFood
from dryhouse.kitchen.records.foods import FIGURE_UNITS
from dryhouse.science.errors import InputProblem
from dryhouse.science.values import Fact

if TYPE_CHECKING:
    from dryhouse.handbook.finder import Finder

_ENTERED = "entered by you"


def food(kitchen: Kitchen, text: str, *, slips: bool = True) -> Food:
    """The one food meant by a slug or a name, with her own figures in place of the handbook's.

    Her own foods are known by their names just as the handbook's are, and so are the staples of the pantry.
    Raises `WhichFood` (an InputProblem) with the near foods where it is not clear which is meant; `slips` is
    whether one wrong letter is forgiven.
    """
    key = text.strip().casefold()
    own = kitchen.journal.where(OwnFood)
    for mine in own:
        if key in (mine.slug, mine.name.casefold(), *(n.strip().casefold() for n in mine.other_names.split(";"))):
            return _overlaid(kitchen, _as_food(kitchen, mine))
    known = kitchen.handbook.foods.get(key)
    return _overlaid(
        kitchen, known if known is not None else names_of_all(kitchen, own).identify(text, slips=slips)
    )


def names_of_all(kitchen: Kitchen, own: tuple[OwnFood, ...]) -> Finder:
    """The index over the names of every food there is, hers included."""
    return kitchen.handbook.finder_with(own, lambda: [_as_food(kitchen, mine) for mine in own])


def food_name(kitchen: Kitchen, slug: str) -> str:
    """What to call the food of this slug; the slug itself where it is no longer known."""
    known = kitchen.handbook.name(slug)
    if known is not None:
        return known
    mine = kitchen.journal.where(OwnFood, slug=slug)
    bought = None if mine else staples().get(slug)
    return mine[0].name if mine else bought.name if bought is not None else slug


def find_foods(kitchen: Kitchen, text: str, limit: int = 8) -> list[Food]:
    """Foods that the words may mean: her own with all of them first, then the others by nearness.

    Empty text finds her own foods.
    """
    own = kitchen.journal.where(OwnFood)
    typed = text.casefold().split()
    mine = [
        _as_food(kitchen, one) for one in own if all(w in f"{one.name} {one.other_names}".casefold() for w in typed)
    ]
    near = names_of_all(kitchen, own).find(text, limit)
    return list({food.slug: food for food in (*mine, *near)}.values())[:limit]


def bears(known: Food, text: str) -> bool:
    """Whether a name of the food has every word of the text, whole or begun."""
    typed = words(text)
    names = (words(name) for name in (known.name, known.slug, *known.other_names))
    return bool(typed) and any(all(any(w.startswith(t) for w in name) for t in typed) for name in names)


def _as_food(kitchen: Kitchen, own: OwnFood) -> Food:
    return as_food(own, kitchen.handbook.foods.get(own.like))


def _overlaid(kitchen: Kitchen, known: Food) -> Food:
    own = kitchen.journal.where(OwnFigure, food=known.slug)
    if own:
        entered = {f.name: Fact(f.value, f.unit, f.note or _ENTERED, "entered") for f in own}
        known = replace(known, facts={**known.facts, **entered})
    return with_tests(kitchen, known)


def set_figure(
    kitchen: Kitchen, slug: str, name: str, value: float | None, *, typed: str = "", note: str = ""
) -> Done[OwnFigure]:
    """Enter a figure of her own for a food; None takes it back, and the handbook's stands again.

    Raises InputProblem.
    """
    if name not in FIGURE_UNITS:
        raise InputProblem(f"“{name}” is no figure of a food; it is one of {', '.join(FIGURE_UNITS)}.", "name")
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
