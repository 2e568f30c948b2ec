"""Conditioning of dried fruit: due, running, looked at daily, done; and the record of pasteurising."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date, timedelta

from dryhouse.handbook.keeping_table import Pasteurising, pasteurising
from dryhouse.handbook.safety_table import rules_by_id
from dryhouse.kitchen.calendar import today
from dryhouse.kitchen.cautions.cautions import is_bought
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.ports import Done, Pending
from dryhouse.kitchen.records import Lot
from dryhouse.kitchen.shelf.book import ShelfBook
from dryhouse.kitchen.shelf.lots import lot_title, present
from dryhouse.kitchen.shelf.status import CONDITIONING
from dryhouse.science.errors import InputProblem
from dryhouse.words.dates import day_words

_NAMED = 4
"""How many lots a line names before it only counts them."""


@dataclass(frozen=True, slots=True)
class Conditioned:
    """How far the conditioning of a lot has come."""

    lot: Lot
    state: str
    """`due`, `running`, `done`, `too short`, or `moist` where a daily look found it so."""
    day: int
    """Days so far, the first day counted as 1; 0 where it has not begun."""
    days_needed: int
    looked_today: bool
    ends_on: date | None


def days_needed() -> int:
    """How long dried fruit is conditioned: the careful published figure."""
    return int(rules_by_id()[CONDITIONING].bound)


def conditioning(
    kitchen: Kitchen, on: date | None = None, book: ShelfBook | None = None
) -> tuple[Conditioned, ...]:
    """Every lot of home-dried fruit whose conditioning is due or running, the longest-running first."""
    book = book or ShelfBook.read(kitchen)
    day = on or today(kitchen)
    found = [
        state
        for lot in book.lots.values()
        if (state := conditioning_of(book, lot, day)) is not None
        and state.state != "done"
        and not book.left(lot, day).gone
    ]
    return tuple(sorted(found, key=lambda c: (-c.day, c.lot.id)))


def conditioning_of(book: ShelfBook, lot: Lot, on: date) -> Conditioned | None:
    """How far the conditioning of one lot has come on a day; None where it is no fruit dried at home."""
    if is_bought(lot) or book.food_facts(lot.food).category != "fruit":
        return None
    return _state(book, lot, on)


def one_in_words(state: Conditioned) -> str:
    """How far it has come and what is to be done, in a sentence of its own."""
    days, needed, lot = state.day, state.days_needed, state.lot
    if state.state == "due":
        return f"Not conditioned yet; needs {needed} days"
    if state.state == "moist":
        return f"Conditioning, day {days}: it was found moist and goes back in the dryer"
    if state.state == "running":
        if days > needed:
            return f"Conditioned {days - 1} days, long enough: mark it as finished"
        looked = "looked at today" if state.looked_today else "shake and look at it today"
        return f"Conditioning, day {days} of {needed}: {looked}"
    short = "" if state.state == "done" else f"; needs {needed}"
    begun = f" from {day_words(lot.conditioned_from)}" if lot.conditioned_from else ""
    return f"Conditioned {days} {'day' if days == 1 else 'days'}{begun}{short}"


def conditioning_words(kitchen: Kitchen, book: ShelfBook | None = None) -> str:
    """What conditioning asks for today, in a line or two; empty where it asks for nothing."""
    found = conditioning(kitchen, book=book)
    look = [c for c in found if c.state in ("running", "moist") and c.day <= c.days_needed and not c.looked_today]
    over = [c for c in found if c.state == "running" and c.day > c.days_needed]
    wait = [c for c in found if c.state == "due"]
    lines = []
    if look:
        lots = ", ".join(f"lot {c.lot.id} (day {c.day} of {c.days_needed})" for c in look[:_NAMED])
        lines.append(f"Shake and look at today: {lots}{_and_more(look)}.")
    if over:
        lots = ", ".join(f"lot {c.lot.id}" for c in over[:_NAMED])
        lines.append(f"Conditioned long enough, mark as finished: {lots}{_and_more(over)}.")
    if wait:
        lots = ", ".join(f"lot {c.lot.id}" for c in wait[:_NAMED])
        lines.append(f"Needs conditioning: {lots}{_and_more(wait)}.")
    return " ".join(lines)


def _and_more(found: list[Conditioned]) -> str:
    return f" and {len(found) - _NAMED} more" if len(found) > _NAMED else ""


def _state(book: ShelfBook, lot: Lot, on: date) -> Conditioned:
    needed = days_needed()
    first, last = lot.conditioned_from, lot.conditioned_to
    looks = book.checks_by(lot.id, on)
    looked = any(c.on == on for c in looks)
    if first is None:
        return Conditioned(lot, "due", 0, needed, looked, None)
    if last is not None:
        days = (last - first).days
        return Conditioned(lot, "done" if days >= needed else "too short", days, needed, looked, last)
    moist = any(c.moist for c in looks if c.on >= first)
    day = max(0, (on - first).days + 1)
    return Conditioned(lot, "moist" if moist else "running", day, needed, looked, first + timedelta(days=needed))


def start_conditioning(kitchen: Kitchen, id: int, on: date | None = None) -> Done[Lot]:
    """Conditioning begins; look at it daily with `check_lot`."""
    lot = present(kitchen, id)
    day = on or today(kitchen)
    pending = Pending()
    pending.edit(lot, replace(lot, conditioned_from=day, conditioned_to=None))
    return kitchen.commit(f"Began conditioning {lot_title(kitchen, lot)}", pending)


def end_conditioning(kitchen: Kitchen, id: int, on: date | None = None) -> Done[Lot]:
    """Conditioning is over. Fewer days than the careful figure stay on record as they are, and are said.

    Raises InputProblem.
    """
    lot = present(kitchen, id)
    day = on or today(kitchen)
    if lot.conditioned_from is None:
        raise InputProblem("Its conditioning has not begun; enter the day it did first.", "conditioned_from")
    if day < lot.conditioned_from:
        raise InputProblem("Conditioning ends after it began.", "conditioned_to")
    pending = Pending()
    pending.edit(lot, replace(lot, conditioned_to=day))
    days, needed = (day - lot.conditioned_from).days, days_needed()
    said = "" if days >= needed else f" after {days} days of {needed}"
    return kitchen.commit(f"Ended conditioning {lot_title(kitchen, lot)}{said}", pending)


def treatments() -> tuple[Pasteurising, ...]:
    """The published treatments against insects, to choose from."""
    return pasteurising()


def pasteurise(kitchen: Kitchen, id: int, how: str, on: date | None = None) -> Done[Lot]:
    """Record a treatment against insects, in words. It is no kill step, and changes no caution but its own.

    Raises InputProblem.
    """
    lot = present(kitchen, id)
    words = how.strip()
    if not words:
        raise InputProblem("How was it done? For example: in the freezer for 48 hours.", "pasteurised")
    day = on or today(kitchen)
    pending = Pending()
    pending.edit(lot, replace(lot, pasteurised=f"{words}, {day_words(day)}"))
    return kitchen.commit(f"Noted a treatment against insects of {lot_title(kitchen, lot)}", pending)
