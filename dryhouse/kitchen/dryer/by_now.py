"""What is weighed, at this minute: the curve's own value, not the last reading however old."""

from __future__ import annotations

import math
from typing import Any

from dryhouse.kitchen.dryer.runs import DryingRun
from dryhouse.kitchen.dryer.scale_style import scale_style
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.records.batches import DRYING
from dryhouse.science.display import Style
from dryhouse.science.forecast import Bands
from dryhouse.words.forecasts import about_mass, now_sentence

FRESH_H = 0.1
"""A reading younger than this is the weight now."""


def ahead_of_the_scale(kitchen: Kitchen, run: DryingRun) -> tuple[Bands, Bands] | None:
    """Mass (g) and moisture (% wet basis) by the forecast at this minute; None where the reading is fresh, the
    batch is paused or off the dryer, was dry already, or has no forecast."""
    found = run.expected.forecast
    if found is None or found.reached_at is not None or not run.points or run.clock.paused_since is not None:
        return None
    hours = run.clock.hours(kitchen.now())
    if hours - run.points[-1].hours < FRESH_H:
        return None
    since = hours - run.points[0].hours
    return found.mass.at(since), found.moisture.at(since)


def by_now_g(kitchen: Kitchen, run: DryingRun) -> float | None:
    """Grams by the forecast at this minute; the last reading where that stands for now; None where nothing was
    weighed."""
    ahead = ahead_of_the_scale(kitchen, run)
    if run.net_g is None or ahead is None:
        return run.net_g
    by_now = float(ahead[0].median[0])
    return min(by_now, run.net_g) if math.isfinite(by_now) else run.net_g


def now_words(kitchen: Kitchen, run: DryingRun, style: Style) -> str:
    """What the curve says of this very minute, with the middle 80 %; nothing where the reading stands for it."""
    ahead = ahead_of_the_scale(kitchen, run)
    if ahead is None:
        return ""
    grams, wet = ((float(b.low80[0]), float(b.median[0]), float(b.high80[0])) for b in ahead)
    return now_sentence(grams, wet, scale_style(run, style))


def now_json(kitchen: Kitchen, run: DryingRun) -> dict[str, Any] | None:
    """The mass (g) at this minute with its middle 80 %, and when the scale was last read."""
    if run.net_g is None or run.batch.state != DRYING:
        return None
    ahead = ahead_of_the_scale(kitchen, run)
    low, high = (None, None) if ahead is None else (float(ahead[0].low80[0]), float(ahead[0].high80[0]))
    last = run.last_weighed.isoformat() if run.last_weighed else None
    return {"value": by_now_g(kitchen, run), "low": low, "high": high, "unit": "g", "last_weighed": last}


def by_now_words(kitchen: Kitchen, run: DryingRun, style: Style) -> str:
    """`Now about 1 lb 2½ oz, dry at 9.4 oz`."""
    grams = by_now_g(kitchen, run)
    if grams is None:
        return "Not weighed yet"
    style = scale_style(run, style)
    read = run.clock.hours(kitchen.now()) - run.points[-1].hours < FRESH_H
    said = f"Now {style.mass(grams)}" if read else f"Now about {about_mass(grams, style)}"
    return said if run.target_mass is None else f"{said}, dry at {style.mass(run.target_mass.value)}"
