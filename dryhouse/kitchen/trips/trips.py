"""What a person does with trips: days away, meals on them, and moving a meal from one day to another."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date, timedelta

from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.meals.meals import the_meal
from dryhouse.kitchen.ports import Done, Pending, Record
from dryhouse.kitchen.records import AfterTrip, Batch, Trip, TripMeal, TripPerson
from dryhouse.kitchen.records.batches import PLANNED
from dryhouse.kitchen.records.problems import refuse
from dryhouse.kitchen.search_words import one_named
from dryhouse.science.display import counted
from dryhouse.science.errors import InputProblem
from dryhouse.words.dates import weekday_words

SLOTS = ("breakfast", "lunch", "dinner", "snack")


def trips(kitchen: Kitchen) -> tuple[Trip, ...]:
    """Every trip, the next one first, then those that are over, the latest first."""
    today = kitchen.local(kitchen.now()).date()
    known = kitchen.journal.where(Trip)
    to_come = sorted((t for t in known if t.ends_on >= today), key=lambda t: (t.starts_on, t.id))
    over = sorted((t for t in known if t.ends_on < today), key=lambda t: (t.starts_on, t.id), reverse=True)
    return (*to_come, *over)


def find_trip(kitchen: Kitchen, text: str) -> Trip:
    """The trip of this name or number, or the only one whose name holds the words. Raises InputProblem."""
    return one_named(trips(kitchen), text, "trip")


def the_trip(kitchen: Kitchen, id: int) -> Trip:
    """The trip of this number. Raises InputProblem where it is gone."""
    return kitchen.present(Trip, id, "trip")


def days_of(trip: Trip) -> tuple[date, ...]:
    """Every day food is carried for, first to last, the spare ones after the others."""
    length = (trip.ends_on - trip.starts_on).days + 1 + trip.spare_days
    return tuple(trip.starts_on + timedelta(days=n) for n in range(length))


def layovers_of(trip: Trip) -> tuple[date, ...]:
    """The days on which nobody travels."""
    return tuple(trip.starts_on + timedelta(days=int(number) - 1) for number in trip.layovers.split())


def people_of(kitchen: Kitchen, trip: int) -> tuple[TripPerson, ...]:
    """Those of whom something is said, in the order it was said."""
    return kitchen.journal.where(TripPerson, trip=trip)


def _set_people(kitchen: Kitchen, trip: int, people: Sequence[TripPerson], pending: Pending) -> None:
    """Who goes: those given stay or are added, the others are taken off."""
    before = {person.id: person for person in people_of(kitchen, trip)}
    for person in people:
        mine = replace(person, trip=trip, name=" ".join(person.name.split()))
        if person.id in before:
            pending.edit(before.pop(person.id), mine)
        else:
            pending.add(replace(mine, id=kitchen.journal.next_id(TripPerson)))
    pending.remove(*before.values())


def meals_of(kitchen: Kitchen, trip: int) -> tuple[TripMeal, ...]:
    """The meals of a trip in the order they are eaten."""
    placed = kitchen.journal.where(TripMeal, trip=trip)
    return tuple(sorted(placed, key=lambda m: (m.on, _slot_order(m.slot), m.id)))


def _slot_order(slot: str) -> int:
    return SLOTS.index(slot) if slot in SLOTS else len(SLOTS)


def save_trip(kitchen: Kitchen, trip: Trip, people: Sequence[TripPerson] | None = None) -> Done[Record]:
    """A new trip (id 0), or an edited one, with those who go where they are given. Meals on days that no longer
    belong to it go with their days."""
    trip = replace(trip, name=" ".join(trip.name.split()))
    check_trip(kitchen, trip)
    pending = Pending()
    if trip.id == 0:
        trip = replace(trip, id=kitchen.journal.next_id(Trip))
        pending.add(trip)
        _set_people(kitchen, trip.id, people or (), pending)
        return kitchen.commit(f"Added the trip {trip.name}", pending)
    before = the_trip(kitchen, trip.id)
    pending.edit(before, trip)
    if people is not None:
        _set_people(kitchen, trip.id, people, pending)
    shift = trip.starts_on - before.starts_on
    same_length = before.ends_on - before.starts_on == trip.ends_on - trip.starts_on
    outside, kept = 0, days_of(trip)
    for placed in meals_of(kitchen, trip.id):
        on = placed.on + shift if shift and same_length else placed.on
        if on in kept:
            pending.edit(placed, replace(placed, on=on))
        else:
            pending.remove(placed)
            outside += 1
    were = "was" if outside == 1 else "were"
    dropped = f"; {counted(outside, 'meal')} outside the new dates {were} removed" if outside else ""
    return kitchen.commit(f"Changed the trip {trip.name}{dropped}", pending)


def remove_trip(kitchen: Kitchen, id: int) -> Done[Record]:
    """Remove a trip, the meals on its days and the batches planned for it. What was dried stays."""
    trip = the_trip(kitchen, id)
    pending = Pending()
    for batch in kitchen.journal.where(Batch, trip=id):
        if batch.state == PLANNED:
            pending.remove(batch)
        else:
            pending.edit(batch, replace(batch, trip=None))
    pending.remove(*kitchen.journal.where(AfterTrip, trip=id))
    pending.remove(*meals_of(kitchen, id), *people_of(kitchen, id), trip)
    return kitchen.commit(f"Removed the trip {trip.name}", pending)


def put_meal(
    kitchen: Kitchen, trip: int, meal: int, on: date, slot: str = "dinner", servings: float | None = None
) -> Done[TripMeal]:
    """Put a meal on a day. Without servings there is one for each person."""
    the_trip(kitchen, trip)
    what = the_meal(kitchen, meal)
    placed = TripMeal(trip, meal, on, slot.strip() or "dinner", servings, kitchen.journal.next_id(TripMeal))
    pending = Pending()
    pending.add(placed)
    return kitchen.commit(f"Put {what.name} on {weekday_words(on)}, {placed.slot}", pending)


def move_meal(kitchen: Kitchen, placed: int, on: date, slot: str | None = None) -> Done[TripMeal]:
    """Move a meal to another day or another time of day."""
    before = _the_placed(kitchen, placed)
    after = replace(before, on=on, slot=slot or before.slot)
    pending = Pending()
    pending.edit(before, after)
    return kitchen.commit(
        f"Moved {the_meal(kitchen, before.meal).name} to {weekday_words(on)}, {after.slot}", pending
    )


def serve_meal(kitchen: Kitchen, placed: int, servings: float | None) -> Done[TripMeal]:
    """How many servings of it that day; None for one each."""
    before = _the_placed(kitchen, placed)
    after = replace(before, servings=servings)
    pending = Pending()
    pending.edit(before, after)
    return kitchen.commit(f"Changed the servings of {the_meal(kitchen, before.meal).name}", pending)


def unplan_meal(kitchen: Kitchen, placed: int) -> Done[TripMeal]:
    """Take a meal off its day."""
    before = _the_placed(kitchen, placed)
    pending = Pending()
    pending.remove(before)
    return kitchen.commit(f"Took {the_meal(kitchen, before.meal).name} off {weekday_words(before.on)}", pending)


def _the_placed(kitchen: Kitchen, id: int) -> TripMeal:
    found = kitchen.journal.get(TripMeal, id)
    if found is None:
        raise InputProblem("That meal is no longer on the trip.")
    return found


def check_trip(kitchen: Kitchen, trip: Trip) -> None:
    """Refuses what a trip may not be: its own faults, and a name another one has."""
    refuse(trip, kitchen.around())
    if any(t.name.casefold() == trip.name.casefold() and t.id != trip.id for t in kitchen.journal.where(Trip)):
        raise InputProblem(f"There is already a trip called {trip.name}; choose another name.", "name")
