"""What the person recorded, as frozen records. One module a subject; this door names them all.

Every record has an `id` (0 until the journal numbers it), is hashable, and crosses threads safely.
Times are aware and in UTC. What was typed travels with the number it stands for.
"""

from dryhouse.kitchen.records.batches import Batch, BatchPart
from dryhouse.kitchen.records.foods import OwnFigure, OwnFood
from dryhouse.kitchen.records.kitchen import Dryer, Place, PlaceTemperature, Preference
from dryhouse.kitchen.records.lots import Lot, LotCheck, LotDraw, LotMove
from dryhouse.kitchen.records.meals import (
    AfterTrip,
    CookingNote,
    CookingNotePart,
    Meal,
    MealPart,
    Trip,
    TripMeal,
    TripPerson,
)
from dryhouse.kitchen.records.weighings import BatchEvent, Weighing

RECORD_KINDS = (
    Preference,
    OwnFood,
    OwnFigure,
    Dryer,
    Place,
    PlaceTemperature,
    Batch,
    BatchPart,
    Weighing,
    BatchEvent,
    Lot,
    LotMove,
    LotDraw,
    LotCheck,
    Meal,
    MealPart,
    Trip,
    TripMeal,
    TripPerson,
    AfterTrip,
    CookingNote,
    CookingNotePart,
)
"""Every kind of record, owners before what they own: the order in which an import writes them."""

__all__ = [
    "RECORD_KINDS",
    "AfterTrip",
    "Batch",
    "BatchEvent",
    "BatchPart",
    "CookingNote",
    "CookingNotePart",
    "Dryer",
    "Lot",
    "LotCheck",
    "LotDraw",
    "LotMove",
    "Meal",
    "MealPart",
    "OwnFigure",
    "OwnFood",
    "Place",
    "PlaceTemperature",
    "Preference",
    "Trip",
    "TripMeal",
    "TripPerson",
    "Weighing",
]
