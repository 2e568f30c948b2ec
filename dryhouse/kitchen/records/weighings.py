"""The weighings of a batch, and what happened on the way."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import datetime

from dryhouse.kitchen.records.batches import HOTTEST_DRYER_C, MOST_TRAYS
from dryhouse.kitchen.records.describing import MOST_G, about
from dryhouse.science.quantities import Mass, Temperature

LOAD, SAMPLE, TRAY = "load", "sample", "tray"
SCOPES = (LOAD, SAMPLE, TRAY)


@dataclass(frozen=True, slots=True)
class Weighing:
    """One reading of a scale during a batch: of the whole load, of the one sample tray, or of one tray of
    several."""

    batch: int
    at: datetime = field(metadata=about("When"))
    gross: Mass = field(metadata=about("Scale reading", high=MOST_G))
    tare: Mass | None = field(default=None, metadata=about("Tare", low=0.0, high=MOST_G))
    scope: str = field(default=LOAD, metadata=about("What was weighed", choices=SCOPES))
    dryer_temperature: Temperature | None = field(
        default=None, metadata=about("Dryer temperature", low=-30.0, high=200.0)
    )
    note: str = ""
    vessel: str = field(default="", metadata=about("Tray or jar", hint="tray 3"))
    """What it was weighed on or in; the tare is remembered for each."""
    left_out: bool = field(default=False, metadata=about("Left out of the curve"))
    """Kept as it was read, and in no curve, verdict or forecast until it is taken in."""
    instrument: str = field(default="", metadata=about("Read by"))
    """The instrument that read it by itself; empty where a person did."""
    dryer_humidity_pct: float | None = field(
        default=None, metadata=about("Humidity in the dryer, %", low=0, high=100)
    )
    """Read then, by an instrument that has it. Drying food damps this air, so it says nothing of where the food
    settles: that is reckoned from the kitchen's air."""
    id: int = 0

    @property
    def net_g(self) -> float:
        """What is on the tray, in grams: the reading less the tare."""
        return self.gross.si - (self.tare.si if self.tare else 0.0)


TURNED, HEAT_CHANGED, PAUSED, RESUMED, TAKEN_OFF, NOTED, TRAY_OFF, TRAY_IN, MOVED, REMIND, RAN = (
    "trays turned",
    "temperature changed",
    "paused",
    "resumed",
    "taken off",
    "note",
    "tray taken off early",
    "tray put in later",
    "trays moved",
    "remind",
    "kept running",
)
EVENT_KINDS = (TURNED, HEAT_CHANGED, PAUSED, RESUMED, TAKEN_OFF, NOTED, TRAY_OFF, TRAY_IN, MOVED, REMIND, RAN)
"""The last says that until then the dryer ran, though the load lost almost nothing."""


@dataclass(frozen=True, slots=True)
class BatchEvent:
    """Something that happened to a running batch."""

    batch: int
    at: datetime = field(metadata=about("When"))
    kind: str = field(metadata=about("What happened", choices=EVENT_KINDS))
    temperature: Temperature | None = field(
        default=None, metadata=about("Dryer temperature", low=0.0, high=HOTTEST_DRYER_C)
    )
    note: str = ""
    trays: int | None = field(default=None, metadata=about("How many trays", low=1, high=MOST_TRAYS))
    """How many trays were taken off early, put in later or moved."""
    mass: Mass | None = field(default=None, metadata=about("What was on them", positive=True, high=MOST_G))
    """The net weight of what was on those trays, then."""
    id: int = 0
