"""Which records belong to, or name, which others: what the journal keeps whole and an import renumbers."""

from __future__ import annotations

from collections.abc import Mapping
from graphlib import TopologicalSorter
from typing import Any

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

LINKS: Mapping[type[Any], Mapping[str, type[Any]]] = {
    PlaceTemperature: {"place": Place},
    Batch: {"dryer": Dryer, "trip": Trip},
    BatchPart: {"batch": Batch},
    Weighing: {"batch": Batch},
    BatchEvent: {"batch": Batch},
    Lot: {"batch": Batch},
    LotMove: {"lot": Lot, "place": Place},
    LotDraw: {"lot": Lot, "meal": Meal},
    LotCheck: {"lot": Lot},
    MealPart: {"meal": Meal, "lot": Lot},
    TripMeal: {"trip": Trip, "meal": Meal},
    TripPerson: {"trip": Trip},
    AfterTrip: {"trip": Trip, "meal": Meal},
    CookingNote: {"meal": Meal},
    CookingNotePart: {"note": CookingNote},
}
"""For each kind, its fields that hold the number of another record, and of which kind."""

ONCE: Mapping[type[Any], tuple[str, ...]] = {
    Preference: ("key",),
    OwnFood: ("slug",),
    OwnFigure: ("food", "name"),
}
"""Fields whose values no two records of a kind may share."""

OWNERS_FIRST: tuple[type[Any], ...] = tuple(
    TopologicalSorter({kind: LINKS[kind].values() for kind in LINKS} | dict.fromkeys(ONCE, ())).static_order()
)
"""Every kind of record after the kinds it refers to."""

KNOWN_BY: Mapping[type[Any], tuple[str, ...]] = {
    **ONCE,
    Dryer: ("name",),
    Place: ("name",),
    PlaceTemperature: ("place", "since"),
    Batch: ("food", "started"),
    BatchPart: ("batch", "position"),
    Weighing: ("batch", "at", "scope"),
    BatchEvent: ("batch", "at", "kind"),
    Lot: ("batch", "food", "packed_on", "name"),
    LotMove: ("lot", "at"),
    LotDraw: ("lot", "on", "purpose"),
    LotCheck: ("lot", "on"),
    Meal: ("name",),
    MealPart: ("meal", "position"),
    Trip: ("name", "starts_on"),
    TripMeal: ("trip", "on", "slot"),
    TripPerson: ("trip", "name"),
    AfterTrip: ("trip", "meal"),
    CookingNote: ("meal", "on"),
    CookingNotePart: ("note", "name"),
}
"""Fields by which a person tells which record of a kind it is, whatever else has been changed in it."""

OWNER: Mapping[type[Any], str] = {
    PlaceTemperature: "place",
    BatchPart: "batch",
    Weighing: "batch",
    BatchEvent: "batch",
    LotMove: "lot",
    LotDraw: "lot",
    LotCheck: "lot",
    MealPart: "meal",
    TripMeal: "trip",
    TripPerson: "trip",
    AfterTrip: "trip",
    CookingNote: "meal",
    CookingNotePart: "note",
}
"""The field that names the record a record is a part of; kinds that stand by themselves are not here."""
