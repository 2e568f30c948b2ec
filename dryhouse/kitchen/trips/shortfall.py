"""What cannot be dried in time: which bags can be complete, what each other one lacks, and what would help."""

from __future__ import annotations

import math
from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta

from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.meals.shelf_keys import is_staple
from dryhouse.kitchen.records import Place
from dryhouse.kitchen.settings import style
from dryhouse.kitchen.trips.drying_plan import DryingRoom, household, together, whole_bags
from dryhouse.kitchen.trips.household import DryingHours
from dryhouse.kitchen.trips.sheet import Eaten, TripSheet
from dryhouse.science.drying_calendar import Calendar, calendar, fits_the_hours
from dryhouse.science.drying_runs import Asked, Machine
from dryhouse.science.provisioning import Cover, Recipe
from dryhouse.words import shortfalls as words
from dryhouse.words.trip_plans import days_of_bags

_MOST_TRIED = 5
"""Foods that are tried as bought dried: those of which most is left over."""

DRYER, TRAY_AREA, PLACE, LOT = "dryer", "tray area", "place", "lot"


@dataclass(frozen=True, slots=True)
class NextStep:
    """What is missing before a plan can be made, and what to do: `what` is one of the four above."""

    what: str
    sentence: str


@dataclass(frozen=True, slots=True)
class Shortfall:
    """What a plan cannot meet: a sentence for each thing, and the alternatives apart."""

    whole: int
    bags: int
    reasons: tuple[str, ...]
    """Why which food cannot be ready."""
    lacking: tuple[str, ...]
    """The bags that cannot be complete, with what each lacks; those alike in one sentence."""
    alternatives: tuple[str, ...]
    """Any one of them would help."""

    @property
    def first(self) -> tuple[str, ...]:
        """How many bags can be complete, and what would help."""
        one_of = (words.ANY_OF, *self.alternatives) if len(self.alternatives) > 1 else self.alternatives
        return (words.whole_of(self.whole, self.bags), *one_of)

    @property
    def lines(self) -> tuple[str, ...]:
        """All of it, in the order it is read."""
        return (*self.first, *self.reasons, *self.lacking)


def next_steps(kitchen: Kitchen, room: DryingRoom, to_dry: bool, shelf_empty: bool) -> tuple[NextStep, ...]:
    """What is still to be recorded before the plan can be all it may be."""
    steps = []
    if to_dry and not room.machines:
        steps.append(NextStep(DRYER, words.NO_DRYER))
    elif to_dry and not any(recipe.tray_grams for recipe in room.recipes.values()):
        steps.append(NextStep(TRAY_AREA, words.NO_AREA))
    if to_dry and not kitchen.journal.where(Place):
        steps.append(NextStep(PLACE, words.NO_PLACE))
    if to_dry and shelf_empty:
        steps.append(NextStep(LOT, words.NO_LOT))
    return tuple(steps)


def lacks_of(cover: Cover, bought: Collection[str], eaten: Sequence[Eaten]) -> list[dict[str, float]]:
    """For each bag in the order it is eaten: dried grams by food that are neither on the shelf nor `bought`
    dried."""
    lacks: dict[int, dict[str, float]] = {bag.placed.id: {} for bag in eaten}
    for need in (n for n in cover.short if n.food not in bought and not is_staple(n.food)):
        mine = lacks[need.bag]
        mine[need.food] = mine.get(need.food, 0.0) + need.grams
    return [lacks[bag.placed.id] for bag in eaten]


def shortfall(
    kitchen: Kitchen,
    sheet: TripSheet,
    room: DryingRoom,
    lacks: Sequence[Mapping[str, float]],
    whole: Sequence[bool],
    hours: DryingHours,
) -> Shortfall | None:
    """What cannot be met and what would help; None where every bag can be complete."""
    if all(whole):
        return None
    eaten = [bag for day in sheet.days for bag in day.meals]
    asked = room.asked(together(lacks))
    made = calendar(asked, room.machines, room.household)
    return Shortfall(
        whole=sum(whole),
        bags=len(eaten),
        reasons=_reasons(kitchen, room, asked, made),
        lacking=_lacking(kitchen, room, eaten, lacks, whole) if room.machines else (),
        alternatives=tuple(_alternatives(kitchen, sheet, room, lacks, sum(whole), made, hours)),
    )


