"""The room itself: dryers, the places food is kept, and how the person likes things shown."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import datetime

from dryhouse.kitchen.records.batches import MOST_TRAYS
from dryhouse.kitchen.records.describing import about
from dryhouse.science.quantities import Area, Temperature

COLDEST_C, HOTTEST_C = -60.0, 60.0
"""Of a place where food is kept; our own bounds."""


@dataclass(frozen=True, slots=True)
class Preference:
    """One setting that belongs to the person and travels with the journal (`units`, `load.corn` …)."""

    key: str = field(metadata=about("Name", needed=True))
    value: str
    id: int = 0


@dataclass(frozen=True, slots=True)
class Dryer:
    """A dryer: how many trays of what area, what it draws, and how hot it goes."""

    name: str = field(metadata=about("Name", needed=True, says="A dryer needs a name."))
    trays: int = field(
        metadata=about("Trays", low=1, high=MOST_TRAYS, says=f"A dryer has between 1 and {MOST_TRAYS} trays.")
    )
    tray_area: Area | None = field(default=None, metadata=about("Area of one tray", positive=True, high=1e5))
    watts: float | None = field(default=None, metadata=about("Power, watts", low=0, high=50_000))
    temperature_low: Temperature | None = field(default=None, metadata=about("Lowest setting", low=0.0, high=200.0))
    temperature_high: Temperature | None = field(
        default=None, metadata=about("Highest setting", low=0.0, high=200.0)
    )
    retired: bool = False
    id: int = 0


@dataclass(frozen=True, slots=True)
class Place:
    """Where lots are kept: pantry, cellar, freezer, a pack on the way."""

    name: str = field(
        metadata=about("Name", needed=True, says="A place needs a name, such as pantry, cellar or freezer.")
    )
    id: int = 0


@dataclass(frozen=True, slots=True)
class PlaceTemperature:
    """The temperature (and humidity) of a place from a moment on, until the next such row."""

    place: int
    since: datetime = field(metadata=about("Since"))
    temperature: Temperature = field(
        metadata=about(
            "Temperature",
            low=COLDEST_C,
            high=HOTTEST_C,
            says="{shown} is no temperature of a place for food; write it like 60 F or 16 C.",
        )
    )
    humidity_pct: float | None = field(
        default=None, metadata=about("Humidity, %", low=0, high=100, says="Humidity lies between 0 and 100 %.")
    )
    id: int = 0
