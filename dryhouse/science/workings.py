"""The arithmetic behind a figure as values: steps of terms with their units and sources, without a word of prose.

What a step says to a person, and in which units, is for `words`: it has one line for each `StepKind`.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import date
from enum import StrEnum, auto
from typing import Protocol


class StepKind(StrEnum):
    """What a step reckons or states. The names of its terms are the slots of its line in `words`."""

    # moisture and mass
    DRY_MATTER = auto()
    LOADED_TOGETHER = auto()
    TARGET_MOISTURE = auto()
    TARGET_MASS = auto()
    DRY_AS_LOADED = auto()
    MOISTURE_NOW = auto()
    DRY_MATTER_LEARNED = auto()
    # air and sorption
    CHAMBER_AIR = auto()
    GAB_MOISTURE = auto()
    MOISTURE_RANGE = auto()
    GAB_ACTIVITY = auto()
    ACTIVITY_BELOW = auto()
    ACTIVITY_NOT_BELOW = auto()
    NO_MEASUREMENT = auto()
    # keeping
    LIFE_PUBLISHED = auto()
    LIFE_COLDEST = auto()
    LIFE_NEXT_WARMER = auto()
    LIFE_BETWEEN = auto()
    LIFE_HOTTER = auto()
    LIFE_HALVED = auto()
    STRETCH_LEFT = auto()
    STRETCH_USED = auto()
    SUPPOSED = auto()
    PLACE_TEMPERATURE_MISSING = auto()
    NO_LIFE_PUBLISHED = auto()
    # nutrition
    ENERGY_HELD = auto()
    NUTRIENT_HELD = auto()
    NUTRIENT_TOGETHER = auto()
    SHARE_HELD = auto()
    NOT_KNOWN_FOR = auto()
    # the pot
    BOILS_AT = auto()
    BOILS_ELSEWHERE = auto()
    FRESH_WEIGHED = auto()
    WATER_LOST = auto()
    WATER_TAKEN_UP = auto()
    NO_MORE_THAN_LOST = auto()
    NO_OWN_WATER = auto()
    WATER_CORRECTED = auto()
    WATER_TOGETHER = auto()
    LOOSE_LIQUID = auto()
    BOIL_RATE = auto()
    BOIL_RATE_ASSUMED = auto()
    BOIL_OFF = auto()
    WATER_CALCULATED = auto()
    WATER_FOR_POT = auto()
    # yields
    OWN_CUP = auto()
    PUBLISHED_CUP = auto()
    PUBLISHED_CUP_ANY = auto()
    MEAN_CUP = auto()
    CUPS_STRAY = auto()
    RAW_SOLIDS = auto()
    DRIED_SOLIDS = auto()
    DRIED_SOLIDS_NOTE = auto()
    MASS_BALANCE = auto()
    PUBLISHED_YIELD = auto()
    PUBLISHED_YIELD_AS_BOUGHT = auto()
    AT_HOME_FINISH = auto()
    JOINED_PUBLICATIONS = auto()
    PUBLICATIONS_WIDEN = auto()
    YIELD_STRAYS = auto()
    HANDBOOK_YIELD = auto()
    OWN_YIELD = auto()
    OWN_YIELD_RANGE = auto()
    OWN_YIELD_ALONE = auto()
    JOINED_WEIGHTS = auto()
    JOINED_WEIGHTS_OTHERS = auto()
    JOINED_YIELD = auto()
    # the forecast
    KNOWN_SOLIDS = auto()
    KNOWN_SOLIDS_ROUGHLY = auto()
    FORECAST_TARGET = auto()
    SETTLES_AT = auto()
    EXPECTED_RATE = auto()
    HALF_GONE = auto()
    CURVE_SHAPES = auto()
    MODEL_ERROR = auto()
    PUBLISHED_RATE_MOVED = auto()
    HEAT_FOLLOWED = auto()
    STOOD_STILL = auto()
    PUBLISHED_HOURS = auto()
    # a batch
    FAT_POURED_OFF = auto()
    ON_THE_TRAYS = auto()
    DRY_BASIS = auto()
    MOISTURE_RATIO = auto()
    YIELD_BY_WEIGHT = auto()
    YIELD_BY_MEASURE = auto()
    WATER_PER_CUP = auto()
    KEEPS_AIRTIGHT = auto()
    DRIED_ON = auto()
    # keeping at the shelf
    KEEPING_RULE = auto()
    IN_PACKAGE = auto()
    NO_SPREAD = auto()
    # amounts
    DRIED_BY_MEASURE = auto()
    BY_MEASURE = auto()
    BY_MEASURE_TYPED = auto()
    DRIED_FROM = auto()
    DRIED_FROM_RANGE = auto()
    FRESH_FOR = auto()
    FRESH_FOR_RANGE = auto()
    VOLUME_OF = auto()
    NO_HANDBOOK_YIELD = auto()
    NO_FRESH_CUP = auto()
    NO_DRIED_CUP = auto()
    NO_MASS_BALANCE = auto()
    LEFT_OUT = auto()
    PUBLISHED_WATER = auto()
    PUBLISHED_WATER_SOAK = auto()
    AS_PURCHASED = auto()
    OWN_TRAY_LOAD = auto()
    PUBLISHED_TRAY_LOAD = auto()
    TRAYS = auto()
    OWN_HOURS = auto()
    OWN_HOURS_FEW = auto()
    PUBLISHED_HOURS_ONE = auto()
    PUBLISHED_HOURS_RANGE = auto()
    # the run
    OWN_RUNS = auto()
    RUNS_MOVED = auto()
    RUNS_SPREAD = auto()
    LOGGED_HOURS = auto()
    MASS_OVER_FIRST = auto()
    MR_FROM_MASS = auto()
    # a meal
    BATCH_RATIO = auto()
    LABEL_WATER = auto()
    STAPLE_WATER = auto()
    SLOWEST = auto()
    MINUTES_SET = auto()
    SIMMER_LONGER = auto()
    NOTHING_COOKED = auto()
    BOIL_AND_REST = auto()
    STEAM_HEAT = auto()
    MINUTES = auto()
    CAME_BACK_RIGHT = auto()
    CAME_BACK_HARD = auto()
    SOAKED_RIGHT = auto()
    SOAKED_HARD = auto()
    PART_WEIGHT = auto()
    TOGETHER = auto()
    ENERGY_PER_GRAM = auto()
    ONE_SERVING = auto()
    ONE_SERVING_HOLDS = auto()
    # a trip
    FOR_EACH_PERSON = auto()
    FOR_EACH_PERSON_DAY = auto()
    IN_BAGS = auto()
    BEFORE_COOKING = auto()
    EATEN_SHARE = auto()
    SERVINGS_AGAIN = auto()
    EATEN_ON_TRIP = auto()
    FROM_SHELF = auto()
    MARGIN = auto()
    PREPARED_FOR = auto()
    DRIED_TO_MAKE = auto()
    ONE_BAG = auto()
    HEAT_TO_BOIL = auto()
    THROUGH_STOVE = auto()
    OWN_FUEL = auto()


@dataclass(frozen=True, slots=True)
class Term:
    """One value in a step: a number in `unit` (empty where it has none), a name as it was recorded, or a day."""

    name: str
    value: float | str | date
    unit: str = ""
    source: str = ""


@dataclass(frozen=True, slots=True)
class Step:
    """One line of arithmetic: what is reckoned, from which terms, and what comes out.

    `about` names the part of the whole it speaks of (an ingredient, a jar), where there are several.
    """

    kind: StepKind
    terms: tuple[Term, ...] = ()
    result: Term | None = None
    about: str = ""


Workings = tuple[Step, ...]


class Known(Protocol):
    """A published fact or a figure: a number with its unit, and where it has one its source."""

    @property
    def value(self) -> float:
        """The number."""

    @property
    def unit(self) -> str:
        """Its unit."""


Given = Known | tuple[float, str] | tuple[float, str, str] | float | str | date


def step(kind: StepKind, result: Given | None = None, *, about: str = "", **terms: Given) -> Step:
    """A step from facts, figures, `(number, unit)` or `(number, unit, source)`, numbers, names and days."""
    made = tuple(term(name, given) for name, given in terms.items())
    return Step(kind, made, None if result is None else term("result", result), about)


def term(name: str, given: Given) -> Term:
    """A fact, a figure, `(number, unit)`, `(number, unit, source)`, a number, a name or a day, as a term."""
    if isinstance(given, int | float | str | date):
        return Term(name, given)
    if isinstance(given, tuple):
        return Term(name, *given)
    return Term(name, given.value, given.unit, getattr(given, "source", ""))


def about(name: str, workings: Iterable[Step]) -> Workings:
    """The steps as those of one part of a whole."""
    return tuple(replace(s, about=s.about or name) for s in workings)
