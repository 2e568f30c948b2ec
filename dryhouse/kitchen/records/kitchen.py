"""The room itself: dryers, the places food is kept, and how the person likes things shown."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from dryhouse.science.quantities import Area, Temperature


@dataclass(frozen=True, slots=True)
class Preference:
    """One setting that belongs to the person and travels with the journal (`units`, `load.corn` …)."""

    key: str
    value: str
    id: int = 0


@dataclass(frozen=True, slots=True)
class Dryer:
    """A dryer: how many trays of what area, what it draws, and how hot it goes."""

    name: str
    trays: int
    tray_area: Area | None = None
    watts: float | None = None
    temperature_low: Temperature | None = None
    temperature_high: Temperature | None = None
    retired: bool = False
    id: int = 0


@dataclass(frozen=True, slots=True)
class Place:
    """Where lots are kept: pantry, cellar, freezer, a pack on the way."""

    name: str
    id: int = 0


@dataclass(frozen=True, slots=True)
class PlaceTemperature:
    """The temperature (and humidity) of a place from a moment on, until the next such row."""

    place: int
    since: datetime
    temperature: Temperature
    humidity_pct: float | None = None
    id: int = 0
