"""What a person does with meals: put one together, change it, swap a part, cook it, note how it came out."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from dryhouse.kitchen.ingredients import DRIED, LABEL, STAPLE, Choice, identify_ingredient
from dryhouse.kitchen.meal_sheet import MealSheet, meal_parts, scaled, sheet_of
from dryhouse.kitchen.ports import Done, Pending
from dryhouse.kitchen.records import CookingNote, CookingNotePart, Lot, LotDraw, Meal, MealPart, TripMeal
from dryhouse.kitchen.records.lots import COOKED
from dryhouse.kitchen.records.meals import CAME_BACK, COOKING_STYLES, LIQUID_STYLES
from dryhouse.kitchen.room import Kitchen
from dryhouse.kitchen.settings import style
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Length, Mass, Volume, parse_amount

HIGHEST_MM = 4572e3
"""15,000 ft: as far up as boiling points are published."""


def meals(kitchen: Kitchen) -> tuple[Meal, ...]:
    """Every meal, by name."""
    return tuple(sorted(kitchen.journal.where(Meal), key=lambda m: (m.name.casefold(), m.id)))


def find_meal(kitchen: Kitchen, text: str) -> Meal:
    """The meal of this name or number, or the only one whose name holds the words. Raises InputProblem."""
    key = " ".join(text.split()).casefold()
    known = meals(kitchen)
    exact = [m for m in known if m.name.casefold() == key or (key.isdigit() and m.id == int(key))]
    near = exact or [m for m in known if key and all(w in m.name.casefold() for w in key.split())]
    if len(near) == 1:
        return near[0]
    names = ", ".join(m.name for m in (near or known)) or "none yet"
    raise InputProblem(f"“{text}” is not one of your meals ({names}).", "meal")


def the_meal(kitchen: Kitchen, id: int) -> Meal:
    """The meal of this number. Raises InputProblem where it is gone."""
    found = kitchen.journal.get(Meal, id)
    if found is None:
        raise InputProblem("That meal is no longer here.")
    return found


def save_meal(kitchen: Kitchen, meal: Meal, parts: Sequence[MealPart] | None = None) -> Done:
    """A new meal (id 0) with its parts, or an edited one; parts that are not given stay as they are."""
    meal = replace(meal, name=" ".join(meal.name.split()))
    _check_meal(kitchen, meal)
    pending = Pending()
    if meal.id == 0:
        meal = replace(meal, id=kitchen.journal.next_id(Meal))
        pending.add(meal)
        what = f"Added the meal {meal.name}"
    else:
        pending.edit(the_meal(kitchen, meal.id), meal)
        what = f"Changed the meal {meal.name}"
    if parts is not None:
        _set_parts(kitchen, meal.id, parts, pending)
    return kitchen.commit(what, pending)


def _set_parts(kitchen: Kitchen, meal: int, parts: Sequence[MealPart], pending: Pending) -> None:
    before = {p.id: p for p in meal_parts(kitchen, meal)}
    next_id = kitchen.journal.next_id(MealPart)
    for position, part in enumerate(parts):
        _check_part(kitchen, part)
        placed = replace(part, meal=meal, position=position)
        if part.id in before:
            pending.edit(before.pop(part.id), placed)
        else:
            pending.add(replace(placed, id=next_id))
            next_id += 1
    pending.remove(*before.values())


def remove_meal(kitchen: Kitchen, id: int) -> Done:
    """Remove a meal with its parts, its notes and its days on trips."""
    meal = the_meal(kitchen, id)
    notes = kitchen.journal.where(CookingNote, meal=id)
    pending = Pending()
    pending.remove(*(p for n in notes for p in kitchen.journal.where(CookingNotePart, note=n.id)))
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


def own_label(name: str) -> MealPart:
    """A part known only by its own label; its figures are filled in on the card."""
    return part_of(Choice(LABEL, "", " ".join(name.split())))


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


def add_part(kitchen: Kitchen, meal: int, part: MealPart) -> Done:
    """One more part, last on the card."""
    the_meal(kitchen, meal)
    _check_part(kitchen, part)
    position = len(meal_parts(kitchen, meal))
    pending = Pending()
    pending.add(replace(part, meal=meal, position=position, id=kitchen.journal.next_id(MealPart)))
    return kitchen.commit(f"Added {part.name}", pending)


def change_part(kitchen: Kitchen, part: MealPart) -> Done:
    """The part as it should be, with the number it has."""
    before = _the_part(kitchen, part.id)
    _check_part(kitchen, part)
    pending = Pending()
    pending.edit(before, replace(part, meal=before.meal))
    return kitchen.commit(f"Changed {part.name}", pending)


def remove_part(kitchen: Kitchen, id: int) -> Done:
    """Take a part off the card."""
    part = _the_part(kitchen, id)
    pending = Pending()
    pending.remove(part)
    return kitchen.commit(f"Removed {part.name}", pending)


def _the_part(kitchen: Kitchen, id: int) -> MealPart:
    part = kitchen.journal.get(MealPart, id)
    if part is None:
        raise InputProblem("That ingredient is no longer in the meal.")
    return part


def scale_meal(kitchen: Kitchen, id: int, servings: float) -> Done:
    """The same meal for more or fewer servings: every amount scales."""
    meal = the_meal(kitchen, id)
    after = replace(meal, servings=servings)
    _check_meal(kitchen, after)
    pending = Pending()
    pending.edit(meal, after)
    for part in meal_parts(kitchen, id):
        pending.edit(part, scaled(part, servings / meal.servings))
    return kitchen.commit(f"Scaled {meal.name} to {servings:g} servings", pending)


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
    out = _the_part(kitchen, part)
    meal = the_meal(kitchen, out.meal)
    parts = meal_parts(kitchen, meal.id)
    before = sheet_of(kitchen, meal, parts, altitude_m=altitude_m)
    into = replace(draft_part(kitchen, name, amount), meal=meal.id, position=out.position, id=out.id)
    if into.mass is None and into.volume is None:
        grams = next((line.grams for line in before.parts if line.part.id == out.id), None)
        into = replace(into, mass=None if grams is None else Mass(grams))
    after = sheet_of(kitchen, meal, [into if p.id == out.id else p for p in parts], altitude_m=altitude_m)
    return Swap(out, into, before, after)


def swap_part(kitchen: Kitchen, part: int, name: str, amount: str = "") -> Done:
    """Make the swap."""
    swap = preview_swap(kitchen, part, name, amount)
    pending = Pending()
    pending.edit(swap.out, swap.into)
    return kitchen.commit(f"Swapped {swap.out.name} for {swap.into.name}", pending)


def note_cooking(
    kitchen: Kitchen,
    note: CookingNote,
    parts: Sequence[CookingNotePart] = (),
    draws: Sequence[LotDraw] = (),
) -> Done:
    """How a meal came out. `parts` say how single ingredients came back, `draws` what left the shelf for it."""
    meal = the_meal(kitchen, note.meal)
    _check_note(note, parts)
    id = kitchen.journal.next_id(CookingNote)
    first, first_draw = kitchen.journal.next_id(CookingNotePart), kitchen.journal.next_id(LotDraw)
    pending = Pending()
    pending.add(replace(note, id=id))
    pending.add(*(replace(p, note=id, id=first + n) for n, p in enumerate(parts)))
    for n, draw in enumerate(draws):
        pending.add(replace(draw, id=first_draw + n, on=note.on, purpose=COOKED, meal=meal.id))
    how = f", {note.came_back}" if note.came_back else ""
    return kitchen.commit(f"Noted how {meal.name} came out{how}", pending)


def remove_note(kitchen: Kitchen, id: int) -> Done:
    """Take a cooking note back."""
    note = kitchen.journal.get(CookingNote, id)
    if note is None:
        raise InputProblem("That note is no longer here.")
    pending = Pending()
    pending.remove(*kitchen.journal.where(CookingNotePart, note=id), note)
    return kitchen.commit("Removed the cooking note", pending)


def notes_of(kitchen: Kitchen, meal: int) -> tuple[CookingNote, ...]:
    """The cooking notes of a meal, latest first."""
    return tuple(sorted(kitchen.journal.where(CookingNote, meal=meal), key=lambda n: (n.on, n.id), reverse=True))


# --- checks ----------------------------------------------------------------------------------------------


def checked_meal(kitchen: Kitchen, meal: Meal) -> Meal:
    """The meal, if it can be one. Raises InputProblem."""
    _check_meal(kitchen, meal)
    return meal


def checked_part(kitchen: Kitchen, part: MealPart) -> MealPart:
    """The part, if it can be one. Raises InputProblem."""
    _check_part(kitchen, part)
    return part


def _check_meal(kitchen: Kitchen, meal: Meal) -> None:
    if not meal.name:
        raise InputProblem("A meal needs a name.", "name")
    if any(m.name.casefold() == meal.name.casefold() and m.id != meal.id for m in kitchen.journal.where(Meal)):
        raise InputProblem(f"There is already a meal called {meal.name}; choose another name.", "name")
    if not 0 < meal.servings <= 500:
        raise InputProblem("A meal serves someone: write servings such as 1, 2 or 4, at most 500.", "servings")
    if meal.cooking not in COOKING_STYLES:
        raise InputProblem(f"A meal is cooked by {', '.join(COOKING_STYLES)}.", "cooking")
    if meal.liquid not in LIQUID_STYLES:
        raise InputProblem(f"A meal is eaten {', '.join(LIQUID_STYLES)}.", "liquid")
    if meal.cook_minutes is not None and not 0 <= meal.cook_minutes <= 1440:
        raise InputProblem("Cooking takes between 0 minutes and a day.", "cook_minutes")
    if meal.boil_off_ml_per_min is not None and not 0 <= meal.boil_off_ml_per_min <= 1000:
        raise InputProblem("Boil-off lies between 0 and 1000 ml a minute.", "boil_off")
    _check_length(meal.pot_diameter, 20.0, 2000.0, "A pot is between 2 cm and 2 m across.", "pot_diameter")


def _check_length(length: Length | None, low: float, high: float, sentence: str, field: str) -> None:
    if length is not None and not low <= length.si <= high:
        raise InputProblem(sentence, field)


def _check_part(kitchen: Kitchen, part: MealPart) -> None:
    if not part.name.strip():
        raise InputProblem("An ingredient needs a name.", "name")
    if part.food and part.staple:
        raise InputProblem("An ingredient is either dried food or a bought staple, not both.", "name")
    if part.mass is not None and part.volume is not None:
        raise InputProblem("Give the weight or the measure; the other follows from the bulk density.", "amount")
    if part.lot is not None:
        lot = kitchen.journal.get(Lot, part.lot)
        if lot is None:
            raise InputProblem(f"There is no lot {part.lot}.", "lot")
        if lot.food != part.food:
            raise InputProblem(f"Lot {part.lot} holds another food than {part.name}.", "lot")
    for said in (part.label_energy_kcal, part.label_protein_g, part.label_fat_g, part.label_carbohydrate_g):
        if said is not None and said < 0:
            raise InputProblem(f"The label figures of {part.name} cannot be below nothing.", "label")
    if part.label_sodium_mg is not None and part.label_sodium_mg < 0:
        raise InputProblem(f"The label figures of {part.name} cannot be below nothing.", "label")


def _check_note(note: CookingNote, parts: Sequence[CookingNotePart]) -> None:
    for said in (note.came_back, *(p.came_back for p in parts)):
        if said and said not in CAME_BACK:
            raise InputProblem(f"Food comes back {', '.join(CAME_BACK)}; not “{said}”.", "came_back")
    if note.servings <= 0:
        raise InputProblem("Say how many servings were cooked, such as 2.", "servings")
    _check_length(note.altitude, 0.0, HIGHEST_MM, "The altitude lies between 0 and 15,000 ft.", "altitude")
    if note.rating is not None and not 1 <= note.rating <= 5:
        raise InputProblem("A rating is from 1 to 5.", "rating")


def water_used(typed: str, kitchen: Kitchen) -> Volume | None:
    """The water that was used, as typed; None where nothing was."""
    if not typed.strip():
        return None
    ours = style(kitchen)
    amount = parse_amount(typed, default_unit=ours.volume_unit, decimal_comma=ours.decimal_comma)
    return amount if isinstance(amount, Volume) else Volume(amount.si, amount.typed)
