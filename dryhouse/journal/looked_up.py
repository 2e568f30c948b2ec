"""Which columns are looked up quickly, and what their indexes are called."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from dryhouse.journal.mapping import table_name
from dryhouse.kitchen.records import (
    AfterTrip,
    Batch,
    BatchEvent,
    BatchPart,
    CookingNote,
    CookingNotePart,
    Lot,
    LotCheck,
    LotDraw,
    LotMove,
    MealPart,
    PlaceTemperature,
    TripMeal,
    TripPerson,
    Weighing,
)

LOOKED_UP: dict[type[Any], tuple[tuple[str, ...], ...]] = {
    PlaceTemperature: (("place", "since"),),
    Batch: (
        ("started",),
        ("food", "started"),
        ("dryer", "started"),
        ("state", "started"),
        ("prepared_mass_g",),
        ("dried_mass_g",),
        ("rating",),
        ("trip",),
        ("start_moisture_tested", "food"),
        ("settled", "food"),
    ),
    BatchPart: (("batch",),),
    Weighing: (("batch",),),
    BatchEvent: (("batch",),),
    Lot: (("batch",), ("food",)),
    LotMove: (("lot",), ("place",)),
    LotDraw: (("lot",), ("meal",)),
    LotCheck: (("lot",),),
    MealPart: (("meal",), ("lot",)),
    TripPerson: (("trip",),),
    TripMeal: (("trip",), ("meal",)),
    AfterTrip: (("trip",), ("meal",)),
    CookingNote: (("meal",),),
    CookingNotePart: (("note",),),
}
"""For each kind the columns, or runs of columns, by which its records are asked for or sorted."""

MORE = ("ix_batch_filter", "ix_batch_yield")
"""Two more indexes of batches, of several columns and of a quotient."""


def index_names() -> Iterator[str]:
    """What the indexes are called."""
    for kind, runs in LOOKED_UP.items():
        for columns in runs:
            yield f"ix_{table_name(kind)}_{'_'.join(columns)}"
    yield from MORE
