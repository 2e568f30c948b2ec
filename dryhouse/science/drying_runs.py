"""What a drying calendar is made of: dryers, what is asked of them, loads, and runs."""

from __future__ import annotations

import math
from dataclasses import dataclass
from datetime import datetime, timedelta

from dryhouse.science.provisioning import Recipe, Span, ToDry

CRUMB = 1e-9


@dataclass(frozen=True, slots=True)
class Machine:
    """A dryer: its number, its trays and what it draws (W)."""

    id: int
    name: str
    trays: int
    watts: float | None = None


@dataclass(frozen=True, slots=True)
class Busy:
    """A dryer that is taken from one moment to another: by what is on it now, or by another plan."""

    machine: int
    begin: datetime
    end: datetime


@dataclass(frozen=True, slots=True)
class Asked:
    """What has to be dried of one food, how, and when at the soonest."""

    batch: ToDry
    recipe: Recipe
    earliest: datetime | None = None
    """Dried before this it would not keep to the end; None where it keeps, or nothing is published."""
    late: int = 0
    """0: any time; 1: as late as can be; 2: after all others."""


@dataclass(frozen=True, slots=True)
class PlannedLoad:
    """One food on so many trays of one run, in prepared and dried grams."""

    food: str
    trays: int
    prepared: float
    dried: float
    hours: Span
    conditioning_days: int


@dataclass(frozen=True, slots=True)
class Run:
    """One run of one dryer: what is in it, from when to when, and when it has to start at the latest."""

    machine: Machine
    loads: tuple[PlannedLoad, ...]
    start: datetime
    end: datetime
    latest: datetime
    temperature_c: float | None = None
    early: bool = False
    """Whether it is dried before it would keep to the end where it is as warm as a room."""

    @property
    def trays(self) -> int:
        """Trays taken."""
        return sum(load.trays for load in self.loads)

    @property
    def ready(self) -> datetime:
        """When all of it is dried and conditioned."""
        return self.end + timedelta(days=max(load.conditioning_days for load in self.loads))

    @property
    def kwh(self) -> float | None:
        """Power used at most: the dryer's draw over the whole run; None where its draw is not known."""
        if self.machine.watts is None:
            return None
        return self.machine.watts * (self.end - self.start).total_seconds() / 3.6e6


def tray_count(prepared: float, tray_grams: float) -> int:
    """Trays a prepared mass fills; at least one."""
    return max(1, math.ceil(prepared / tray_grams - CRUMB))
