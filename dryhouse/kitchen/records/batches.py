"""A batch, and what went into it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import datetime
from typing import Any

from dryhouse.kitchen.records.describing import MOST_G, MOST_ML, about
from dryhouse.science.quantities import Duration, Length, Mass, Temperature, Volume
from dryhouse.science.statuses import Feel

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

FEELS = tuple(feel.value for feel in Feel)
"""How a cooled piece may feel when the batch comes off, driest first."""

THERMOMETER, NOT_MEASURED = "thermometer", "not measured"
MEASURES = (THERMOMETER, NOT_MEASURED)

NO_DRYING_HEAT = (
    "{shown} is no temperature for drying food; did you mean the other scale? Write it like 135 F or 57 C."
)
HOTTEST_DRYER_C = 110.0
"""No dryer and no oven dries food hotter (230 °F): what is above it was meant in °F."""
BOILING_C = 100.0
"""Wet food over a stove or in an oven gets no hotter in its middle than its water boils: 212 °F."""
MOST_TRAYS = 100
"""More is a slip of the finger."""


_BY_WEIGHINGS: Mapping[str, Any] = {"computed": True, "positive": True, "below": 1}
"""Of a share of the load that the program reads from its weighings."""


@dataclass(frozen=True, slots=True)
class Batch:
    """One load of one food (or one mix) through a dryer. Only the food is always there."""

    food: str = field(metadata=about("Food"))
    """Slug of the food; for a mix the slug of an own food of category `mixed`."""
    state: str = field(default=FINISHED, metadata=about("State", choices=BATCH_STATES))
    title: str = field(default="", metadata=about("Name of this batch", hint="such as soup mix"))
    form: str = field(
        default="",
        metadata=about("Cut", hint="slices, dice, kernels…", help="the cut: slices, dice, kernels …", kept=True),
    )
    thickness: Length | None = field(
        default=None, metadata=about("Thickness", hint="1/4 in, or 6 mm", positive=True, high=300.0, kept=True)
    )
    made_from: str = field(
        default=FRESH,
        metadata=about("Started from", choices=FOOD_STATES, help="what it was made from", answers=True),
    )
    purchased_mass: Mass | None = field(
        default=None,
        metadata=about(
            "Bought weight",
            entry="purchased",
            hint="before peeling",
            positive=True,
            high=MOST_G,
            help="weight bought, before preparing",
        ),
    )
    prepared_mass: Mass | None = field(
        default=None,
        metadata=about(
            "Weight loaded",
            entry="fresh",
            hint="such as 2 lb 3 oz",
            positive=True,
            high=MOST_G,
            help="weight loaded, after preparing",
        ),
    )
    """What was loaded, after peeling, coring, blanching or cooking."""
    prepared_volume: Volume | None = field(
        default=None,
        metadata=about(
            "Volume loaded", entry="fresh_volume", hint="6 cups", positive=True, high=MOST_ML, help="volume loaded"
        ),
    )
    pretreatment: str = field(default="", metadata=about("Pretreatment", hint="blanched 3 min…", kept=True))
    precook_method: str = field(
        default="",
        metadata=about(
            "How it was cooked", choices=PRECOOK_METHODS, answers=True, help="how it was heated before drying"
        ),
    )
    """One of `PRECOOK_METHODS`, or empty where nothing is recorded."""
    precook_temperature: Temperature | None = field(
        default=None,
        metadata=about(
            "Precooked to (inside)",
            entry="precook",
            hint="165 F inside",
            low=0.0,
            answers=True,
            help="temperature reached in the middle before drying",
        ),
    )
    precook_measured: str = field(
        default="",
        metadata=about("Measured with", choices=MEASURES, answers=True, help="how that temperature was known"),
    )
    """How the temperature was known: `thermometer`, `not measured`, or empty where nothing is recorded."""
    precook_held: Duration | None = field(
        default=None,
        metadata=about(
            "Held at that heat",
            hint="30 min",
            positive=True,
            high=48 * 3600.0,
            answers=True,
            help="how long it was held at that temperature",
        ),
    )
    """How long the food was held at that temperature."""
    finish_temperature: Temperature | None = field(
        default=None,
        metadata=about(
            "Oven after drying",
            entry="finish",
            hint="275 F",
            low=40.0,
            high=260.0,
            answers=True,
            says="An oven after drying is between 104 and 500 °F (40 and 260 °C), such as 275 F.",
            help="oven temperature it was heated at after drying",
        ),
    )
    """Of an oven in which the dried food was heated afterwards."""
    finish_held: Duration | None = field(
        default=None,
        metadata=about(
            "In the oven for",
            hint="10 min",
            positive=True,
            high=24 * 3600.0,
            answers=True,
            help="how long in that oven",
        ),
    )
    identified: str = field(
        default="",
        metadata=about(
            "Mushrooms: bought, or identified by",
            hint="bought, or by whom",
            answers=True,
            help="mushrooms: “bought”, or by whom they were identified",
        ),
    )
    """Who knows these mushrooms: `bought`, or by whom they were identified; empty where nobody has said."""
    cooked_mass_in: Mass | None = field(
        default=None, metadata=about("Weight before cooking", entry="cooked_in", positive=True, high=MOST_G)
    )
    cooked_mass_out: Mass | None = field(
        default=None, metadata=about("Weight after cooking", entry="cooked_out", positive=True, high=MOST_G)
    )
    drained_fat: Mass | None = field(default=None, metadata=about("Fat poured off", low=0.0, high=MOST_G))
    drained_liquid: Mass | None = field(default=None, metadata=about("Liquid poured off", low=0.0, high=MOST_G))
    dryer: int | None = field(default=None, metadata=about("Dryer", kept=True))
    trays: int | None = field(
        default=None,
        metadata=about(
            "Trays",
            hint="such as 4",
            low=1,
            high=MOST_TRAYS,
            kept=True,
            help="how many trays it filled",
            says=f"A batch fills at least one tray and at most {MOST_TRAYS} trays, not {{shown}}.",
        ),
    )
    set_temperature: Temperature | None = field(
        default=None,
        metadata=about(
            "Dryer temperature",
            entry="temp",
            hint="135 F, or 57 C",
            low=20.0,
            high=HOTTEST_DRYER_C,
            kept=True,
            says=NO_DRYING_HEAT,
            help="dryer temperature, such as “135 F”",
        ),
    )
    started: datetime | None = field(
        default=None,
        metadata=about(
            "Started", entry="start", hint="yesterday 18:00", help="when it went on, such as “2026-11-20 18:00”"
        ),
    )
    ended: datetime | None = field(default=None, metadata=about("Ended", entry="end", help="when it came off"))
    kitchen_temperature: Temperature | None = field(
        default=None, metadata=about("Kitchen temperature", entry="kitchen_temp", hint="70 F", low=-30.0, high=60.0)
    )
    kitchen_humidity_pct: float | None = field(
        default=None, metadata=about("Kitchen humidity, %", entry="humidity", low=0, below=100)
    )
    start_moisture_pct: float | None = field(
        default=None, metadata=about("Starting moisture, %", entry="start_moisture", low=0, below=100)
    )
    """Starting moisture, % wet basis, where she knows better than the handbook."""
    start_moisture_tested: bool | None = field(
        default=None,
        metadata=about(
            "That moisture was tested",
            help="the moisture when loaded was measured by drying a sample, not looked up",
            answers=True,
        ),
    )
    """Whether that moisture was measured by drying a sample to constant weight; None where nobody has said."""
    test_sample: Mass | None = field(
        default=None,
        metadata=about(
            "Dry-matter test, sample",
            hint="20 g, fresh or dried",
            positive=True,
            high=MOST_G,
            answers=True,
            help="dry-matter test: what a sample weighed, fresh or dried, such as “20 g”",
        ),
    )
    """A sample that was dried to constant weight, and what was left of it: it shows the dry matter of the load."""
    test_dry: Mass | None = field(
        default=None,
        metadata=about(
            "Dry-matter test, dried out",
            hint="dried until it loses no more",
            positive=True,
            high=MOST_G,
            answers=True,
            help="dry-matter test: what the sample weighed once it lost no more, such as “1.9 g”",
        ),
    )
    target_moisture_pct: float | None = field(
        default=None,
        metadata=about(
            "Target moisture, %", entry="moisture", low=0, below=100, kept=True, help="target moisture, %"
        ),
    )
    dried_mass: Mass | None = field(
        default=None,
        metadata=about(
            "Dried weight", entry="dried", hint="such as 4.2 oz", positive=True, high=MOST_G, help="weight when dry"
        ),
    )
    dried_volume: Volume | None = field(
        default=None,
        metadata=about("Volume dried", hint="1 1/2 cups", positive=True, high=MOST_ML, help="volume when dry"),
    )
    felt: str = field(
        default="",
        metadata=about("How it feels", choices=FEELS, answers=True, help="how a cooled piece feels at the end"),
    )
    """How a cooled piece felt when the dried mass was weighed; empty where nobody has said."""
    settled: bool | None = field(default=None, metadata=about("Weight stayed the same, and brittle", answers=True))
    """Whether she confirmed by hand that it was dry when its weight stayed the same; None where nobody has said."""
    curve_low: float | None = field(
        default=None, metadata=about("Dry matter by its weighings, low", **_BY_WEIGHINGS)
    )
    curve_dry: float | None = field(
        default=None, metadata=about("Dry matter by its weighings, middle", **_BY_WEIGHINGS)
    )
    """What all weighings together taught of the dry matter of a load, as a share of it: the middle, between the
    ends of the middle 80 %. Worked out once it is off the dryer, never typed."""
    curve_high: float | None = field(
        default=None, metadata=about("Dry matter by its weighings, high", **_BY_WEIGHINGS)
    )
    curve_mark: int | None = field(default=None, metadata=about("Mark of the weighings it rests on", computed=True))
    """Tells whether it still rests on the records it was read from (`records/learned.py`)."""
    servings: float | None = field(
        default=None,
        metadata=about(
            "Servings it made",
            hint="6, of a whole pot",
            positive=True,
            high=500,
            help="how many servings a whole pot made",
            says="A pot makes some servings: write how many, such as 6, at most 500.",
        ),
    )
    """Of a pot that was cooked to be eaten and dried whole: how many servings went on the trays."""
    energy_kwh: float | None = field(default=None, metadata=about("Power used, kWh", low=0, high=1000))
    notes: str = field(default="", metadata=about("Notes"))
    rating: int | None = field(
        default=None, metadata=about("Rating, 1 to 5", low=1, high=5, says="A rating is 1 to 5.")
    )
    trip: int | None = None
    """The trip a planned batch was planned for."""
    id: int = 0


@dataclass(frozen=True, slots=True)
class BatchPart:
    """One ingredient of a mix, with the mass that went in. Solids add up."""

    batch: int
    position: int = field(metadata=about("Position", low=0))
    food: str
    mass: Mass = field(
        metadata=about(
            "Weight",
            positive=True,
            high=MOST_G,
            says="{shown} is not an ingredient; write what went in, such as 8 oz.",
        )
    )
    moisture_pct: float | None = field(default=None, metadata=about("Moisture, %", low=0, below=100))
    id: int = 0
