"""A meal is cooked: what leaves the shelf for it, and how it came out."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date

from dryhouse.kitchen.calendar import today
from dryhouse.kitchen.foods.shelved import name_of_lot
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.meals.meals import the_meal
from dryhouse.kitchen.meals.sheet import meal_sheet
from dryhouse.kitchen.meals.shelf_keys import lot_key, part_key
from dryhouse.kitchen.ports import Done, Pending, Record
from dryhouse.kitchen.records import CookingNote, CookingNotePart, Lot, LotDraw, Meal
from dryhouse.kitchen.records.lots import COOKED
from dryhouse.kitchen.settings import style
from dryhouse.kitchen.shelf.shelf import GOOD, shelf
from dryhouse.science.provisioning import Need, Supply, cover
from dryhouse.science.quantities import Mass
from dryhouse.words.cooking_ways import taken_off_the_shelf, taken_words


def note_cooking(
    kitchen: Kitchen,
    note: CookingNote,
    parts: Sequence[CookingNotePart] = (),
    draws: Sequence[LotDraw] = (),
) -> Done[CookingNote]:
    """How a meal came out. `parts` say how single ingredients came back, `draws` what left the shelf for it."""
    meal = the_meal(kitchen, note.meal)
    id = kitchen.journal.next_id(CookingNote)
    pending = Pending()
    pending.add(replace(note, id=id))
    pending.add(*(replace(p, note=id, id=kitchen.journal.next_id(CookingNotePart)) for p in parts))
    at = kitchen.now() if note.on == today(kitchen) else None
    for draw in draws:
        number = kitchen.journal.next_id(LotDraw)
        pending.add(replace(draw, id=number, on=note.on, at=at, purpose=COOKED, meal=meal.id))
    how = f", {note.came_back}" if note.came_back else ""
    taken = drawn_words(kitchen, draws)
    return kitchen.commit(f"Noted how {meal.name} came out{how}{f'; {taken}' if taken else ''}", pending)


def drawn_words(kitchen: Kitchen, draws: Sequence[LotDraw], *, to_come: bool = False) -> str:
    """`taken off the shelf: 1 oz of carrot (jar by the door)`, or what would be; nothing where nothing is drawn."""
    ours, said = style(kitchen), []
    for draw in draws:
        lot = kitchen.journal.get(Lot, draw.lot)
        if lot is not None:
            much = "all" if draw.mass is None else ours.mass(draw.mass.si)
            said.append(taken_words(much, name_of_lot(kitchen, lot), lot.name or f"lot {lot.id}"))
    return taken_off_the_shelf(said, to_come=to_come) if said else ""


def remove_note(kitchen: Kitchen, id: int) -> Done[Record]:
    """Take a cooking note back."""
    note = kitchen.present(CookingNote, id, "note")
    pending = Pending()
    pending.remove(*kitchen.journal.where(CookingNotePart, note=id), note)
    return kitchen.commit("Removed the cooking note", pending)


def notes_of(kitchen: Kitchen, meal: int) -> tuple[CookingNote, ...]:
    """The cooking notes of a meal, latest first."""
    return tuple(sorted(kitchen.journal.where(CookingNote, meal=meal), key=lambda n: (n.on, n.id), reverse=True))


def draws_for(kitchen: Kitchen, meal: Meal, servings: float, on: date) -> tuple[LotDraw, ...]:
    """The draws that cover a meal cooked on a day: the lots it names, else those that go off first.

    Only lots in good standing that day are drawn; what the shelf cannot give is not drawn.
    """
    sheet = meal_sheet(kitchen, meal, servings=servings)
    needs = [
        Need(on, part_key(line.part), line.grams, meal.name, line.part.lot)
        for line in sheet.parts
        if part_key(line.part) and line.grams
    ]
    foods = {need.food for need in needs}
    stock = [
        Supply(line.lot.id, lot_key(line.lot), line.mass_left_g, line.keep_by or on)
        for line in shelf(kitchen, on)
        if lot_key(line.lot) in foods and line.standing in GOOD and line.mass_left_g is not None
    ]
    return tuple(LotDraw(d.lot, on, mass=Mass(d.grams), meal=meal.id) for d in cover(needs, stock).draws)
