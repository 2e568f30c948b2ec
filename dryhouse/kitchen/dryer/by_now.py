"""What is weighed, at this minute: the curve's own value, not the last reading however old."""

from __future__ import annotations

import math

from dryhouse.kitchen.dryer.runs import DryingRun
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.science.display import Style

FRESH_H = 0.1
"""A reading younger than this is the weight now."""


def by_now_g(kitchen: Kitchen, run: DryingRun) -> float | None:
    """Grams by the forecast at this minute; the last reading where it is fresh, the batch is paused or there is no
    forecast; None where nothing was weighed."""
    if run.net_g is None or not run.points:
        return None
    now, last = run.clock.hours(kitchen.now()), run.points[-1].hours
    found = run.expected.forecast
    if found is None or now - last < FRESH_H or run.clock.paused_since is not None:
        return run.net_g
    import numpy as np

    since = now - run.points[0].hours
    by_now = float(np.interp(since, found.mass.hours, found.mass.median))
    return min(by_now, run.net_g) if math.isfinite(by_now) else run.net_g


def by_now_words(kitchen: Kitchen, run: DryingRun, style: Style) -> str:
    """`By now about 1 lb 2 oz, dry at 9.4 oz`."""
    grams = by_now_g(kitchen, run)
    if grams is None:
        return "Not weighed yet"
    read = run.clock.hours(kitchen.now()) - run.points[-1].hours < FRESH_H
    said = f"Now {style.mass(grams)}" if read else f"By now about {style.mass(grams)}"
    return said if run.target_mass is None else f"{said}, dry at {style.mass(run.target_mass.value)}"
