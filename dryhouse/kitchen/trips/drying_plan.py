"""What a trip asks of the dryers, in the hours she keeps: which foods, from when, how late, beside what is
running."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from dryhouse.handbook.keeping_table import keeping_lines, rule_of
from dryhouse.handbook.pot import pot
from dryhouse.handbook.tables import Food
from dryhouse.kitchen.batches.dryers import dryers
from dryhouse.kitchen.calendar import end_of_day, start_of, today
from dryhouse.kitchen.cautions.cautions import facts_of_food
from dryhouse.kitchen.dryer.run_words import finish_moment
from dryhouse.kitchen.dryer.runs import run_of
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.records import Batch, Trip
from dryhouse.kitchen.records.batches import DRYING, PLANNED
from dryhouse.kitchen.shelf.history import with_trip
from dryhouse.kitchen.trips.household import DryingHours, tended
from dryhouse.kitchen.yields.knowledge import YieldKnowledge, learn
from dryhouse.science.drying_calendar import Calendar, Household, calendar
from dryhouse.science.drying_runs import Asked, Busy, Machine
from dryhouse.science.keeping import Stretch, used_up
from dryhouse.science.provisioning import Recipe, to_dry
from dryhouse.science.units import to_celsius

MEAT_LAST, LATE, ANY_TIME = 2, 1, 0


@dataclass(frozen=True, slots=True)
class DryingRoom:
    """The dryers, the hours they are tended, and how each food is dried, for one trip."""

    machines: tuple[Machine, ...]
    household: Household
    recipes: Mapping[str, Recipe]
    known: Mapping[str, YieldKnowledge]
    earliest: Mapping[str, datetime | None]
    late: Mapping[str, int]
    margin: float

    def asked(self, short: Mapping[str, float]) -> tuple[Asked, ...]:
        """What these dried grams, short on the shelf, ask of the dryers."""
        return tuple(
            Asked(
                to_dry(grams, self.recipes[food], self.margin),
                self.recipes[food],
                self.earliest[food],
                self.late[food],
            )
            for food, grams in short.items()
            if grams > 0
        )

    def calendar(self, short: Mapping[str, float]) -> Calendar:
        """The calendar of these dried grams."""
        return calendar(self.asked(short), self.machines, self.household)


def machines(kitchen: Kitchen) -> tuple[Machine, ...]:
    """Her dryers as the calendar sees them."""
    return tuple(Machine(d.id, d.name, d.trays, d.watts) for d in dryers(kitchen))


def ready_by(kitchen: Kitchen, trip: Trip) -> datetime:
    """The moment by which everything is dried and conditioned: a day before leaving is for packing."""
    return start_of(kitchen, trip.starts_on) - timedelta(days=pot("packing_days").value)


def household(kitchen: Kitchen, trip: Trip, hours: DryingHours, begin: date | None) -> Household:
    """The hours of a trip's drying: from now (or from the day she names) until it has to be ready."""
    ready, first = ready_by(kitchen, trip), today(kitchen)
    return Household(
        hours=tended(kitchen, hours, first, max(first, trip.starts_on)),
        midnight=start_of(kitchen, first),
        now=kitchen.now(),
        ready_by=max(ready, start_of(kitchen, first)),
        spread_from=None if begin is None else start_of(kitchen, begin),
        busy=_busy(kitchen, trip),
        turnaround=timedelta(hours=pot("turnaround").value),
        apart=timedelta(hours=pot("share_hours").value),
    )


