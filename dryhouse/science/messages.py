"""What the inner layers have to tell a person, as values: which of the things it is, and what goes with it.

What a message says, and in which units, is for `words`: it has one line for each `MessageKind`.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum, auto

from dryhouse.science.workings import Given, Term, term


class MessageKind(StrEnum):
    """What is told. The names of its terms are the slots of its line in `words`."""

    # what was typed
    EMPTY = auto()
    OTHER_DIGITS = auto()
    FRACTION_RUNS_ON = auto()
    TWO_WAYS = auto()
    DECIMAL_COMMA = auto()
    DIVIDES_BY_ZERO = auto()
    BELOW_ZERO = auto()
    TOO_LARGE = auto()
    ZERO = auto()
    NO_NUMBER = auto()
    NO_PERCENTAGE = auto()
    UNITS_OUT_OF_ORDER = auto()
    NO_QUANTITY = auto()
    CLOCK_MINUTES = auto()
    NO_UNIT = auto()
    UNKNOWN_UNIT = auto()
    WEIGHT_FOR_VOLUME = auto()
    OTHER_QUANTITY = auto()
    NO_SCALE = auto()
    UNKNOWN_SCALE = auto()
    TOO_COLD = auto()
    TOO_HOT = auto()
    # moisture
    WET_BASIS_RANGE = auto()
    DRY_BASIS_RANGE = auto()
    TARGET_RANGE = auto()
    NO_MASS = auto()
    EMPTY_LOAD = auto()
    # air, sorption and boiling
    HUMIDITY_RANGE = auto()
    KITCHEN_RANGE = auto()
    DRYER_RANGE = auto()
    GAB_CONSTANTS = auto()
    GAB_SLOPE = auto()
    ABOVE_THE_TABLES = auto()
    # the air in the dryer
    NEVER_DRY_HERE = auto()
    SLOW_AT_THE_END = auto()
    DAMP_DAY = auto()
    # curves through weighings
    BEST_OF_MODELS = auto()
    BEST_OF_FEW_MODELS = auto()
    ONLY_LEWIS = auto()
    NOTHING_TO_FIT = auto()
    TOO_FEW_TO_FIT = auto()
    LOAD_GREW = auto()
    FLAT_SO_FAR = auto()
    WEIGHT_RISES = auto()
    BELOW_DRY_MATTER = auto()
    NOT_PINNED_DOWN = auto()
    NOT_SETTLED = auto()
    LEVELS_BELOW_ZERO = auto()
    FALLS_BELOW_ZERO = auto()
    RISES_AGAIN = auto()
    TOO_FEW_FOR_PERIODS = auto()
    TOO_EARLY_FOR_PERIODS = auto()
    NO_CONSTANT_RATE = auto()
    CONSTANT_SO_FAR = auto()
    TWO_PERIODS = auto()
    # yields side by side
    NO_DIFFERENCE = auto()
    MORE_THAN_REST = auto()
    LESS_THAN_REST = auto()
    # keeping
    PLACE_TEMPERATURE_MISSING = auto()
    NO_PLACE = auto()
    NO_KEEPING_TIME = auto()
    NO_KEEPING_TIME_AT = auto()
    # what a figure rests on
    ROOM_LIMIT_IN_HEAT = auto()
    HANDBOOK_SPREAD = auto()
    OTHER_FORM = auto()
    USUAL_SETTLING = auto()
    SPEED_UNKNOWN = auto()
    STYLE_LIQUID = auto()
    OWN_RATIOS = auto()
    OWN_MEASURES = auto()
    COOKING_NOTES = auto()
    # the forecast
    NO_START_MOISTURE = auto()
    NO_WEIGHINGS = auto()
    WEIGHING_RANGE = auto()
    WEIGHINGS_OUT_OF_ORDER = auto()
    FORECAST_TARGET_RANGE = auto()
    DRY_MATTER_RANGE = auto()
    DRY_FROM_THE_START = auto()
    HEAVIER_AT_THE_END = auto()
    HARDLY_MOVED = auto()
    # the journal's file
    NOTHING_TO_CHECK = auto()
    NOTHING_TO_BACK_UP = auto()
    NOTHING_TO_WRITE_TO = auto()
    NO_BACKUP = auto()
    BACKUP_IS_JOURNAL = auto()
    BACKUP_NOT_WHOLE = auto()
    RESTORED_NOT_WHOLE = auto()
    IS_A_FOLDER = auto()
    READ_ONLY = auto()
    FOLDER_READ_ONLY = auto()
    NEWER_VERSION = auto()
    ON_A_NETWORK_DRIVE = auto()
    REPLACED = auto()
    CLOSED = auto()
    OVERTAKEN = auto()
    FOREIGN = auto()
    DAMAGED = auto()
    STRANGE_FILE = auto()
    DISK_FULL = auto()
    ONLY_READ = auto()
    BUSY = auto()
    STILL_BELONGS = auto()
    SAME_NAME = auto()
    SAME_NUMBER = auto()
    NO_WAY_IN = auto()
    DISK_FAILED = auto()
    COULD_NOT_BE_USED = auto()
    # what is wrong in a journal
    FILE_DAMAGED = auto()
    PART_MISSING = auto()
    STRANGE_PART = auto()
    BELONGS_TO_NOTHING = auto()
    UNREADABLE_RECORD = auto()
    UNSOUND_RECORD = auto()
    OVERDRAWN = auto()
    WRONG_WORDS = auto()
    FAULTY_BACKUP = auto()
    # what was mended
    NOT_MENDABLE = auto()
    TAKEN_OUT = auto()
    MADE_ANEW = auto()
    WORDS_MADE_ANEW = auto()
    LINK_EMPTIED = auto()
    SET_ASIDE = auto()
    FORMER_KEPT = auto()


@dataclass(frozen=True, slots=True)
class Message:
    """One thing to tell, the values it is told with, and what it comes from, where that is told with it."""

    kind: MessageKind
    terms: tuple[Term, ...] = ()
    because: Message | str = ""
    """A message of its own, or a sentence of the kitchen's."""

    def __str__(self) -> str:
        """For a log; a person reads the line in `words`."""
        values = (f"{term.name}={term.value}{term.unit}" for term in self.terms)
        return " ".join(filter(None, (self.kind, *values, str(self.because))))


def message(kind: MessageKind, *, because: Message | str = "", **terms: Given) -> Message:
    """A message with its values: numbers, `(number, unit)`, facts, names and days."""
    return Message(kind, tuple(term(name, given) for name, given in terms.items()), because)
