"""Lots: what a person does with a jar or bag once it is on the shelf."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, fields, replace
from datetime import date, datetime, timedelta

from dryhouse.kitchen.calendar import day_of, start_of, today
from dryhouse.kitchen.foods.shelved import name_of_lot
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.ports import Done, Pending, Record
from dryhouse.kitchen.records import Lot, LotCheck, LotDraw, LotMove, MealPart, Place
from dryhouse.kitchen.records.lots import COOKED, THROWN_OUT
from dryhouse.kitchen.search_words import numbered
from dryhouse.kitchen.settings import style_of
from dryhouse.kitchen.shelf.book import ShelfBook
from dryhouse.kitchen.shelf.lines import titled
from dryhouse.kitchen.shelf.remaining import Left
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Mass, Volume
from dryhouse.words.dates import day_words

_SCALE_G = 0.5
_CALLED = {
    "mass": "weight",
    "packed_on": "day of packing",
    "conditioned_from": "conditioning",
    "conditioned_to": "conditioning",
    "pasteurised": "treatment against insects",
    "opened_on": "day of opening",
    "redried_on": "day of drying again",
    "bought_keep_by": "date on the package",
    "in_oil": "packed in oil",
}
"""What a person calls the fields of a lot that are not called by their own name."""


def lot_named(kitchen: Kitchen, text: str) -> Lot:
    """The lot of this number, as it was typed. Raises NotKnown."""
    return numbered(kitchen, Lot, text, "lot")


def lot_title(kitchen: Kitchen, lot: Lot) -> str:
    """What to call a lot: its own name, or its food's, with its number."""
    return f"{titled(name_of_lot(kitchen, lot), lot.name)}, lot {lot.id}"


def edit_lot(kitchen: Kitchen, lot: Lot) -> Done[Lot]:
    """Put right what is written of a lot. Raises InputProblem, naming the field."""
    before = present(kitchen, lot.id)
    pending = Pending()
    pending.edit(before, lot)
    differ = [f.name for f in fields(Lot) if getattr(before, f.name) != getattr(lot, f.name)]
    changed = ", ".join(dict.fromkeys(_CALLED.get(name, name) for name in differ)) or "nothing"
    return kitchen.commit(f"Changed {changed} of {lot_title(kitchen, lot)}", pending)


def remove_lot(kitchen: Kitchen, id: int) -> Done[Record]:
    """Take a lot off the record with its moves, draws and checks; meals that named it name only its food."""
    lot = present(kitchen, id)
    pending = Pending()
    for part in kitchen.journal.where(MealPart, lot=id):
        pending.edit(part, replace(part, lot=None))
    for kind in (LotMove, LotDraw, LotCheck):
        pending.remove(*kitchen.journal.where(kind, lot=id))
    pending.remove(lot)
    return kitchen.commit(f"Removed {lot_title(kitchen, lot)}", pending)


def move(kitchen: Kitchen, lots: Sequence[int], place: int, at: datetime | None = None) -> Done[LotMove]:
    """From this moment on (now; it may lie back) these lots are in this place. Raises InputProblem."""
    where = kitchen.present(Place, place, "place", "place")
    moment = at or kitchen.now()
    if moment > kitchen.now() + timedelta(days=1):
        raise InputProblem("A move is noted when it has been made, not before.", "at")
    pending = Pending()
    for id in dict.fromkeys(lots):
        lot = present(kitchen, id)
        if moment < start_of(kitchen, lot.packed_on):
            packed = day_words(lot.packed_on)
            raise InputProblem(
                f"{lot_title(kitchen, lot)} was only packed on {packed}; move it from then on.", "at"
            )
        pending.add(LotMove(id, place, moment, kitchen.journal.next_id(LotMove)))
    if not pending.changes:
        raise InputProblem("Choose the lots to move first.", "lots")
    count = len(pending.changes)
    what = lot_title(kitchen, present(kitchen, lots[0])) if count == 1 else f"{count} lots"
    return kitchen.commit(f"Moved {what} to the {where.name}", pending)


def remove_move(kitchen: Kitchen, id: int) -> Done[LotMove]:
    """Take back a move that was entered by mistake."""
    move_made = kitchen.present(LotMove, id, "move")
    pending = Pending()
    pending.remove(move_made)
    return kitchen.commit(f"Took back a move of {lot_title(kitchen, present(kitchen, move_made.lot))}", pending)


