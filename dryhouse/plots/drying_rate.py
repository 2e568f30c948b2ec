"""The drying rate against moisture: where water leaves at a steady rate and where it slows down."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from dryhouse.plots.axes import dress, set_labels_at
from dryhouse.plots.curve_picture import DRY, Array, CurvePicture, RunPicture
from dryhouse.plots.curve_places import spread
from dryhouse.plots.tokens import LIGHT, Tokens
from dryhouse.words import charts

if TYPE_CHECKING:
    from matplotlib.figure import Figure

_LEFT, _RIGHT, _BOTTOM, _TOP = 0.72, 0.12, 0.58, 0.12
"""Margins in inches, at the usual size of text."""


def rates(run: RunPicture) -> tuple[Array, Array]:
    """Between each two weighings: the mean moisture (dry basis, g/g) and the rate −ΔX/Δt (g water per g dry
    matter and hour). A rise in weight shows as a rate below zero."""
    moisture, hours = run.on(DRY, run.grams), np.asarray(run.hours)
    step = np.diff(hours)
    wide = step > 0
    return (0.5 * (moisture[1:] + moisture[:-1]))[wide], (-np.diff(moisture)[wide] / step[wide])


def curve_rates(run: RunPicture) -> tuple[Array, Array]:
    """Moisture and rate along the chosen curve; empty where there is none."""
    if len(run.curve_hours) < 3:
        return np.array([]), np.array([])
    moisture, hours = run.on(DRY, run.curve_grams), np.asarray(run.curve_hours)
    return moisture[1:], -np.gradient(moisture, hours)[1:]


def draw_rate(figure: Figure, picture: CurvePicture, tokens: Tokens) -> None:
    """One picture on an empty figure; time runs from right to left, as the moisture falls."""
    figure.set_layout_engine("none")
    (width, height), larger = figure.get_size_inches(), tokens.small / LIGHT.small
    left, right, bottom, top = (larger * margin for margin in (_LEFT, _RIGHT, _BOTTOM, _TOP))
    inner = 1 - (left + right) / width, 1 - (bottom + top) / height
    axes = figure.add_axes((left / width, bottom / height, *inner))
    dress(axes, tokens, charts.DRY_BASIS, charts.RATE)
    set_labels_at(figure, axes, left - 0.24 * larger, 0.28 * larger)
    runs = [r for r in picture.runs if r.can_show(DRY) and len(r.hours) > 1]
    if not runs:
        axes.text(
            0.5, 0.5, charts.NO_RATE, transform=axes.transAxes,
            ha="center", va="center", color=tokens.muted, fontsize=tokens.body,
        )  # fmt: skip
        return
    highest, widest, lowest = 0.0, 0.0, 0.0
    ends: list[tuple[float, str, str]] = []
    for place, run in enumerate(runs):
        series = tokens.series[place % len(tokens.series)]
        x, y = rates(run)
        along, slope = curve_rates(run)
        if len(along):
            axes.plot(along, slope, color=series.colour, linestyle=series.dashes, linewidth=2.0)
        axes.plot(
            x, y, color=series.colour, linestyle="none", marker=series.marker, markersize=7.0,
            markeredgecolor=tokens.surface, label=run.name,
        )  # fmt: skip
        highest = max([highest, 1e-6, *y.tolist(), *slope.tolist()])
        lowest = min([lowest, *y.tolist()])
        name = run.name if len(runs) > 1 else charts.curve(run.curve_name)
        ends.append((slope[0] if len(along) else y[0], name, series.colour))
        widest = max(widest, float(along[0] if len(along) else x[0]))
    axes.set_xlim(0.0, 1.3 * widest)
    low = 1.1 * min(0.0, lowest)
    axes.set_ylim(low, 1.1 * highest)
    ends.sort()
    shares = spread([min(max((y - low) / (1.1 * highest - low), 0.0), 1.0) for y, _, _ in ends], 0.05)
    for share, (_, name, colour) in zip(shares, ends, strict=True):
        height = low + share * (1.1 * highest - low)
        axes.text(1.05 * widest, height, name, color=colour, fontsize=tokens.small, va="center")
