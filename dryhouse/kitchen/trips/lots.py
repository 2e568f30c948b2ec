"""The lots a trip may eat from, and until which of its days each is in good standing."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from dryhouse.handbook.keeping_table import keeping_lines, rule_of
from dryhouse.handbook.staples import staple
from dryhouse.kitchen.batches.dryness import verdicts_of
from dryhouse.kitchen.calendar import day_of, start_of, today
from dryhouse.kitchen.cautions.cautions import batch_facts
from dryhouse.kitchen.foods.catalog import food, food_name
from dryhouse.kitchen.foods.shelved import name_of_lot
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.meals.ingredients import staple_density
from dryhouse.kitchen.meals.shelf_keys import is_staple, lot_key
from dryhouse.kitchen.records import Batch, Lot, Trip
from dryhouse.kitchen.records.batches import DRYING, FINISHED
from dryhouse.kitchen.shelf.book import ShelfBook
from dryhouse.kitchen.shelf.conditioning import days_needed
from dryhouse.kitchen.shelf.history import with_trip
from dryhouse.kitchen.shelf.shelf import GOOD, standing_on
from dryhouse.kitchen.shelf.status import forbidding, status_reasons
from dryhouse.kitchen.trips.trips import days_of
from dryhouse.kitchen.yields.jar_water import known_ratio
from dryhouse.kitchen.yields.yields import dried_density
from dryhouse.science.keeping import Stretch, used_up
from dryhouse.science.safety import LotFacts
from dryhouse.science.statuses import Status
from dryhouse.science.units import to_celsius
from dryhouse.science.values import Fact, Figure
from dryhouse.words.dates import weekday_words
from dryhouse.words.messages import message_words


@dataclass(frozen=True, slots=True)
class TripLot:
    """A lot (or a batch for this trip that is still drying) as the trip finds it."""

    number: int
    """The lot's number; for a batch not yet on the shelf, its number made negative."""
    food: str
    """Its food; of a staple as `lot_key` says it."""
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
    found = [_lot(kitchen, trip, lot, book) for lot in book.lots.values() if lot_key(lot) in foods]
    return (*(t for t in found if t is not None), *_on_the_way(kitchen, trip, foods, book))


def _lot(kitchen: Kitchen, trip: Trip, lot: Lot, book: ShelfBook) -> TripLot | None:
    left = book.left(lot, max(today(kitchen), lot.packed_on))
    if left.gone:
        return None
    grams = left.mass_g
    if grams is None and left.volume_ml is not None:
        density = _density(kitchen, lot)
        grams = None if density is None else left.volume_ml * density.value
    name = f"{name_of_lot(kitchen, lot)}, {lot.name or f'lot {lot.id}'}"
    last_day, why, keep_by = None, "", None
    warmth = None if trip.temperature is None else trip.temperature.si
    for day in days_of(trip):
        standing, keep_by = standing_on(kitchen, lot, day, leaves=trip.starts_on, temperature_c=warmth, book=book)
        if standing.name not in GOOD:
            reason = f": {standing.reason}" if standing.reason else ""
            why = f"{standing.name} on {weekday_words(day)}{reason}"
            break
        last_day = day
    if grams is None:
        why = "what is left of it is not recorded in weight, so it is not counted on"
    return TripLot(lot.id, lot_key(lot), name, grams, last_day, keep_by, why)


def _density(kitchen: Kitchen, lot: Lot) -> Figure | Fact | None:
    if is_staple(lot_key(lot)):
        return staple_density(kitchen, staple(lot.food))
    return dried_density(kitchen, food(kitchen, lot.food))


def _on_the_way(kitchen: Kitchen, trip: Trip, foods: Sequence[str], book: ShelfBook) -> list[TripLot]:
    """Batches for this trip that are drying, or dried and not yet packed: they count as they will come out."""
    packed = {lot.batch for lot in book.lots.values()}
    coming = []
    for batch in kitchen.journal.where(Batch, trip=trip.id, state=(DRYING, FINISHED)):
        if batch.food not in foods or batch.id in packed:
            continue
        grams = batch.dried_mass.si if batch.dried_mass is not None else _expected(kitchen, batch)
        name = f"{food_name(kitchen, batch.food)}, batch {batch.id} not yet packed"
        last_day, keep_by, why = _serves(kitchen, trip, batch)
        if grams is None:
            why = "its weight is not recorded, so it is not counted on"
        coming.append(TripLot(-batch.id, batch.food, name, grams, last_day, keep_by, why))
    return coming


def _serves(kitchen: Kitchen, trip: Trip, batch: Batch) -> tuple[date | None, date | None, str]:
    """The last day of the trip an unpacked batch may serve, its keep-by, and why not (or not to the end).

    It is judged as the jar it will be: sealed, conditioned, and dry where it is still on the dryer.
    """
    facts = batch_facts(kitchen, batch)
    warmth = None if trip.temperature is None else trip.temperature.si
    _, dryness = verdicts_of(kitchen, batch)
    jar = LotFacts(
        facts.food,
        facts,
        sealed=True,
        dry_enough=True if batch.state == DRYING else dryness.dry,
        dry_doubted=dryness.in_doubt,
        conditioned_days=days_needed(),
        temperature_c=warmth,
    )
    found = status_reasons(jar)
    if forbidden := forbidding(found):
        return None, None, f"{Status.DO_NOT_EAT}: {'; '.join(forbidden)}"
    reasons = [reason for _, reason in found]
    room = to_celsius(rule_of("room").value)
    waits = Stretch("kitchen", batch.ended or kitchen.now(), None, room)
    history = with_trip([waits], start_of(kitchen, trip.starts_on), warmth)
    until, missing = used_up(history, keeping_lines(batch.food, facts.food).lines)
    if missing is not None:
        reasons.append(message_words(missing))
    keep_by = None if until is None else day_of(kitchen, until)
    if reasons or keep_by is None:
        return None, keep_by, f"{Status.CHECK_FIRST}: {'; '.join(reasons)}"
    if keep_by >= trip.ends_on:
        return trip.ends_on, keep_by, ""
    why = f"past keep-by after {weekday_words(keep_by)}"
    return (keep_by if keep_by >= trip.starts_on else None), keep_by, why


def _expected(kitchen: Kitchen, batch: Batch) -> float | None:
    ratio = known_ratio(kitchen, food(kitchen, batch.food))
    if batch.prepared_mass is None or ratio is None:
        return None
    return batch.prepared_mass.si * ratio.value
