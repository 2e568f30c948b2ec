"""Where things stand on the chart of drying runs: labels pushed apart, how far it looks ahead, hours as days."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Any

import numpy as np
from matplotlib import dates as mdates

from dryhouse.plots.curve_picture import MASS, RATIO, WET, CurvePicture, RunPicture

_LONGEST_NAME = 26


def spread(places: Sequence[float], gap: float) -> list[float]:
    """Ascending places between 0 and 1 moved so that neighbours are `gap` apart where there is room for that."""
    if not places:
        return []
    gap = min(gap, 1.0 / max(len(places) - 1, 1))
    up: list[float] = []
    for place in places:
        up.append(max(place, up[-1] + gap) if up else place)
    over = up[-1] - 1.0
    if over > 0:
        up[-1] = 1.0
        for i in range(len(up) - 2, -1, -1):
            up[i] = min(up[i], up[i + 1] - gap)
    return up


def horizon(run: RunPicture) -> float:
    """How far ahead the chart looks: to the late end of the finish, but not to where nothing is known."""
    if run.finish is None:
        return run.band.hours[-1] if run.band else 0.0
    *_, median, high50, high80 = run.finish
    reach = run.band.hours[-1] if run.band else 0.0
    if not math.isfinite(median):
        return min(reach, 2.0 * max(run.hours[-1], 1.0))
    late = next((h for h in (high80, high50) if math.isfinite(h)), median)
    return min(1.05 * late, 2.0 * median)


def along(picture: CurvePicture, run: RunPicture, hours: Any) -> Any:
    """Hours of drying where the horizontal axis has them: as they are, or as days by the clock."""
    if not picture.by_clock or run.started is None:
        return np.asarray(hours, dtype=float)
    begun = float(mdates.date2num(run.started.replace(tzinfo=None)))  # type: ignore[no-untyped-call]
    return begun + run.elapsed(hours) / 24.0


def short(name: str) -> str:
    """The name of a run, cut where it is long."""
    return name if len(name) <= _LONGEST_NAME else name[: _LONGEST_NAME - 1].rstrip() + "…"


def level_words(picture: CurvePicture, level: float) -> str:
    """The target as its label says it."""
    if picture.axis == WET:
        return f"{level:.0f} %"
    if picture.axis == MASS:
        return f"{level:.0f} {picture.unit}" if level >= 100 else f"{level:.1f} {picture.unit}"
    return f"{level:.3f}" if picture.axis == RATIO else f"{level:.2f} g/g"
