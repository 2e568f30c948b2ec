"""What can be wrong with a lot, and with what is noted of it."""

from __future__ import annotations

from datetime import date, timedelta

from dryhouse.kitchen.records.around import Around, there
from dryhouse.kitchen.records.batch_problems import to_come, unknown_food
from dryhouse.kitchen.records.batches import Batch
from dryhouse.kitchen.records.field_problems import short, shown
from dryhouse.kitchen.records.kitchen import PlaceTemperature
from dryhouse.kitchen.records.lots import BOUGHT, Lot, LotCheck, LotDraw, LotMove
from dryhouse.science.errors import InputProblem
from dryhouse.words.dates import day_words

_A_DAY = timedelta(days=1)
_SCALE_G = 0.5


def lot_problems(lot: Lot, around: Around) -> list[InputProblem]:
    """Of a lot: its food is that of its batch, and its days follow each other."""
    found = [] if around.food_known(lot.food) else [unknown_food(lot.food)]
    return [*found, *_of_batch(lot, around), *_of_days(lot, around)]


def _of_batch(lot: Lot, around: Around) -> list[InputProblem]:
    batch = there(around, Batch, lot.batch)
    if batch is None:
        return []
    if lot.origin == BOUGHT:
        return [
            InputProblem(f"Lot {lot.id} is bought and comes from a batch; only one of the two is so.", "origin")
        ]
    if lot.food != batch.food:
        return [
            InputProblem(
                f"Lot {lot.id} holds {short(lot.food)}, but its batch {batch.id} is of {short(batch.food)}; "
                "put the food of one of them right.",
                "food",
            )
        ]
    if batch.started is not None and lot.packed_on < around.day(batch.started) - _A_DAY:
        return [InputProblem("That is before the batch went into the dryer.", "packed_on")]
    return []


def _of_days(lot: Lot, around: Around) -> list[InputProblem]:
    found = []
    if _day_to_come(lot.packed_on, around):
        found.append(
            InputProblem("That day is still to come; a lot is packed on a day that has been.", "packed_on")
        )
    first, last = lot.conditioned_from, lot.conditioned_to
    if last is not None and (first is None or last < first):
        found.append(InputProblem("Conditioning ends after it began; enter both days.", "conditioned_to"))
    for name, day in (("opened_on", lot.opened_on), ("redried_on", lot.redried_on)):
        if day is not None and day < lot.packed_on:
            found.append(_before_packing(lot, name))
    if lot.origin == BOUGHT and lot.bought_keep_by is not None and lot.bought_keep_by < lot.packed_on:
        said = "The date on the package is before the day it was bought."
        found.append(InputProblem(said, "bought_keep_by"))
    return found


def _before_packing(lot: Lot, name: str) -> InputProblem:
    return InputProblem(f"That is before it was packed, on {day_words(lot.packed_on)}.", name)


def _day_to_come(day: date, around: Around) -> bool:
    return around.now is not None and day > around.day(around.now) + _A_DAY


def move_problems(move: LotMove, around: Around) -> list[InputProblem]:
    """Of a move: the lot was packed by then, and it has been made."""
    lot = there(around, Lot, move.lot)
    if lot is not None and around.day(move.at) < lot.packed_on - _A_DAY:
        return [_before_packing(lot, "at")]
    if to_come(move.at, around):
        return [InputProblem("A move is noted when it has been made, not before.", "at")]
    return []


def draw_problems(draw: LotDraw, around: Around) -> list[InputProblem]:
    """Of what was taken: there was a lot to take it from."""
    lot = there(around, Lot, draw.lot)
    if lot is not None and draw.on < lot.packed_on:
        return [_before_packing(lot, "on")]
    return []


def check_problems(check: LotCheck, around: Around) -> list[InputProblem]:
    """Of what was found: on a day that has been, and no more than was packed."""
    lot = there(around, Lot, check.lot)
    if lot is not None and check.on < lot.packed_on:
        return [_before_packing(lot, "on")]
    if _day_to_come(check.on, around):
        return [InputProblem("That day is still to come.", "on")]
    packed = None if lot is None else lot.mass
    if check.mass is None or packed is None or check.mass.si <= packed.si * 1.1 + _SCALE_G:
        return []
    said = f"{shown(check.mass)} is more than was packed ({shown(packed)}). Was the jar weighed along?"
    return [InputProblem(said, "mass")]


def place_temperature_problems(row: PlaceTemperature, around: Around) -> list[InputProblem]:
    """Of how warm a place is: from a moment that has been."""
    said = "A temperature is noted from a moment that has been, not from the future."
    return [InputProblem(said, "since")] if to_come(row.since, around) else []
