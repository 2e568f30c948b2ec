"""What is said of a lot and of a load in the one word each goes by; and the names of a batch's figures."""

from __future__ import annotations

from enum import StrEnum, auto


class Status(StrEnum):
    """How a lot stands, in the order a person should see them: the gravest first."""

    DO_NOT_EAT = "do not eat"
    """A stop whose effect is *not to be eaten* and that nothing on record lifts."""
    CHECK_FIRST = "check first"
    """Something is missing or was found; the reason says what."""
    PAST = "past keep-by"
    USE_SOON = "use soon"
    KEEPING = "keeping"
    THROWN_OUT = "thrown out"
    USED_UP = "used up"


class VerdictName(StrEnum):
    """How likely a load is to be dry, by its weights and by how a piece feels."""

    DRY_ENOUGH = "dry enough"
    """The doubt is small."""
    PROBABLY_DRY = "probably dry"
    """More likely than not."""
    NEARLY = "nearly"
    STILL_MOIST = "still moist"
    MISMATCH = "weights don't add up"
    UNKNOWN = "unknown"
    """Too little was weighed to say."""


class Lack(StrEnum):
    """What a verdict takes, where it is not recorded."""

    LOADED = auto()
    START_MOISTURE = auto()
    DRIED = auto()
    TARGET = auto()


class Feel(StrEnum):
    """How a cooled piece feels, driest first."""

    BRITTLE = "brittle"
    LEATHERY = "leathery"
    PLIABLE = "pliable"
    STICKY = "sticky"
    WET = "wet"


class FigureId(StrEnum):
    """The figures of a batch and of its run, whatever they are called where they are shown."""

    YIELD_BY_WEIGHT = auto()
    YIELD_BY_MEASURE = auto()
    MOISTURE_NOW = auto()
    TARGET_WEIGHT = auto()
    WATER_BACK = auto()
    KEEPS = auto()
    MOISTURE_WET = auto()
    MOISTURE_DRY = auto()
    MOISTURE_RATIO = auto()
    LOAD_TARGET = auto()
    SAMPLE_TARGET = auto()
    HOURS_UNTIL_DRY = auto()
    SETTLES_AT = auto()
    WATER_ACTIVITY = auto()


class Severity(StrEnum):
    """How grave a caution is, the gravest first."""

    STOP = "stop"
    WARN = "warn"
    NOTE = "note"
