"""The one place where a record is judged: for a form, the command line, an import, a meal file, undo and `check`.

`problems` says everything that is wrong with one record, a sentence each with the field it belongs to. Nothing
is changed, and nothing is asked but what stands around the record.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping
from typing import Any

from dryhouse.kitchen.records.around import Around
from dryhouse.kitchen.records.batch_problems import (
    batch_problems,
    event_problems,
    part_problems,
    weighing_problems,
)
from dryhouse.kitchen.records.batches import Batch, BatchPart
from dryhouse.kitchen.records.field_problems import field_problems
from dryhouse.kitchen.records.food_problems import dryer_problems, own_figure_problems, own_food_problems
from dryhouse.kitchen.records.foods import OwnFigure, OwnFood
from dryhouse.kitchen.records.kitchen import Dryer, PlaceTemperature
from dryhouse.kitchen.records.links import LINKS
from dryhouse.kitchen.records.lot_problems import (
    check_problems,
    draw_problems,
    lot_problems,
    move_problems,
    place_temperature_problems,
)
from dryhouse.kitchen.records.lots import Lot, LotCheck, LotDraw, LotMove
from dryhouse.kitchen.records.meal_problems import (
    meal_part_problems,
    note_part_problems,
    trip_meal_problems,
    trip_problems,
)
from dryhouse.kitchen.records.meals import CookingNotePart, MealPart, Trip, TripMeal
from dryhouse.kitchen.records.weighings import BatchEvent, Weighing
from dryhouse.science.errors import InputProblem

_OF: Mapping[type[Any], Callable[[Any, Around], list[InputProblem]]] = {
    OwnFood: own_food_problems,
    OwnFigure: own_figure_problems,
    Dryer: dryer_problems,
    PlaceTemperature: place_temperature_problems,
    Batch: batch_problems,
    BatchPart: part_problems,
    Weighing: weighing_problems,
    BatchEvent: event_problems,
    Lot: lot_problems,
    LotMove: move_problems,
    LotDraw: draw_problems,
    LotCheck: check_problems,
    MealPart: meal_part_problems,
    Trip: trip_problems,
    TripMeal: trip_meal_problems,
    CookingNotePart: note_part_problems,
}
"""What a kind can have wrong beyond its single fields; the kinds not named here have nothing of the sort."""

CALLED: Mapping[str, str] = {
    "OwnFood": "own food",
    "OwnFigure": "own figure",
    "PlaceTemperature": "temperature",
    "BatchPart": "ingredient",
    "BatchEvent": "event",
    "LotMove": "move",
    "LotDraw": "draw",
    "LotCheck": "check",
    "MealPart": "ingredient",
    "TripMeal": "meal on a trip",
    "TripPerson": "person on a trip",
    "AfterTrip": "note after a trip",
    "CookingNote": "cooking note",
    "CookingNotePart": "remark on an ingredient",
}
"""What a person calls a kind of record, where its own name in small letters does not say it."""


def called(kind: type[Any]) -> str:
    """What a person calls a kind of record."""
    return CALLED.get(kind.__name__, kind.__name__.lower())


def problems(record: Any, around: Around) -> list[InputProblem]:
    """Everything that is wrong with a record, the fields first; nothing where it is sound."""
    found = field_problems(record)
    return [*found, *problems_around(record, around, {problem.field for problem in found})]


def problems_around(record: Any, around: Around, wrong: Collection[str] = ()) -> list[InputProblem]:
    """What is wrong with it beyond its single fields, of which some may be known to be `wrong`."""
    found = []
    for name, target in LINKS.get(type(record), {}).items():
        number = getattr(record, name)
        if number is not None and around.get(target, number) is None:
            found.append(InputProblem(f"That {called(target)} is no longer here.", name))
    of_kind = _OF.get(type(record))
    told = () if of_kind is None else of_kind(record, around)
    if not told:
        return found
    wrong = {*wrong, *(problem.field for problem in found)}
    return [*found, *(problem for problem in told if problem.field not in wrong)]


def refuse(record: Any, around: Around) -> None:
    """Raise the first thing that is wrong with a record."""
    for problem in problems(record, around):
        raise problem
