"""What a person does with meals: put one together, change it, scale it, remove it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.meals.ingredients import DRIED, STAPLE, Choice, identify_ingredient
from dryhouse.kitchen.meals.sheet import meal_parts, scaled
from dryhouse.kitchen.ports import Done, Pending, Record
from dryhouse.kitchen.records import AfterTrip, CookingNote, CookingNotePart, LotDraw, Meal, MealPart, TripMeal
from dryhouse.kitchen.records.meals import COOKING_STYLES
from dryhouse.kitchen.records.problems import refuse
from dryhouse.kitchen.search_words import one_named
from dryhouse.kitchen.settings import style
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Mass, parse_amount, parse_mass


def meals(kitchen: Kitchen) -> tuple[Meal, ...]:
    """Every meal, by name."""
    return tuple(sorted(kitchen.journal.where(Meal), key=lambda m: (m.name.casefold(), m.id)))


def find_meal(kitchen: Kitchen, text: str) -> Meal:
    """The meal of this name or number, or the only one whose name holds the words. Raises InputProblem."""
    return one_named(meals(kitchen), text, "meal")


def the_meal(kitchen: Kitchen, id: int) -> Meal:
    """The meal of this number. Raises InputProblem where it is gone."""
    return kitchen.present(Meal, id, "meal")


def cooked_by(meal: Meal, way: str) -> Meal:
    """The meal as another way of cooking would have it, its own minutes left out. Raises InputProblem."""
    said = " ".join(way.replace("-", " ").split()).casefold()
    if said not in COOKING_STYLES:
        raise InputProblem(f"A meal is cooked by one of {', '.join(COOKING_STYLES)}, not “{way}”.", "cooking")
    return meal if said == meal.cooking else replace(meal, cooking=said, cook_minutes=None)


def save_meal(kitchen: Kitchen, meal: Meal, parts: Sequence[MealPart] | None = None) -> Done[Record]:
    """A new meal (id 0) with its parts, or an edited one; parts that are not given stay as they are."""
    meal = replace(meal, name=" ".join(meal.name.split()))
    check_meal(kitchen, meal)
    pending = Pending()
    if meal.id == 0:
        meal = replace(meal, id=kitchen.journal.next_id(Meal))
        pending.add(meal)
        what = f"Added the meal {meal.name}"
    else:
        before = the_meal(kitchen, meal.id)
        pending.edit(before, meal)
        if meal.cooking != before.cooking:
            for note in kitchen.journal.where(CookingNote, meal=meal.id, cooking=""):
                pending.edit(note, replace(note, cooking=before.cooking))
        what = f"Changed the meal {meal.name}"
    if parts is not None:
        _set_parts(kitchen, meal.id, parts, pending)
    return kitchen.commit(what, pending)


def free_name(kitchen: Kitchen, name: str) -> str:
    """The name, or the same with the next number behind it where a meal is called so already."""
    taken = {m.name.casefold() for m in kitchen.journal.where(Meal)}
    name = " ".join(name.split())
    head, _, last = name.rpartition(" ")
    stem, n = (head, int(last)) if head and last.isascii() and last.isdigit() and len(last) < 4 else (name, 1)
    free = name
    while free.casefold() in taken:
        n += 1
        free = f"{stem} {n}"
    return free


def save_as_new(kitchen: Kitchen, meal: Meal, parts: Sequence[MealPart]) -> Done[Meal]:
    """A meal as it stands becomes one of its own beside the one it came from, which stays as it is; its notes stay
    with that, since they speak of another pot. A name already taken gets a number behind it."""
    known = kitchen.journal.get(Meal, meal.id) if meal.id else None
    new = replace(meal, name=free_name(kitchen, meal.name), id=kitchen.journal.next_id(Meal))
    check_meal(kitchen, new)
    pending = Pending()
    pending.add(new)
    for position, part in enumerate(parts):
        pending.add(replace(part, meal=new.id, position=position, id=kitchen.journal.next_id(MealPart)))
    beside = f", a copy of {known.name}" if known is not None else ""
    return kitchen.commit(f"Added the meal {new.name}{beside}", pending)


def varied(kitchen: Kitchen, parts: Sequence[MealPart], changes: Sequence[str]) -> list[MealPart]:
    """The ingredients with other amounts: `beef crumbles=0.5 oz`; `onion=` leaves it out. Raises InputProblem."""
    found = list(parts)
    for change in changes:
        part, amount = _one_part(found, change, "change")
        place = found.index(part)
        found[place : place + 1] = [with_amount(kitchen, part, amount)] if amount else []
    return found


def cup_of(kitchen: Kitchen, parts: Sequence[MealPart], typed: str) -> tuple[str, Mass]:
    """The slug and the weight of `ground beef=3.1 oz`. Raises InputProblem."""
    part, weight = _one_part(parts, typed, "cup")
    if not (part.food or part.staple):
        raise InputProblem(f"{part.name} is known by its label alone: give its weight in the meal instead.", "cup")
    ours = style(kitchen)
    return part.food or part.staple, parse_mass(
        weight, default_unit=ours.mass_unit, decimal_comma=ours.decimal_comma
    )


def _one_part(parts: Sequence[MealPart], typed: str, field: str) -> tuple[MealPart, str]:
    """The one ingredient that `name=amount` names, and the amount."""
    name, is_one, amount = typed.partition("=")
    words = " ".join(name.split()).casefold()
    exact = [p for p in parts if words == p.name.casefold()]
    meant = exact or [p for p in parts if words and words in p.name.casefold()]
    if not is_one or len(meant) != 1:
        inside = ", ".join(p.name for p in parts) or "nothing"
        said = f"“{typed}” names no one ingredient; write such as “{parts[0].name if parts else 'onion'}=1 oz”"
        raise InputProblem(f"{said}. In the meal: {inside}.", field)
    return meant[0], amount.strip()


def _set_parts(kitchen: Kitchen, meal: int, parts: Sequence[MealPart], pending: Pending) -> None:
    before = {p.id: p for p in meal_parts(kitchen, meal)}
    for position, part in enumerate(parts):
        placed = replace(part, meal=meal, position=position)
        if part.id in before:
            pending.edit(before.pop(part.id), placed)
        else:
            pending.add(replace(placed, id=kitchen.journal.next_id(MealPart)))
    pending.remove(*before.values())


def remove_meal(kitchen: Kitchen, id: int) -> Done[Record]:
    """Remove a meal with its parts, its notes and its days on trips."""
    meal = the_meal(kitchen, id)
    notes = kitchen.journal.where(CookingNote, meal=id)
    pending = Pending()
    pending.remove(*(p for n in notes for p in kitchen.journal.where(CookingNotePart, note=n.id)))
    pending.remove(*kitchen.journal.where(AfterTrip, meal=id))
    pending.remove(*notes, *kitchen.journal.where(TripMeal, meal=id), *meal_parts(kitchen, id))
    for draw in kitchen.journal.where(LotDraw, meal=id):
        pending.edit(draw, replace(draw, meal=None))
    pending.remove(meal)
    return kitchen.commit(f"Removed the meal {meal.name}", pending)


def draft_part(kitchen: Kitchen, name: str, amount: str = "", lot: int | None = None) -> MealPart:
    """A part from what was typed: `corn`, `1/4 cup`. Raises InputProblem naming what is near."""
    return with_amount(kitchen, part_of(identify_ingredient(kitchen, name), lot), amount)


def part_of(choice: Choice, lot: int | None = None) -> MealPart:
    """A part without an amount, of a chosen ingredient."""
    return MealPart(
        meal=0,
        position=0,
        name=choice.name,
        food=choice.slug if choice.kind == DRIED else "",
        staple=choice.slug if choice.kind == STAPLE else "",
        lot=lot,
    )


def with_amount(kitchen: Kitchen, part: MealPart, typed: str) -> MealPart:
    """The part with the typed mass or measure (empty: none). Raises InputProblem."""
    if not typed.strip():
        return replace(part, mass=None, volume=None)
    ours = style(kitchen)
    unit = ours.volume_unit if part.volume is not None else ours.mass_unit
    amount = parse_amount(typed, default_unit=unit, decimal_comma=ours.decimal_comma)
    if isinstance(amount, Mass):
        return replace(part, mass=amount, volume=None)
    return replace(part, mass=None, volume=amount)


def the_part(kitchen: Kitchen, id: int) -> MealPart:
    """The part of this number. Raises InputProblem where it is gone."""
    part = kitchen.journal.get(MealPart, id)
    if part is None:
        raise InputProblem("That ingredient is no longer in the meal.")
    return part


def scale_meal(kitchen: Kitchen, id: int, servings: float) -> Done[Meal]:
    """The same meal for more or fewer servings: every amount scales."""
    meal = the_meal(kitchen, id)
    pending = Pending()
    pending.edit(meal, replace(meal, servings=servings))
    for part in meal_parts(kitchen, id):
        pending.edit(part, scaled(part, servings / meal.servings))
    return kitchen.commit(f"Scaled {meal.name} to {servings:g} servings", pending)


# --- checks ----------------------------------------------------------------------------------------------


def check_meal(kitchen: Kitchen, meal: Meal) -> None:
    """Raise InputProblem, naming the field, where this can be no meal."""
    refuse(meal, kitchen.around())
    if any(m.name.casefold() == meal.name.casefold() and m.id != meal.id for m in kitchen.journal.where(Meal)):
        raise InputProblem(f"There is already a meal called {meal.name}; choose another name.", "name")