def _reasons(kitchen: Kitchen, room: DryingRoom, asked: Sequence[Asked], made: Calendar) -> tuple[str, ...]:
    """Why each food that does not fit does not; once for all of them where there is no dryer."""
    if not room.machines:
        return (words.NO_DRYER,)
    notation = style(kitchen)
    return tuple(
        words.cannot_be_ready(
            room.known[a.batch.food].food.name,
            notation.load(made.left_over[a.batch.food]),
            notation.load(a.batch.dried),
            _why(kitchen, room, a.recipe),
        )
        for a in asked
        if a.batch.food in made.left_over
    )


def _why(kitchen: Kitchen, room: DryingRoom, recipe: Recipe) -> str:
    if room.household.ready_by <= kitchen.now():
        return words.PAST
    if recipe.fresh_per_dried is None:
        return words.NO_YIELD
    if recipe.hours is None:
        return words.NO_HOURS
    if not recipe.tray_grams:
        return words.NO_DRYER_FITS
    if not fits_the_hours(recipe.hours.high, room.household):
        return words.no_hours_fit(recipe.hours.high)
    return words.no_time(recipe.hours.high, recipe.conditioning_days)


def _lacking(
    kitchen: Kitchen,
    room: DryingRoom,
    eaten: Sequence[Eaten],
    lacks: Sequence[Mapping[str, float]],
    whole: Sequence[bool],
) -> tuple[str, ...]:
    notation = style(kitchen)
    alike: dict[tuple[str, str, tuple[tuple[str, float], ...]], list[date]] = {}
    for bag, short, complete in zip(eaten, lacks, whole, strict=True):
        if not complete:
            what = (bag.placed.slot, bag.sheet.meal.name, tuple(sorted(short.items())))
            alike.setdefault(what, []).append(bag.placed.on)
    said = []
    for (slot, meal, missing), days in alike.items():
        amounts = [f"{notation.mass(grams)} of {room.known[food].food.name}" for food, grams in missing]
        said.append(words.bag_lacks(f"{days_of_bags(days)} {slot}, {meal}", amounts, len(days)))
    return tuple(said)


def _alternatives(
    kitchen: Kitchen,
    sheet: TripSheet,
    room: DryingRoom,
    lacks: Sequence[Mapping[str, float]],
    now_whole: int,
    made: Calendar,
    hours: DryingHours,
) -> Iterator[str]:
    """Each thing that would make more bags complete, with how many that would be."""
    notation, bags = style(kitchen), len(lacks)
    most = sorted(made.left_over, key=lambda food: -made.left_over[food])[:_MOST_TRIED]
    helped: list[tuple[int, str]] = []
    for food in most:
        without = [{name: grams for name, grams in short.items() if name != food} for short in lacks]
        whole = _whole(room, without)
        if whole > now_whole:
            amount = sum(short.get(food, 0.0) for short in lacks) / (1.0 - room.margin)
            enough = notation.load(amount, math.ceil)
            helped.append((whole, words.buy_dried(enough, room.known[food].food.name, whole, bags)))
    yield from (line for _, line in sorted(helped, key=lambda one: -one[0]))
    if len(most) > 1:
        bought = [{name: grams for name, grams in short.items() if name not in most} for short in lacks]
        if (whole := _whole(room, bought)) > now_whole:
            names = ", ".join(room.known[food].food.name for food in most)
            yield words.buy_all_dried(names, whole, bags)
    biggest = max(room.machines, key=lambda m: m.trays, default=None)
    if biggest is not None and (whole := _whole(_with_a_second(room, biggest), lacks)) > now_whole:
        yield words.another_dryer(biggest.name, whole, bags)
    later = replace(sheet.trip, starts_on=sheet.trip.starts_on + timedelta(days=7))
    longer = replace(room, household=household(kitchen, later, hours, None))
    if (whole := _whole(longer, lacks)) > now_whole:
        yield words.one_more_week(whole, bags)
    if now_whole:
        yield words.leave_out(bags - now_whole)


def _whole(room: DryingRoom, lacks: Sequence[Mapping[str, float]]) -> int:
    return sum(whole_bags(room, lacks)[1])


def _with_a_second(room: DryingRoom, biggest: Machine) -> DryingRoom:
    second = replace(biggest, id=-1, name=f"a second {biggest.name}")
    lent = {
        food: replace(recipe, tray_grams={**recipe.tray_grams, -1: recipe.tray_grams[biggest.id]})
        if biggest.id in recipe.tray_grams
        else recipe
        for food, recipe in room.recipes.items()
    }
    return replace(room, machines=(*room.machines, second), recipes=lent)
