"""The places food is kept, and how warm each has been from when on."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime

from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.ports import Done, Pending, Record
from dryhouse.kitchen.records import LotMove, Place, PlaceTemperature
from dryhouse.kitchen.search_words import one_named
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Temperature


def places(kitchen: Kitchen) -> tuple[Place, ...]:
    """Every place, by name."""
    return tuple(sorted(kitchen.journal.where(Place), key=lambda p: p.name.casefold()))


def find_place(kitchen: Kitchen, text: str) -> Place:
    """The place of this name or number, or the only one whose name holds the words. Raises InputProblem."""
    return one_named(places(kitchen), text, "place")


def add_place(
    kitchen: Kitchen,
    name: str,
    temperature: Temperature | None = None,
    *,
    since: datetime | None = None,
    humidity_pct: float | None = None,
) -> Done[Place]:
    """A new place, with its temperature from a moment on (now, where none is given)."""
    title = _name(kitchen, name)
    pending = Pending()
    place = Place(title, kitchen.journal.next_id(Place))
    pending.add(place)
    if temperature is not None:
        id = kitchen.journal.next_id(PlaceTemperature)
        row = PlaceTemperature(place.id, since or kitchen.now(), temperature, humidity_pct, id)
        pending.add(row)
    return kitchen.commit(f"Added the place {title}", pending)


def rename_place(kitchen: Kitchen, id: int, name: str) -> Done[Place]:
    """Another name for the same place."""
    before = _present(kitchen, id)
    pending = Pending()
    pending.edit(before, replace(before, name=_name(kitchen, name, id)))
    return kitchen.commit(f"Renamed {before.name} to {name.strip()}", pending)


def remove_place(kitchen: Kitchen, id: int) -> Done[Record]:
    """Remove a place no lot has been in. Raises InputProblem where one has: its history needs the place."""
    place = _present(kitchen, id)
    if kitchen.journal.where(LotMove, place=id):
        raise InputProblem(
            f"Lots have stood in the {place.name}; it stays, because their keep-by needs it.", "place"
        )
    pending = Pending()
    pending.remove(*kitchen.journal.where(PlaceTemperature, place=id), place)
    return kitchen.commit(f"Removed the place {place.name}", pending)


def temperatures(kitchen: Kitchen, place: int) -> tuple[PlaceTemperature, ...]:
    """How warm a place has been, oldest first."""
    return tuple(sorted(kitchen.journal.where(PlaceTemperature, place=place), key=lambda t: (t.since, t.id)))


def set_temperature(
    kitchen: Kitchen,
    place: int,
    temperature: Temperature,
    *,
    since: datetime | None = None,
    humidity_pct: float | None = None,
) -> Done[PlaceTemperature]:
    """From this moment on (now, where none is given; it may lie back) the place is this warm."""
    known = _present(kitchen, place)
    at = since or kitchen.now()
    pending = Pending()
    same = [t for t in temperatures(kitchen, place) if t.since == at]
    id = same[0].id if same else kitchen.journal.next_id(PlaceTemperature)
    row = PlaceTemperature(place, at, temperature, humidity_pct, id)
    if same:
        pending.edit(same[0], row)
    else:
        pending.add(row)
    return kitchen.commit(f"Noted the temperature of the {known.name}", pending)


def edit_temperature(kitchen: Kitchen, row: PlaceTemperature) -> Done[PlaceTemperature]:
    """Put right an entry of a place's temperatures; every keep-by that rests on it follows."""
    before = kitchen.present(PlaceTemperature, row.id, "temperature")
    pending = Pending()
    pending.edit(before, row)
    return kitchen.commit(f"Changed a temperature of the {_present(kitchen, row.place).name}", pending)


def remove_temperature(kitchen: Kitchen, id: int) -> Done[PlaceTemperature]:
    """Take back an entry of a place's temperatures."""
    before = kitchen.present(PlaceTemperature, id, "temperature")
    pending = Pending()
    pending.remove(before)
    return kitchen.commit(f"Removed a temperature of the {_present(kitchen, before.place).name}", pending)


def _name(kitchen: Kitchen, name: str, id: int = 0) -> str:
    title = " ".join(name.split())
    if not title:
        raise InputProblem("A place needs a name, such as pantry, cellar or freezer.", "name")
    if any(p.name.casefold() == title.casefold() and p.id != id for p in places(kitchen)):
        raise InputProblem(f"There is already a place called {title}.", "name")
    return title


def _present(kitchen: Kitchen, id: int) -> Place:
    return kitchen.present(Place, id, "place", "place")
