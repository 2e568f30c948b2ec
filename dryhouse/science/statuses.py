"""What the shelf says of a lot, in the one word it goes by."""

from __future__ import annotations

from enum import StrEnum


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
