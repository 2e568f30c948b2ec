"""The cautions of a bag, by the very lots it draws on, on its day, in the heat and at the height of the trip."""

from __future__ import annotations

from dryhouse.kitchen.calendar import end_of_day
from dryhouse.kitchen.cautions.cautions import Preparation, meal_cautions
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.meals.drawn import parts_by_lot
from dryhouse.kitchen.meals.lines import PartSheet
from dryhouse.kitchen.records import Trip
from dryhouse.kitchen.trips.sheet import Eaten, altitude_of, warmth_of_trip
from dryhouse.science.provisioning import Cover
from dryhouse.science.values import Caution


def bag_cautions(kitchen: Kitchen, trip: Trip, cover: Cover, eaten: Eaten) -> tuple[Caution, ...]:
    """Every caution of a bag. What is still to be dried has nothing recorded, and travels as the rest does."""

    def given(line: PartSheet) -> list[tuple[int, float]]:
        mine = (eaten.placed.id, line.part.food)
        return [(d.lot, d.grams) for d in cover.draws if (d.need.bag, d.need.food) == mine and d.lot > 0]

    parts = parts_by_lot(eaten.sheet.parts, given)
    warmth = warmth_of_trip(trip)
    return meal_cautions(
        kitchen,
        eaten.sheet.meal,
        parts,
        Preparation(eaten.sheet.minutes.soak.value, warmth, altitude_of(trip), dry=not eaten.sheet.needs_water),
        moment=end_of_day(kitchen, eaten.placed.on),
        travels_at=(warmth,),
    )
