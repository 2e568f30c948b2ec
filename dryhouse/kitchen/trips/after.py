"""After a trip: what of each meal came back, what was short, and the next trip planned from it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta

from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.meals.meals import the_meal
from dryhouse.kitchen.ports import Done, Pending, Record
from dryhouse.kitchen.records import AfterTrip, Meal, Trip, TripMeal, TripPerson
from dryhouse.kitchen.records.problems import refuse
from dryhouse.kitchen.trips.sheet import appetites_of, servings_of
from dryhouse.kitchen.trips.trips import check_trip, meals_of, people_of, the_trip
from dryhouse.science.display import Style
from dryhouse.science.errors import InputProblem
from dryhouse.science.values import Basis, Figure
from dryhouse.science.workings import StepKind as Kind
from dryhouse.science.workings import step
from dryhouse.words import after_trips as words

STEP = 0.25
"""Servings to which the bags of the next trip are rounded: no cook measures finer. A choice of this program."""
WEEKS = 52
"""The next trip starts so many weeks later unless said otherwise: on the same day of the week."""


@dataclass(frozen=True, slots=True)
class Returned:
    """One meal of a trip, as far as it is noted how it was."""

    meal: Meal
    carried: float
    """Servings of all its bags; those of the spare days are carried to come back, and not counted."""
    spare: float
    """Servings of the spare days."""
    noted: AfterTrip | None
    bags: tuple[TripMeal, ...]

    @property
    def eaten_share(self) -> float:
        """What would have been right, as a share of what was carried."""
        if self.noted is None or not self.carried:
            return 1.0
        return (self.carried - self.noted.uneaten + self.noted.short) / self.carried

    def next_servings(self, servings: float) -> Figure:
        """What one bag of so many servings holds next time."""
        share = self.eaten_share
        value = servings if share == 1.0 else max(STEP if share else 0.0, STEP * round(servings * share / STEP))
        noted = self.noted or AfterTrip(0, self.meal.id)
        lines = (
            step(
                Kind.EATEN_SHARE,
                share * 100.0,
                meal=self.meal.name,
                carried=self.carried,
                uneaten=noted.uneaten,
                short=noted.short,
            ),
            step(Kind.SERVINGS_AGAIN, value, before=servings, share=share * 100.0, nearest=STEP),
        )
        return Figure(value, "", basis=(Basis("own", "what came back from the trip", 1),), workings=lines)

    def sentence(self, style: Style) -> str:
        """How it was, in a sentence; empty where nothing is noted."""
        if self.noted is None:
            return ""
        of, parts = style.number(self.carried, 2), []
        if self.noted.uneaten:
            parts.append(words.uneaten(style.number(self.noted.uneaten, 2), of))
        if self.noted.short:
            parts.append(words.short(style.number(self.noted.short, 2), of))
        return words.came_back(self.meal.name, parts or ["right"], self.noted.change)


def returned(kitchen: Kitchen, trip: int) -> tuple[Returned, ...]:
    """Every meal of a trip in the order it is first eaten, with what is noted of it."""
    found = the_trip(kitchen, trip)
    appetites = appetites_of(found, people_of(kitchen, trip))
    noted = {note.meal: note for note in kitchen.journal.where(AfterTrip, trip=trip)}
    bags: dict[int, list[TripMeal]] = {}
    for placed in meals_of(kitchen, trip):
        bags.setdefault(placed.meal, []).append(placed)
    return tuple(
        Returned(
            the_meal(kitchen, meal),
            sum(servings_of(found, one, appetites) for one in mine if one.on <= found.ends_on),
            sum(servings_of(found, one, appetites) for one in mine if one.on > found.ends_on),
            noted.get(meal),
            tuple(mine),
        )
        for meal, mine in bags.items()
    )


def note_after(kitchen: Kitchen, trip: int, notes: Sequence[AfterTrip]) -> Done[Record]:
    """How the meals of a trip were: one note a meal, in place of what was noted of it; a note that says nothing
    takes it away. Raises InputProblem."""
    found, pending = the_trip(kitchen, trip), Pending()
    known = {one.meal.id: one for one in returned(kitchen, trip)}
    for note in notes:
        name = the_meal(kitchen, note.meal).name
        if note.meal not in known:
            raise InputProblem(f"{name} is on no day of {found.name}.", "meal")
        one, mine = known[note.meal], replace(note, trip=trip, change=" ".join(note.change.split()))
        refuse(mine, kitchen.around())
        if mine.uneaten > one.carried:
            raise InputProblem(
                f"More of {name} cannot come back than went: {one.carried:g} servings, spare days aside.", "uneaten"
            )
        says = bool(mine.uneaten or mine.short or mine.change)
        if one.noted is not None and says:
            pending.edit(one.noted, replace(mine, id=one.noted.id))
        elif one.noted is not None:
            pending.remove(one.noted)
        elif says:
            pending.add(replace(mine, id=kitchen.journal.next_id(AfterTrip)))
    return kitchen.commit(f"Noted how {found.name} was", pending)


def next_start(trip: Trip) -> date:
    """When the next such trip starts, unless said otherwise."""
    return trip.starts_on + timedelta(weeks=WEEKS)


def next_name(kitchen: Kitchen, trip: Trip, starts_on: date) -> str:
    """What the next such trip is called, unless said otherwise: its year in place of the former one."""
    old, new = str(trip.starts_on.year), str(starts_on.year)
    name = trip.name.replace(old, new) if old in trip.name else f"{trip.name} {new}"
    taken = {other.name.casefold() for other in kitchen.journal.where(Trip)}
    while name.casefold() in taken:
        name += words.AGAIN
    return name


def changes_of(kitchen: Kitchen, trip: int, style: Style) -> tuple[str, ...]:
    """What the next trip takes in another amount, in words."""
    found = the_trip(kitchen, trip)
    appetites = appetites_of(found, people_of(kitchen, trip))
    said = []
    for one in returned(kitchen, trip):
        if one.eaten_share <= 0:
            said.append(words.left_out(one.meal.name))
            continue
        for before in dict.fromkeys(servings_of(found, bag, appetites) for bag in one.bags):
            after = one.next_servings(before).value
            if after != before:
                how = words.next_time(style.number(before, 2), style.number(after, 2))
                said.append(words.changed(one.meal.name, how))
    return tuple(said)


def plan_again(kitchen: Kitchen, trip: int, style: Style, starts_on: date, name: str = "") -> Done[Record]:
    """The next such trip: its days, people and meals, with the amounts that what came back teaches. One act."""
    found = the_trip(kitchen, trip)
    shift = starts_on - found.starts_on
    changes = changes_of(kitchen, trip, style)
    made = replace(
        found,
        id=kitchen.journal.next_id(Trip),
        name=" ".join(name.split()) or next_name(kitchen, found, starts_on),
        starts_on=starts_on,
        ends_on=found.ends_on + shift,
        dry_from=None,
        notes=f"{found.notes} {words.taken_from(found.name, changes)}".strip(),
    )
    check_trip(kitchen, made)
    pending = Pending()
    pending.add(made)
    people = people_of(kitchen, trip)
    pending.add(*(replace(one, trip=made.id, id=kitchen.journal.next_id(TripPerson)) for one in people))
    appetites = appetites_of(found, people)
    for one in returned(kitchen, trip):
        for bag in one.bags if one.eaten_share > 0 else ():
            before = servings_of(found, bag, appetites)
            after = one.next_servings(before).value
            served = bag.servings if after == before else after
            number = kitchen.journal.next_id(TripMeal)
            pending.add(replace(bag, trip=made.id, on=bag.on + shift, servings=served, id=number))
    how = f", {changes[0]}" if len(changes) == 1 else f", {len(changes)} amounts changed" if changes else ""
    return kitchen.commit(f"Planned {made.name} after {found.name}{how}", pending)


def noted_before(kitchen: Kitchen, trip: Trip, meals: Sequence[int]) -> tuple[str, ...]:
    """What was noted to change in these meals after the last trip before this one, a sentence each."""
    before = {t.id: t for t in kitchen.journal.where(Trip) if t.starts_on < trip.starts_on}
    said = []
    for meal in dict.fromkeys(meals):
        notes = [n for n in kitchen.journal.where(AfterTrip, meal=meal) if n.trip in before and n.change]
        if notes:
            last = max(notes, key=lambda note: (before[note.trip].starts_on, note.id))
            said.append(words.last_time(the_meal(kitchen, meal).name, before[last.trip].name, last.change))
    return tuple(said)
