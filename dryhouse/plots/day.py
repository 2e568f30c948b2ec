"""The day of a run in one picture: weight, moisture, drying rate and the air in the dryer over one axis of time."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

import numpy as np

from dryhouse.plots.axes import frame
from dryhouse.plots.curve_picture import DRY, MASS, WET, Array, Axis, CurvePicture, RunPicture
from dryhouse.plots.curve_places import spread
from dryhouse.plots.plain_scales import PlainScales
from dryhouse.plots.tokens import LIGHT, Tokens
from dryhouse.science.units import to_fahrenheit
from dryhouse.words import charts

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

Line = tuple[Array, Array]
"""Hours since the start by the clock, and values."""
_LEFT, _RIGHT, _BOTTOM, _ABOVE = 0.6, 1.5, 0.62, 0.25
"""Margins, and what the label above each part takes, in inches."""
_LABEL_UP, _LABEL_BELOW = 0.05, 0.28
"""How far above each part its label stands, and how far below the lowest the label of the hours, in inches."""
_LABEL_GAP = 0.19
"""Least distance between two names, in inches."""


def draw_day(figure: Figure, picture: CurvePicture, tokens: Tokens) -> None:
    """One picture on an empty figure; what was not recorded of any run has no part of its own."""
    figure.set_layout_engine("none")
    parts = [part for part in _parts(picture) if any(len(line[0]) for line in part[1])]
    if not parts:
        axes = figure.add_subplot()
        axes.set_axis_off()
        said = axes.text(0.5, 0.5, charts.NOTHING_WEIGHED, ha="center", va="center", color=tokens.muted)
        said.set_fontsize(tokens.body)
        return
    (wide, high), larger = figure.get_size_inches(), tokens.small / LIGHT.small
    left, right = larger * _LEFT / wide, 1.0 - min(larger * _RIGHT / wide, 0.35)
    bottom, gap = larger * _BOTTOM / high, larger * _ABOVE / high
    tall = (1.0 - bottom) / len(parts) - gap
    end = max(float(line[0][-1]) for _, lines in parts for line in lines if len(line[0]))
    first: Axes | None = None
    for place, (label, lines) in enumerate(parts):
        foot = 1.0 - (place + 1) * (tall + gap)
        axes = figure.add_axes((left, foot, right - left, tall), sharex=first)
        first = first or axes
        lowest = place == len(parts) - 1
        frame(axes, tokens, charts.SINCE_START if lowest else "", label)
        axes.yaxis.label.set(fontsize=tokens.small, rotation=0, ha="left", va="bottom")
        axes.yaxis.set_label_coords(0.0, 1.0 + larger * _LABEL_UP / (tall * high))
        axes.xaxis.set_label_coords(0.5, -larger * _LABEL_BELOW / (tall * high))
        PlainScales(axes, tokens, below=lowest)
        axes.set_xlim(0.0, 1.03 * end + 1e-6)
        _lines(axes, lines, tokens)
        axes.set_ylim(*_possible(label, axes.get_ylim()))
        if place == 0:
            _names(axes, picture.runs, lines, tokens, (tall * high, (1.0 - bottom - gap) * high))
            _marks(axes, picture.runs[0], tokens)


def _parts(picture: CurvePicture) -> list[tuple[str, list[Line]]]:
    """What is drawn one below the other: a label, and a line for each run (empty where it has none)."""
    fahrenheit = picture.unit not in ("g", "kg")

    def each(line: Callable[[RunPicture], Line]) -> list[Line]:
        return [line(run) for run in picture.runs]

    def of(axis: Axis) -> Callable[[RunPicture], Line]:
        def line(run: RunPicture) -> Line:
            if not run.can_show(axis) or not run.hours:
                return _NONE
            return run.elapsed(run.hours), run.on(axis, run.grams, picture.unit)

        return line

    return [
        (charts.weight(picture.unit), each(of(MASS))),
        (charts.MOISTURE_SHORT, each(of(WET))),
        (charts.RATE_SHORT, each(_rate)),
        (charts.air(fahrenheit), each(lambda run: _air(run, fahrenheit))),
    ]


def _possible(label: str, limits: tuple[float, float]) -> tuple[float, float]:
    """Limits that leave room for nothing that cannot be: no weight below nothing, no moisture beyond 100 %."""
    low, high = limits
    if label == charts.MOISTURE_SHORT:
        return 0.0, 100.0
    return (0.0 if label.startswith(charts.WEIGHT) else low), high


_NONE: Line = (np.array([]), np.array([]))


def _rate(run: RunPicture) -> Line:
    """Water lost between each two weighings, for a gram of dry matter and an hour, in the middle of the time."""
    if not run.can_show(DRY) or len(run.hours) < 2:
        return _NONE
    moisture, hours = run.on(DRY, run.grams), np.asarray(run.hours)
    step = np.diff(hours)
    wide = step > 0
    middle = run.elapsed(0.5 * (hours[1:] + hours[:-1])[wide])
    return middle, -np.diff(moisture)[wide] / step[wide]


def _air(run: RunPicture, fahrenheit: bool) -> Line:
    hours, degrees = run.air
    shown = [to_fahrenheit(c) if fahrenheit else c for c in degrees]
    return run.elapsed(hours), np.asarray(shown, dtype=float)


def _lines(axes: Axes, lines: Sequence[Line], tokens: Tokens) -> None:
    for place, (x, y) in enumerate(lines):
        if len(x):
            series = tokens.series[place % len(tokens.series)]
            axes.plot(
                x, y, color=series.colour, linestyle=series.dashes, linewidth=1.6,
                marker=series.marker, markersize=4.5, markeredgecolor=tokens.surface,
            )  # fmt: skip


def _names(
    axes: Axes, runs: Sequence[RunPicture], lines: Sequence[Line], tokens: Tokens, high: tuple[float, float]
) -> None:
    """The runs' names at the right, beside their last weights, pushed apart where they would touch, down to the
    last part; `high` are the heights of this part and of all parts, in inches."""
    (tall, whole), larger = high, tokens.small / LIGHT.small
    foot = whole - tall
    low, top = axes.get_ylim()
    ends = sorted(
        (float(line[1][-1]), run.name, tokens.series[n % len(tokens.series)].colour)
        for n, (run, line) in enumerate(zip(runs, lines, strict=True))
        if len(line[0])
    )
    beside = [(foot + tall * (y - low) / (top - low)) / whole for y, _, _ in ends]
    for place, (_, name, colour) in zip(spread(beside, larger * _LABEL_GAP / whole), ends, strict=True):
        share = (place * whole - foot) / tall
        axes.annotate(
            name, (1.0, share), xycoords="axes fraction", xytext=(6, 0), textcoords="offset points",
            color=colour, fontsize=tokens.small, va="center", annotation_clip=False,
        )  # fmt: skip


def _marks(axes: Axes, run: RunPicture, tokens: Tokens) -> None:
    top = axes.get_ylim()[1]
    for hour, what in run.marks:
        x = float(run.elapsed(hour))
        axes.axvline(x, color=tokens.edge, linewidth=0.8, linestyle=(0, (1, 2)), zorder=1)
        axes.text(x, top, f" {what}", rotation=90, va="top", ha="right", fontsize=tokens.small, color=tokens.muted)
