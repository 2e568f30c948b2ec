"""A trip worked out day by day: what is eaten, what it weighs, what it gives, and what the pot needs."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date

from dryhouse.handbook.pot import pot
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.meals.ingredients import Pantry
from dryhouse.kitchen.meals.sheet import MealSheet, meal_sheet
from dryhouse.kitchen.records import Trip, TripMeal, TripPerson
from dryhouse.kitchen.trips.trips import days_of, layovers_of, meals_of, people_of, the_trip
from dryhouse.science.values import Figure, merge_bases
from dryhouse.science.workings import StepKind as Kind
from dryhouse.science.workings import step


@dataclass(frozen=True, slots=True)
class Eaten:
    """One meal on one day, worked out for those who eat it."""

    placed: TripMeal
    sheet: MealSheet


@dataclass(frozen=True, slots=True)
class DaySheet:
    """One day: its meals and its sums."""

    day: date
    meals: tuple[Eaten, ...]
    grams_per_person: Figure
    energy_per_person: Figure | None
    sodium_per_person: Figure | None
    water: Figure
    flame_minutes: float
    wish_kcal: float | None
    remarks: tuple[str, ...]
    spare: bool
    """A day after the last, for which food is carried, too."""
    layover: bool
    """A day on which nobody travels."""
    carried_per_person: float = 0.0
    """Dry grams each person carries that morning: this day's food and that of all after it."""
    energy_lacks: tuple[str, ...] = ()
    """The ingredients that the energy leaves out, as theirs is not known: it is at least so much."""

    @property
    def energy_gap(self) -> float | None:
        """Energy per person over (or, negative, under) the wish; None where either is missing."""
        if self.wish_kcal is None or self.energy_per_person is None:
            return None
        return self.energy_per_person.value - self.wish_kcal


@dataclass(frozen=True, slots=True)
class TripSheet:
    """Every day of a trip, and the whole of it."""

    trip: Trip
    days: tuple[DaySheet, ...]
    food_mass: Figure
    grams_per_person_day: Figure
    energy_per_person_day: Figure | None
    water: Figure
    flame_minutes: float
    energy_lacks: tuple[str, ...] = ()
    """The ingredients that the energy leaves out."""

    def day(self, on: date) -> DaySheet:
        """The sheet of one day."""
        return next(d for d in self.days if d.day == on)


def altitude_of(trip: Trip) -> float | None:
    """The trip's altitude in metres, where it is recorded."""
    return None if trip.altitude is None else trip.altitude.si / 1000.0


def warmth_of_trip(trip: Trip) -> float | None:
    """How warm (°C) it is on the trip, where that is recorded: the bags travel at it and soak at it."""
    return None if trip.temperature is None else trip.temperature.si


def servings_of(trip: Trip, placed: TripMeal, appetites: float | None = None) -> float:
    """How many servings are eaten: as said, or one for each usual appetite (for each person, where none is
    said)."""
    if placed.servings is not None:
        return placed.servings
    return float(trip.people) if appetites is None else appetites


def appetites_of(trip: Trip, people: Sequence[TripPerson]) -> float:
    """How many usual appetites go: those of whom something is said, and one for each other person."""
    said = sum(person.appetite_pct for person in people) / 100.0
    return said + max(0, trip.people - len(people))