def draw(
    kitchen: Kitchen,
    id: int,
    mass: Mass | None = None,
    *,
    purpose: str = COOKED,
    on: date | None = None,
    meal: int | None = None,
    note: str = "",
) -> Done[LotDraw]:
    """Take some of a lot, or all of it where no mass is given. Raises InputProblem where that much is not there."""
    lot = present(kitchen, id)
    day = _day(kitchen, lot, on)
    remains = _left(kitchen, lot, day)
    if mass is not None and remains.mass_g is not None and mass.si > remains.mass_g + _SCALE_G:
        rest = style_of(kitchen, mass).mass(remains.mass_g)
        raise InputProblem(
            f"Only {rest} is left of {lot_title(kitchen, lot)}; take that, or weigh it and enter a check.", "mass"
        )
    pending = Pending()
    number = kitchen.journal.next_id(LotDraw)
    pending.add(LotDraw(id, day, purpose, mass, meal, note.strip(), _moment(kitchen, day), number))
    amount = "all" if mass is None else mass.typed or f"{mass.si:.0f} g"
    verb = {COOKED: "Took", THROWN_OUT: "Threw out"}.get(purpose, "Gave away")
    return kitchen.commit(f"{verb} {amount} of {lot_title(kitchen, lot)}", pending)


def weight_of(kitchen: Kitchen, id: int, measure: Volume) -> Mass:
    """What so much of a lot weighs, by what is left of it. Raises InputProblem where its cup is not known."""
    remains = _left(kitchen, present(kitchen, id), today(kitchen))
    if not remains.mass_g or not remains.volume_ml:
        raise InputProblem("What a cup of this lot weighs is not known: give what you take by weight.", "mass")
    return Mass(measure.si * remains.mass_g / remains.volume_ml)


def throw_out(kitchen: Kitchen, lots: Sequence[int], on: date | None = None, note: str = "") -> Done[LotDraw]:
    """All that is left of these lots goes. Raises InputProblem."""
    pending, thrown = Pending(), list[Lot]()
    for id in dict.fromkeys(lots):
        lot = present(kitchen, id)
        day = _day(kitchen, lot, on)
        if not _left(kitchen, lot, day).gone:
            number = kitchen.journal.next_id(LotDraw)
            pending.add(LotDraw(id, day, THROWN_OUT, None, None, note.strip(), id=number))
            thrown.append(lot)
    if not thrown:
        raise InputProblem("Nothing is left of what you chose.", "lots")
    what = lot_title(kitchen, thrown[0]) if len(thrown) == 1 else f"{len(thrown)} lots"
    return kitchen.commit(f"Threw out {what}", pending)


@dataclass(frozen=True, slots=True)
class Found:
    """What was found on looking into a lot. None means that it was not looked at."""

    moist: bool | None = None
    mould: bool | None = None
    smell: str = ""
    mass: Mass | None = None
    note: str = ""


def check_lot(kitchen: Kitchen, id: int, found: Found, on: date | None = None) -> Done[LotCheck]:
    """Note what was found on looking. A mass counts from that day on.

    Raises InputProblem.
    """
    lot = present(kitchen, id)
    day = _day(kitchen, lot, on)
    smell, note = found.smell.strip(), found.note.strip()
    if found.moist is None and found.mould is None and found.mass is None and not smell and not note:
        raise InputProblem("What was found? Say whether it was moist, whether there was mold, or what it weighs.")
    number = kitchen.journal.next_id(LotCheck)
    pending = Pending()
    at = _moment(kitchen, day)
    pending.add(LotCheck(id, day, found.mass, found.moist, found.mould, smell, note, at, number))
    return kitchen.commit(f"Checked {lot_title(kitchen, lot)}", pending)


def open_lot(kitchen: Kitchen, id: int, on: date | None = None) -> Done[Lot]:
    """The seal is broken. The lot is one to look at until a check finds it dry."""
    lot = present(kitchen, id)
    pending = Pending()
    pending.edit(lot, replace(lot, opened_on=_day(kitchen, lot, on)))
    return kitchen.commit(f"Opened {lot_title(kitchen, lot)}", pending)


def redry(kitchen: Kitchen, id: int, on: date | None = None) -> Done[Lot]:
    """It went back in the dryer. The life already used stays used; a check must find it dry."""
    lot = present(kitchen, id)
    pending = Pending()
    pending.edit(lot, replace(lot, redried_on=_day(kitchen, lot, on)))
    return kitchen.commit(f"Dried {lot_title(kitchen, lot)} again", pending)


def present(kitchen: Kitchen, id: int) -> Lot:
    """The lot of this number. Raises InputProblem where it is gone."""
    return kitchen.present(Lot, id, "lot", "lot")


def _moment(kitchen: Kitchen, day: date) -> datetime | None:
    """Now, where the day is today; of another day nobody said when it was."""
    return kitchen.now() if day == today(kitchen) else None


def _left(kitchen: Kitchen, lot: Lot, day: date) -> Left:
    return ShelfBook.read(kitchen, lot.id).left(lot, max(day, today(kitchen)))


def _day(kitchen: Kitchen, lot: Lot, on: date | None) -> date:
    day = on or day_of(kitchen, kitchen.now())
    if day < lot.packed_on:
        raise InputProblem(f"That is before it was packed, on {day_words(lot.packed_on)}.", "on")
    if day > today(kitchen) + timedelta(days=1):
        raise InputProblem("That day is still to come.", "on")
    return day
