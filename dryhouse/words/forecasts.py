"""A forecast in one sentence or two, wherever its hours are told: by the clock, or from the first weighing."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import TYPE_CHECKING

from dryhouse.science.display import Style

if TYPE_CHECKING:
    from dryhouse.science.forecast import Forecast

FEW = 4
"""With fewer weighings than this, and nothing known beforehand, a forecast is called rough."""
LEVELS_OFF = "It is levelling off above the target, or it started drier than the handbook says: check by hand."
LEVELLING = "It is levelling off, so it may have started drier than the handbook says: check by hand."
ALREADY = "More likely dry than not by now: check by hand."
MORE_LIKELY_THAN_NOT = 0.5

When = Callable[[float], str]
"""Says a moment so many hours after the first weighing: `tomorrow 02:10`, `9.5 h`."""


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
    if ahead.reached_at is not None and doubted:
        return (
            f"The usual target weight was reached {about} {when(ahead.reached_at)}, but this load may hold less "
            "dry matter: weigh again after an hour."
        )
    if ahead.reached_at is not None:
        return f"The target weight was reached {about} {when(ahead.reached_at)}."
    if likely is not None and likely >= MORE_LIKELY_THAN_NOT:
        return ALREADY
    if not math.isfinite(ahead.finish.median):
        return LEVELS_OFF
    middle = when(ahead.finish.median)
    said = f"Likely dry since about {middle}: weigh it." if passed else f"Dry {about} {middle}."
    level = LEVELLING if likely is not None and not math.isfinite(ahead.finish.high50) else ""
    return " ".join(part for part in (said, _doubt(ahead), level, bands_sentence(ahead, when)) if part)


def bands_sentence(ahead: Forecast, when: When) -> str:
    """`Even odds: between 18:10 and 20:40. 80 %: between 16:30 and 23:50.`; nothing where it was reached."""
    if ahead.reached_at is not None or not math.isfinite(ahead.finish.median):
        return ""
    f = ahead.finish
    return f"Even odds: {_between(f.low50, f.high50, when)}. 80 %: {_between(f.low80, f.high80, when)}."


def likely_sentence(ahead: Forecast, when: When, now: float = -math.inf) -> str:
    """`Likely 16:30 to 23:50.`, the 80 % band; `Likely by 23:50.` where it has begun by `now`, in hours; nothing
    where it was reached."""
    if ahead.reached_at is not None or not math.isfinite(ahead.finish.median):
        return ""
    low, high = ahead.finish.low80, ahead.finish.high80
    if not math.isfinite(high):
        return f"Likely {_between(low, high, when)}."
    return f"Likely by {when(high)}." if low <= now < high else f"Likely {when(low)} to {when(high)}."


def stop_sentences(ahead: Forecast, when: When) -> list[str]:
    """What is asked where the dryer seems to have stood still, a sentence or two for each such stretch."""
    return [
        f"It lost almost nothing between {when(begin)} and {when(end)}, and the forecast leaves that time out. Was "
        "the dryer off?"
        for begin, end in ahead.stops
    ]


def now_sentence(grams: tuple[float, float, float], moisture: tuple[float, float, float], style: Style) -> str:
    """Weight (g) and moisture (% wet basis) that the curve has at this minute, each low, middle and high."""
    low, middle, high = (style.mass(g) for g in grams)
    dry, now, wet = (style.percent(pct, 0) for pct in moisture)
    return f"Now about {middle} ({low} to {high}), {now} moisture ({dry} to {wet})."


def from_the_first(style: Style) -> When:
    """Tells hours as they count from the first weighing: `9.5 h`, `45 min`."""

    def when(hours: float) -> str:
        return f"{round(hours * 60)} min" if hours < 1 else f"{style.number(hours, 1 if hours < 100 else 0)} h"

    return when


def _doubt(ahead: Forecast) -> str:
    if ahead.weighings == 1:
        known = "" if ahead.expected else ", and nothing is known of how fast this load dries"
        return f"One weighing so far{known}: weigh again for a better estimate."
    return "With so few weighings this is rough." if ahead.weighings < FEW and not ahead.expected else ""


def _between(low: float, high: float, when: When) -> str:
    if not math.isfinite(high):
        return f"after {when(low)}, with no sure latest time yet"
    return f"between {when(low)} and {when(high)}"
