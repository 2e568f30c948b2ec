"""The lots a trip may eat from, and until which of its days each is in good standing."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from dryhouse.kitchen.days import today
from dryhouse.kitchen.foods import food, food_name
from dryhouse.kitchen.ingredients import known_ratio
from dryhouse.kitchen.records import Batch, Lot, Trip
from dryhouse.kitchen.records.batches import DRYING, FINISHED
from dryhouse.kitchen.room import Kitchen
from dryhouse.kitchen.shelf import GOOD, standing_on
from dryhouse.kitchen.shelf_book import ShelfBook
from dryhouse.kitchen.trips import days_of
from dryhouse.kitchen.yields import dried_density


@dataclass(frozen=True, slots=True)
class TripLot:
    """A lot (or a batch for this trip that is still drying) as the trip finds it."""

    number: int
    """The lot's number; for a batch not yet on the shelf, its number made negative."""
    food: str
    name: str
    grams: float | None
    """What is left of it, dried; None where neither mass nor bulk density is known."""
    last_day: date | None
    """The last day of the trip it may serve; None where it may serve on none."""
    keep_by: date | None
    why: str
    """Why it does not serve, or not to the end; empty where it serves throughout."""


def lots_for(kitchen: Kitchen, trip: Trip, foods: Sequence[str]) -> tuple[TripLot, ...]:
    """Every lot of these foods with something left, and the batches for this trip that are on their way."""
    if not foods:
        return ()
    book = ShelfBook.read(kitchen)
    found = [_lot(kitchen, trip, lot, book) for lot in book.lots.values() if lot.food in foods]
    return (*(t for t in found if t is not None), *_on_the_way(kitchen, trip, foods, book))


def _lot(kitchen: Kitchen, trip: Trip, lot: Lot, book: ShelfBook) -> TripLot | None:
    left = book.left(lot, max(today(kitchen), lot.packed_on))
    if left.gone:
        return None
    grams = left.mass_g
    if grams is None and left.volume_ml is not None:
        density = dried_density(kitchen, food(kitchen, lot.food))
        grams = None if density is None else left.volume_ml * density.value
    name = f"{food_name(kitchen, lot.food)}, {lot.name or f'lot {lot.id}'}"
    last_day, why, keep_by = None, "", None
    warmth = None if trip.temperature is None else trip.temperature.si
    for day in days_of(trip):
        standing, keep_by = standing_on(kitchen, lot, day, leaves=trip.starts_on, temperature_c=warmth, book=book)
        if standing.name not in GOOD:
            reason = f": {standing.reason}" if standing.reason else ""
            why = f"{standing.name} on {day:%a} {day.day} {day:%b}{reason}"
            break
        last_day = day
    if grams is None:
        why = "what is left of it is not recorded in weight, so it is not counted on"
    return TripLot(lot.id, lot.food, name, grams, last_day, keep_by, why)


def _on_the_way(kitchen: Kitchen, trip: Trip, foods: Sequence[str], book: ShelfBook) -> list[TripLot]:
    """Batches for this trip that are drying, or dried and not yet packed: they count as they will come out."""
    packed = {lot.batch for lot in book.lots.values()}
    coming = []
    for batch in kitchen.journal.where(Batch, trip=trip.id, state=(DRYING, FINISHED)):
        if batch.food not in foods or batch.id in packed:
            continue
        grams = batch.dried_mass.si if batch.dried_mass is not None else _expected(kitchen, batch)
        name = f"{food_name(kitchen, batch.food)}, batch {batch.id} not yet packed"
        why = "" if grams is not None else "its weight is not recorded, so it is not counted on"
        coming.append(TripLot(-batch.id, batch.food, name, grams, trip.ends_on, None, why))
    return coming


def _expected(kitchen: Kitchen, batch: Batch) -> float | None:
    ratio = known_ratio(kitchen, food(kitchen, batch.food))
    if batch.prepared_mass is None or ratio is None:
        return None
    return batch.prepared_mass.si * ratio.value
