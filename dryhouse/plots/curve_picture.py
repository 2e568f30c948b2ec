"""What a chart of drying runs shows, as plain numbers: hours and net grams, and how to read them off an axis."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from enum import StrEnum, auto

import numpy as np
from numpy.typing import ArrayLike, NDArray

from dryhouse.science.units import SIZES
from dryhouse.words import charts

Array = NDArray[np.float64]


class Axis(StrEnum):
    """What stands on the vertical axis."""

    WET = auto()
    DRY = auto()
    RATIO = auto()
    MASS = auto()


WET, DRY, RATIO, MASS = Axis


@dataclass(frozen=True, slots=True)
class Band:
    """Net grams ahead of the last weighing: hours, and the median, middle half and middle four fifths there."""

    hours: tuple[float, ...]
    low80: tuple[float, ...]
    low50: tuple[float, ...]
    median: tuple[float, ...]
    high50: tuple[float, ...]
    high80: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class RunPicture:
    """One run. Hours are hours of drying; grams are net, of whatever was weighed."""

    name: str
    hours: tuple[float, ...]
    grams: tuple[float, ...]
    solids_g: float | None = None
    """Dry matter of what was weighed; without it only the mass can be drawn."""
    start_g: float | None = None
    started: datetime | None = None
    """On the person's own clock."""
    pauses: tuple[tuple[float, float], ...] = ()
    """(drying hour at which it stood still, for how many hours)."""
    curve_name: str = ""
    curve_hours: tuple[float, ...] = ()
    curve_grams: tuple[float, ...] = ()
    residual_grams: tuple[float, ...] = ()
    """Weighed less curve, for each of the points the curve was fitted to (the last of `hours`)."""
    band: Band | None = None
    finish: tuple[float, float, float, float, float] | None = None
    """Hours of the finish: low 80, low 50, median, high 50, high 80; bounds may be infinite."""
    target_g: float | None = None
    now: float | None = None
    other_hours: tuple[float, ...] = ()
    other_grams: tuple[float, ...] = ()
    """Weighings of the other scope, scaled to this one by their start masses."""
    left_out: tuple[tuple[float, ...], tuple[float, ...]] = ((), ())
    """Hours and net grams of weighings that are kept and don't count, drawn hollow."""
    air: tuple[tuple[float, ...], tuple[float, ...]] = ((), ())
    """Hours and °C of the air in the dryer, where it was read."""
    marks: tuple[tuple[float, str], ...] = ()
    """(hour, what happened)."""

    def elapsed(self, hours: ArrayLike) -> Array:
        """Hours by the clock since the start, pauses included."""
        given = np.asarray(hours, dtype=float)
        by_clock = given.copy()
        for begin, length in self.pauses:
            by_clock += np.where(given > begin, length, 0.0)
        return by_clock

    def can_show(self, axis: Axis) -> bool:
        """Whether the run can be read on this axis: all but the mass want the dry matter."""
        return axis == MASS or (self.solids_g is not None and self.solids_g > 0)

    def on(self, axis: Axis, grams: ArrayLike, unit: str = "g") -> Array:
        """Net grams as the axis shows them: % wet basis, g/g dry basis, ratio to the start, or `unit`."""
        m: Array = np.asarray(grams, dtype=float)
        if axis == MASS:
            return np.asarray(m / SIZES[unit])
        solids = self.solids_g or 0.0
        if axis == WET:
            return np.asarray(100.0 * (1.0 - solids / np.maximum(m, 1e-9)))
        if axis == DRY:
            return np.asarray(m / solids - 1.0)
        start = self.start_g or float(self.grams[0])
        return np.asarray((m - solids) / (start - solids))


@dataclass(frozen=True, slots=True)
class CurvePicture:
    """One chart: the run it is about first, others laid over it, and how it is to be read."""

    runs: tuple[RunPicture, ...]
    axis: Axis = WET
    by_clock: bool = False
    residuals: bool = False
    unit: str = "g"
    """Of the mass axis."""
    models: bool = False
    """Whether curves and axes carry the names that those who fit curves use."""

    @property
    def shown(self) -> tuple[RunPicture, ...]:
        """The runs that can be read on the chosen axis."""
        return tuple(r for r in self.runs if r.can_show(self.axis) and r.hours)


LABELS = {WET: charts.WET_BASIS, DRY: charts.DRY_BASIS, RATIO: charts.RATIO}


def value_label(picture: CurvePicture) -> str:
    """The vertical axis in words, with its unit."""
    if picture.axis == WET and not picture.models:
        return charts.MOISTURE_SHORT
    return LABELS.get(picture.axis, charts.weight(picture.unit))


def time_label(picture: CurvePicture) -> str:
    """The horizontal axis in words, with its unit."""
    return charts.TIME_OF_DAY if picture.by_clock else charts.HOURS_OF_DRYING


def table(picture: CurvePicture) -> Iterable[Sequence[object]]:
    """Every weighing as a row of numbers, headings first: for copying."""
    yield ("run", "time", "hours", "grams", "moisture % wet basis", "moisture dry basis g/g", "moisture ratio")
    for run in picture.runs:
        for hour, gram in zip(run.hours, run.grams, strict=True):
            moisture: list[object] = [None, None, None]
            if run.can_show(WET):
                moisture = [round(float(run.on(axis, gram)), 4) for axis in (WET, DRY, RATIO)]
            at = None
            if run.started is not None:
                at = (run.started + timedelta(hours=float(run.elapsed(hour)))).isoformat(timespec="seconds")
            yield (run.name, at, round(hour, 4), round(gram, 2), *moisture)
