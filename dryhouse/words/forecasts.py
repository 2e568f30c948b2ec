"""A forecast in one sentence or two, wherever its hours are told: by the clock, or from the first weighing."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import TYPE_CHECKING, Protocol

from dryhouse.science.display import Style

if TYPE_CHECKING:
    from dryhouse.science.forecast import Forecast

FEW = 4
"""With fewer weighings than this, and nothing known beforehand, a forecast is called rough."""
LEVELS_OFF = "It is levelling off above the target, or it started drier than the handbook says: check by hand."
LEVELLING = "It is levelling off, so it may have started drier than the handbook says: check by hand."
ALREADY = "More likely dry than not by now: check by hand."
MORE_LIKELY_THAN_NOT = 0.5

QUARTER_HOUR = 15
"""Minutes: no finish and no next weighing is told closer, unless it is known within half an hour."""
Rounding = Callable[[float], int]
"""`round` to the nearest, `math.floor` to the earlier, `math.ceil` to the later."""


class When(Protocol):
    """Says a moment so many hours after the first weighing, rounded to so many minutes (0: as it is):
    `tomorrow 02:15`, `9.5 h`."""

    def __call__(self, hours: float, minutes: int = 0, to: Rounding = round) -> str:
        """The moment in words."""


def grain(ahead: Forecast) -> int:
    """How closely the hours of a forecast are told, in minutes: quarters of an hour where the middle 80 % lie
    within two, halves within six, else whole hours; five minutes within half an hour. Figures stay exact."""
    width = ahead.finish.high80 - ahead.finish.low80
    return 5 if width < 0.5 else QUARTER_HOUR if width < 2.0 else 30 if width < 6.0 else 60


def finish_sentence(
    ahead: Forecast,
    when: When,
    *,
    passed: bool = False,
    doubted: bool = False,
    likely: float | None = None,
    spans: bool = False,
) -> str:
    """When it will likely be dry; or that it was, or may never be.

    `likely` is how likely it is to be dry by its last weight: more likely than not, there is nothing to wait for.
    `passed` where the middle of the forecast has gone by without a weighing; `doubted` where the load is more
    likely moist than dry though it weighs no more than the usual target; `spans` where `when` tells how long it
    took and not when it was.
    """
    about = "after about" if spans else "about"
    if ahead.reached_at is not None:
        reached = f"target weight was reached {about} {when(ahead.reached_at, QUARTER_HOUR)}"
        doubt = "but this load may hold less dry matter: weigh again after an hour."
        return f"The usual {reached}, {doubt}" if doubted else f"The {reached}."
    if likely is not None and likely >= MORE_LIKELY_THAN_NOT:
        return ALREADY
    if not math.isfinite(ahead.finish.median):
        return LEVELS_OFF
    middle = when(ahead.finish.median, grain(ahead))
    said = f"Likely dry since about {middle}: weigh it." if passed else f"Dry {about} {middle}."
    level = LEVELLING if likely is not None and not math.isfinite(ahead.finish.high50) else ""
    return " ".join(part for part in (said, _doubt(ahead), level, bands_sentence(ahead, when)) if part)


def bands_sentence(ahead: Forecast, when: When) -> str:
    """`Even odds: between 18:00 and 20:30. 80 %: between 16:30 and 22:00.`; nothing where it was reached."""
    if ahead.reached_at is not None or not math.isfinite(ahead.finish.median):
        return ""
    f, minutes = ahead.finish, grain(ahead)
    half, most = (_between(*ends, when, minutes) for ends in ((f.low50, f.high50), (f.low80, f.high80)))
    return f"Even odds: {half}. 80 %: {most}."


def likely_sentence(ahead: Forecast, when: When, now: float = -math.inf) -> str:
    """`Likely 16:30 to 22:00.`, the 80 % band; `Likely by 22:00.` where it has begun by `now`, in hours; nothing
    where it was reached."""
    if ahead.reached_at is not None or not math.isfinite(ahead.finish.median):
        return ""
    low, high, minutes = ahead.finish.low80, ahead.finish.high80, grain(ahead)
    if not math.isfinite(high):
        return f"Likely {_between(low, high, when, minutes)}."
    latest = when(high, minutes, math.ceil)
    return f"Likely by {latest}." if low <= now < high else f"Likely {when(low, minutes, math.floor)} to {latest}."


def stop_sentences(ahead: Forecast, when: When) -> list[str]:
    """What is asked where the dryer seems to have stood still, a sentence or two for each such stretch."""
    return [
        f"It lost almost nothing between {when(begin)} and {when(end)}, and the forecast leaves that time out. Was "
        "the dryer off?"
        for begin, end in ahead.stops
    ]


def now_sentence(grams: tuple[float, float, float], moisture: tuple[float, float, float], style: Style) -> str:
    """Weight (g) and moisture (% wet basis) that the curve has at this minute, each low, middle and high."""
    low, middle, high = (about_mass(g, style) for g in grams)
    dry, now, wet = (style.percent(pct, 0) for pct in moisture)
    return f"Now about {middle} ({low} to {high}), {now} moisture ({dry} to {wet})."


def about_mass(grams: float, style: Style) -> str:
    """`10½ oz`, `240 g`, `89 g`: a weight no scale has read."""
    return style.load(round(grams) if 10 <= grams < 100 else grams)


def from_the_first(style: Style) -> When:
    """Tells hours as they count from the first weighing: `9.5 h`, `10.25 h`, `45 min`."""

    def when(hours: float, minutes: int = 0, to: Rounding = round) -> str:
        told = to(hours * 60 / minutes) * minutes / 60 if minutes else hours
        places = 0 if told >= 100 else 2 if minutes else 1
        return f"{round(told * 60)} min" if told < 1 else f"{style.number(told, places)} h"

    return when


def _doubt(ahead: Forecast) -> str:
    if ahead.weighings == 1:
        known = "" if ahead.expected else ", and nothing is known of how fast this load dries"
        return f"One weighing so far{known}: weigh again for a better estimate."
    return "With so few weighings this is rough." if ahead.weighings < FEW and not ahead.expected else ""


def _between(low: float, high: float, when: When, minutes: int) -> str:
    """A band from its earlier end to its later one: rounding never narrows it."""
    earliest = when(low, minutes, math.floor)
    if not math.isfinite(high):
        return f"after {earliest}, with no sure latest time yet"
    return f"between {earliest} and {when(high, minutes, math.ceil)}"
