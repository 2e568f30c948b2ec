"""What can be wrong with an ingredient of a meal, a trip, or a meal on a day of it."""

from __future__ import annotations

from datetime import timedelta

from dryhouse.kitchen.records.around import Around, there
from dryhouse.kitchen.records.batch_problems import unknown_food
from dryhouse.kitchen.records.field_problems import short
from dryhouse.kitchen.records.lots import Lot
from dryhouse.kitchen.records.meals import CookingNotePart, MealPart, Trip, TripMeal
from dryhouse.science.errors import InputProblem
from dryhouse.words.dates import day_words

LONGEST = 400
"""Days; a trip longer than this is a slip of the pen."""


def meal_part_problems(part: MealPart, around: Around) -> list[InputProblem]:
    """Of an ingredient: it is one thing, known by that name, in one amount, from a lot that holds it."""
    if part.food and part.staple:
        return [InputProblem("An ingredient is either dried food or a bought staple, not both.", "name")]
    found = []
    if part.food and not around.food_known(part.food):
        found.append(unknown_food(part.food))
    if part.staple and not around.staple_known(part.staple):
        found.append(InputProblem(f"No staple called “{short(part.staple)}” is known.", "name"))
    if not found and (other := _disguised(part, around)):
        found.append(InputProblem(other, "name"))
    if part.mass is not None and part.volume is not None:
        said = "Give the weight or the measure; the other follows from the bulk density."
        found.append(InputProblem(said, "amount"))
    lot = there(around, Lot, part.lot)
    if lot is not None and lot.food != part.food:
        found.append(InputProblem(f"Lot {part.lot} holds another food than {short(part.name)}.", "lot"))
    return found


def _disguised(part: MealPart, around: Around) -> str:
    """Why a name that says an animal food may not stand for another food; empty where it may."""
    slug, name = part.food or part.staple, part.name
    animal = around.is_animal(slug) if part.food else around.staple_animal(slug)
    if not slug or animal or around.is_called(slug, name):
        return ""
    named = around.animal_named(name)
    if not named:
        return ""
    said = f"“{short(name)}” names food from an animal ({short(named)}), but stands for {short(slug)}"
    return f"{said}; its cautions would be lost."


def trip_problems(trip: Trip, around: Around) -> list[InputProblem]:
    """Of a trip: it ends after it starts, and some day; its layovers are days of it."""
    if trip.ends_on < trip.starts_on:
        return [InputProblem("The trip ends before it starts; put the later day last.", "ends_on")]
    if (trip.ends_on - trip.starts_on).days >= LONGEST:
        return [InputProblem(f"A trip lasts at most {LONGEST} days here.", "ends_on")]
    length = (trip.ends_on - trip.starts_on).days + 1
    numbers = trip.layovers.split()
    if all(number.isdecimal() and len(number) < 4 and 1 <= int(number) <= length for number in numbers):
        return []
    said = f"Write layover days by their number, from 1 to {length}, such as 3 6."
    return [InputProblem(said, "layovers")]


def trip_meal_problems(placed: TripMeal, around: Around) -> list[InputProblem]:
    """Of a meal on a trip: its day is one of the trip's, the spare ones with them."""
    trip = there(around, Trip, placed.trip)
    if trip is None or trip.starts_on <= placed.on <= trip.ends_on + timedelta(days=trip.spare_days):
        return []
    days = f"{day_words(trip.starts_on)} to {day_words(trip.ends_on)}"
    return [InputProblem(f"{day_words(placed.on)} is not a day of {short(trip.name)} ({days}).", "on")]


def note_part_problems(part: CookingNotePart, around: Around) -> list[InputProblem]:
    """Of how one ingredient came back: its food is one that is known."""
    return [] if not part.food or around.food_known(part.food) else [unknown_food(part.food)]
