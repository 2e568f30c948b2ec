"""A batch, what went into it, its weighings, and what happened on the way."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from dryhouse.science.quantities import Duration, Length, Mass, Temperature, Volume

PLANNED, DRYING, FINISHED = "planned", "drying", "finished"
BATCH_STATES = (PLANNED, DRYING, FINISHED)

FRESH, FROZEN, CANNED, COOKED = "fresh", "frozen", "canned", "cooked"
FOOD_STATES = (FRESH, FROZEN, CANNED, COOKED)

STEAMED, ROASTED, IN_DRYER, BOUGHT_COOKED, NO_PRECOOK, OTHER_PRECOOK = (
    "simmered or steamed",
    "roasted in an oven",
    "in the dryer",
    "bought cooked",
    "none",
    "other",
)
PRECOOK_METHODS = (STEAMED, ROASTED, IN_DRYER, BOUGHT_COOKED, NO_PRECOOK, OTHER_PRECOOK)
"""How food was heated before it was dried; an empty method means that nobody has said."""

THERMOMETER, NOT_MEASURED = "thermometer", "not measured"
MEASURES = (THERMOMETER, NOT_MEASURED)

IDENTIFIED_BY_SHOP = "bought"
"""What `Batch.identified` says of mushrooms that were bought."""


@dataclass(frozen=True, slots=True)
class Batch:
    """One load of one food (or one mix) through a dryer. Only the food is always there."""

    food: str
    """Slug of the food; for a mix the slug of an own food of category `mixed`."""
    state: str = FINISHED
    title: str = ""
    form: str = ""
    """The cut: slices, dice, kernels, strips, puree …"""
    thickness: Length | None = None
    made_from: str = FRESH
    purchased_mass: Mass | None = None
    prepared_mass: Mass | None = None
    """What was loaded, after peeling, coring, blanching or cooking."""
    prepared_volume: Volume | None = None
    pretreatment: str = ""
    precook_method: str = ""
    """One of `PRECOOK_METHODS`, or empty where nothing is recorded."""
    precook_temperature: Temperature | None = None
    precook_measured: str = ""
    """How the temperature was known: `thermometer`, `not measured`, or empty where nothing is recorded."""
    precook_held: Duration | None = None
    """How long the food was held at that temperature."""
    finish_temperature: Temperature | None = None
    """Of an oven in which the dried food was heated afterwards."""
    finish_held: Duration | None = None
    identified: str = ""
    """Who knows these mushrooms: `bought`, or by whom they were identified; empty where nobody has said."""
    cooked_mass_in: Mass | None = None
    cooked_mass_out: Mass | None = None
    drained_fat: Mass | None = None
    drained_liquid: Mass | None = None
    dryer: int | None = None
    trays: int | None = None
    set_temperature: Temperature | None = None
    started: datetime | None = None
    ended: datetime | None = None
    kitchen_temperature: Temperature | None = None
    kitchen_humidity_pct: float | None = None
    start_moisture_pct: float | None = None
    """Starting moisture, % wet basis, where she knows better than the handbook."""
    target_moisture_pct: float | None = None
    dried_mass: Mass | None = None
    dried_volume: Volume | None = None
    energy_kwh: float | None = None
    notes: str = ""
    rating: int | None = None
    trip: int | None = None
    """The trip a planned batch was planned for."""
    id: int = 0


@dataclass(frozen=True, slots=True)
class BatchPart:
    """One ingredient of a mix, with the mass that went in. Solids add up."""

    batch: int
    position: int
    food: str
    mass: Mass
    moisture_pct: float | None = None
    id: int = 0


LOAD, SAMPLE = "load", "sample"


@dataclass(frozen=True, slots=True)
class Weighing:
    """One reading of a scale during a batch: of the whole load, or of the one sample tray."""

    batch: int
    at: datetime
    gross: Mass
    tare: Mass | None = None
    scope: str = LOAD
    dryer_temperature: Temperature | None = None
    note: str = ""
    id: int = 0

    @property
    def net_g(self) -> float:
        """What is on the tray, in grams: the reading less the tare."""
        return self.gross.si - (self.tare.si if self.tare else 0.0)


TURNED, HEAT_CHANGED, PAUSED, RESUMED, TAKEN_OFF = (
    "trays turned",
    "temperature changed",
    "paused",
    "resumed",
    "taken off",
)
EVENT_KINDS = (TURNED, HEAT_CHANGED, PAUSED, RESUMED, TAKEN_OFF)


@dataclass(frozen=True, slots=True)
class BatchEvent:
    """Something that happened to a running batch."""

    batch: int
    at: datetime
    kind: str
    temperature: Temperature | None = None
    note: str = ""
    id: int = 0