def keeps_from(kitchen: Kitchen, food: Food, trip: Trip, last_day: date) -> tuple[datetime | None, int]:
    """From when a plant may be dried so that it keeps to the day it is eaten, and how late a food has to be.

    Until the trip it is supposed to stand as warm as a room. Food from animals is dried last; what has no published
    life as late as can be.
    """
    if food.animal:
        return None, MEAT_LAST
    lines = keeping_lines(food.slug, facts_of_food(food)).lines
    if not lines:
        return None, LATE
    room = to_celsius(rule_of("room").value)
    warmth = room if trip.temperature is None else trip.temperature.si
    leaves, needed = start_of(kitchen, trip.starts_on), end_of_day(kitchen, last_day)
    ready = ready_by(kitchen, trip)

    def keeps(dried: datetime) -> bool:
        until, _ = used_up(with_trip([Stretch("kitchen", dried, None, room)], leaves, warmth), lines)
        return until is not None and until >= needed

    earliest, latest = 0, max(0, (ready - kitchen.now()).days)
    if keeps(kitchen.now()):
        return None, ANY_TIME
    if not keeps(ready):
        return None, LATE
    while earliest < latest:
        middle = (earliest + latest) // 2
        if keeps(kitchen.now() + timedelta(days=middle)):
            latest = middle
        else:
            earliest = middle + 1
    return kitchen.now() + timedelta(days=latest), ANY_TIME


def _busy(kitchen: Kitchen, trip: Trip) -> tuple[Busy, ...]:
    """What is on the dryers now, and what is planned for them apart from this trip."""
    taken = []
    for batch in kitchen.journal.where(Batch, state=(DRYING, PLANNED)):
        other = batch.state == DRYING or batch.trip != trip.id
        if batch.dryer is None or batch.started is None or not other:
            continue
        end = _done(kitchen, batch)
        if end is not None and end > kitchen.now():
            taken.append(Busy(batch.dryer, max(batch.started, kitchen.now()), end))
    return tuple(taken)


def _done(kitchen: Kitchen, batch: Batch) -> datetime | None:
    """When a batch is likely done: by its forecast, else by the longest its food takes."""
    assert batch.started is not None
    run = run_of(kitchen, batch.id)
    if batch.state == DRYING:
        finish = finish_moment(kitchen, run)
        if finish is not None:
            return max(finish, kitchen.now() + timedelta(hours=1))
    hours = learn(kitchen, run.food).hours
    if hours is None:
        return None
    longest = hours.value if hours.high is None else max(hours.value, hours.high)
    return batch.started + timedelta(hours=longest)


def drying_room(
    kitchen: Kitchen,
    trip: Trip,
    last_days: Mapping[str, date],
    recipes: Mapping[str, Recipe],
    known: Mapping[str, YieldKnowledge],
    hours: DryingHours,
    begin: date | None,
) -> DryingRoom:
    """Everything the calendar of a trip needs. `last_days` says of each food on which day it is last eaten."""
    fresh = {food: keeps_from(kitchen, known[food].food, trip, day) for food, day in last_days.items()}
    return DryingRoom(
        machines=machines(kitchen),
        household=household(kitchen, trip, hours, begin),
        recipes=recipes,
        known=known,
        earliest={food: earliest for food, (earliest, _) in fresh.items()},
        late={food: late for food, (_, late) in fresh.items()},
        margin=trip.spoilage_margin_pct / 100.0,
    )


def whole_bags(
    room: DryingRoom, bags: Sequence[Mapping[str, float]]
) -> tuple[Calendar, tuple[bool, ...], dict[str, float]]:
    """The bags that can be made whole, taken in the order they are eaten, and the calendar that makes them.

    Each bag says what it lacks: dried grams by food. Answers the calendar, which bags are whole, and the dried
    grams asked of it.
    """
    everything = together(bags)
    made = room.calendar(everything)
    if not made.left_over:
        return made, (True,) * len(bags), everything
    kept: list[Mapping[str, float]] = []
    whole: list[bool] = []
    failed: set[frozenset[tuple[str, float]]] = set()
    made = room.calendar({})
    for lacks in bags:
        if not lacks:
            whole.append(True)
            continue
        what = frozenset(lacks.items())
        if what in failed:
            whole.append(False)
            continue
        tried = room.calendar(together([*kept, lacks]))
        whole.append(not tried.left_over)
        if tried.left_over:
            failed.add(what)
        else:
            kept.append(lacks)
            made = tried
    return made, tuple(whole), together(kept)


def together(bags: Sequence[Mapping[str, float]]) -> dict[str, float]:
    """Dried grams by food over several bags."""
    total: dict[str, float] = {}
    for lacks in bags:
        for food, grams in lacks.items():
            total[food] = total.get(food, 0.0) + grams
    return total