def trip_sheet(kitchen: Kitchen, trip: int) -> TripSheet:
    """The sheet of a trip. Raises InputProblem where it is gone."""
    found = the_trip(kitchen, trip)
    worked: dict[tuple[int, float], MealSheet] = {}
    pantry = Pantry(kitchen)
    appetites = appetites_of(found, people_of(kitchen, trip))

    def sheet(placed: TripMeal) -> MealSheet:
        key = (placed.meal, servings_of(found, placed, appetites))
        if key not in worked:
            height = altitude_of(found)
            worked[key] = meal_sheet(
                kitchen,
                key[0],
                servings=key[1],
                altitude_m=height,
                soak_temperature_c=warmth_of_trip(found),
                pantry=pantry,
            )
        return worked[key]

    eaten = [Eaten(placed, sheet(placed)) for placed in meals_of(kitchen, trip)]
    days = tuple(_day(found, day, tuple(e for e in eaten if e.placed.on == day)) for day in days_of(found))
    days = tuple(replace(day, carried_per_person=_carried(days[n:])) for n, day in enumerate(days))
    travelled = [day for day in days if not day.spare]
    person_days = found.people * len(travelled)
    mass = _together([e.sheet.bag.dry_mass for e in eaten], "g")
    on_the_way = [e for day in travelled for e in day.meals]
    eaten_mass = _together([e.sheet.bag.dry_mass for e in on_the_way], "g")
    lacks = _lacking(on_the_way)
    energy = _known([e.sheet.bag.energy for e in on_the_way], "kcal", lacks)
    return TripSheet(
        trip=found,
        days=days,
        food_mass=mass,
        grams_per_person_day=_each(eaten_mass, person_days, per_day=True),
        energy_per_person_day=None if energy is None else _each(energy, person_days, per_day=True),
        water=_together([e.sheet.bag.water for e in eaten], "ml"),
        flame_minutes=sum(d.flame_minutes for d in days),
        energy_lacks=lacks,
    )


def _day(trip: Trip, day: date, eaten: tuple[Eaten, ...]) -> DaySheet:
    bags = [e.sheet.bag for e in eaten]
    lacks = _lacking(eaten)
    energy, sodium = _known([b.energy for b in bags], "kcal", lacks), _known([b.sodium for b in bags], "mg")
    each_sodium = None if sodium is None else _each(sodium, trip.people)
    each_energy = None if energy is None else _each(energy, trip.people)
    limit = pot("sodium_day")
    salty = (
        (
            f"{each_sodium.value:.0f} mg of sodium for each person this day, past the common limit of "
            f"{limit.value:.0f} mg. [{limit.source}]",
        )
        if each_sodium is not None and each_sodium.value > limit.value
        else ()
    )
    return DaySheet(
        day=day,
        meals=eaten,
        grams_per_person=_each(_together([b.dry_mass for b in bags], "g"), trip.people),
        energy_per_person=each_energy,
        sodium_per_person=each_sodium,
        water=_together([b.water for b in bags], "ml"),
        flame_minutes=sum(e.sheet.minutes.flame.value for e in eaten),
        wish_kcal=trip.energy_kcal_per_person_day,
        remarks=salty,
        spare=day > trip.ends_on,
        layover=day in layovers_of(trip),
        energy_lacks=lacks,
    )


def _carried(days: Sequence[DaySheet]) -> float:
    return sum(day.grams_per_person.value for day in days)


def _together(figures: list[Figure], unit: str) -> Figure:
    value = sum(f.value for f in figures)
    lines = (*(step(Kind.ONE_BAG, (f.value, unit)) for f in figures), step(Kind.TOGETHER, (value, unit)))
    return Figure(
        value,
        unit,
        basis=merge_bases(*(f.basis for f in figures)),
        workings=lines,
    )


def _lacking(eaten: Sequence[Eaten]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(name for e in eaten for name in e.sheet.bag.without("energy")))


def _known(figures: list[Figure | None], unit: str, lacking: Sequence[str] = ()) -> Figure | None:
    known = [f for f in figures if f is not None]
    if not known:
        return None
    found = _together(known, unit)
    hole = (step(Kind.NOT_KNOWN_FOR, foods=", ".join(lacking)),) if lacking else ()
    return replace(found, workings=(*found.workings, *hole))


def _each(figure: Figure, share: int, *, per_day: bool = False) -> Figure:
    value = figure.value / share
    kind = Kind.FOR_EACH_PERSON_DAY if per_day else Kind.FOR_EACH_PERSON
    line = step(kind, (value, figure.unit), share=share)
    return Figure(value, figure.unit, basis=figure.basis, workings=(*figure.workings, line))
