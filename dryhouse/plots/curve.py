"""The chart of drying runs: weighings, chosen curve, bands of what lies ahead, target line, all labelled directly.

`CurveChart` keeps its axes and lines and moves them to the next picture, so that one more weighing redraws
without building the chart anew: the axes stay as they stand while the run fits into them, and are drawn once.
Nothing is told by colour alone: runs differ in line and marker too, the bands are edged, and everything has its
name beside it.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import numpy as np
from matplotlib import dates as mdates

from dryhouse.plots.axes import dress
from dryhouse.plots.curve_picture import WET, CurvePicture, RunPicture, time_label, value_label
from dryhouse.plots.curve_places import along, horizon, level_words, short, spread
from dryhouse.plots.tokens import LIGHT, Tokens
from dryhouse.science.units import SIZES
from dryhouse.words import charts

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

_LEFT, _RIGHT, _BOTTOM, _TOP = 0.78, 1.72, 0.62, 0.3
"""Margins in inches; the right one holds the direct labels."""
_LABEL_GAP = 0.19
"""Least distance between two labels at the right, in inches."""
_ROOM = 1.05
"""How much further than what is shown the time goes on."""
_FITS = 0.8
"""The axes stay as they are while what is shown fills this share of them."""


def draw_curve(figure: Figure, picture: CurvePicture, tokens: Tokens) -> None:
    """One picture on an empty figure."""
    CurveChart(figure, tokens).show(picture)


@dataclass(frozen=True, slots=True)
class _Label:
    """A name at the right; with `x` a hairline leads to what it names."""

    y: float
    text: str
    colour: str
    x: float | None = None


class CurveChart:
    """A figure that goes from one picture to the next."""

    def __init__(self, figure: Figure, tokens: Tokens) -> None:
        self.figure, self.tokens = figure, tokens
        figure.set_layout_engine("none")
        self._shape: tuple[bool, bool] | None = None
        self._lines: dict[str, Any] = {}
        self._passing: list[Any] = []
        self._held: tuple[Any, float, float] | None = None
        """What the time axis was laid out for, and from where to where."""
        self._backdrop: tuple[Any, Any] | None = None
        """How the axes stood when they were drawn alone, and the pixels."""
        self.axes: Axes
        self.below: Axes | None = None

    def show(self, picture: CurvePicture) -> None:
        """Move everything to this picture."""
        shape = (picture.residuals, picture.by_clock)
        if shape != self._shape:
            self._lay_out(picture)
            self._shape = shape
        for artist in self._passing:
            artist.remove()
        self._passing.clear()
        for line in self._lines.values():
            line.set_visible(False)
        runs = picture.shown
        self.axes.set_ylabel(value_label(picture))
        if not runs:
            self._say_nothing(picture)
            return
        self._set_limits(picture, runs)
        labels: list[_Label] = []
        self._target(picture, runs[0], labels)
        self._band(picture, runs[0], labels)
        for place, run in enumerate(runs):
            self._run(picture, run, place, labels, alone=len(runs) == 1)
        self._finish(picture, runs[0])
        self._now(picture, runs[0])
        self._marks(picture, runs[0])
        self._label(labels)
        if self.below is not None:
            self._residuals(picture, runs)

    def paint(self) -> None:
        """Draw to the figure's own canvas: the axes anew only where they stand otherwise than before."""
        canvas: Any = self.figure.canvas  # matplotlib gives its canvases no types
        if self.below is not None:
            canvas.draw()
            return
        moving = [*self._lines.values(), *self._passing]
        for artist in moving:
            artist.set_animated(True)
        axes = self.axes
        stand = (axes.get_xlim(), axes.get_ylim(), axes.get_xlabel(), axes.get_ylabel())
        if self._backdrop is None or self._backdrop[0] != stand:
            canvas.draw()
            self._backdrop = stand, canvas.copy_from_bbox(self.figure.bbox)
        else:
            canvas.restore_region(self._backdrop[1])
        for artist in sorted((a for a in moving if a.get_visible()), key=lambda a: a.get_zorder()):
            axes.draw_artist(artist)

    # --- laying out ------------------------------------------------------------------------------------

    def _lay_out(self, picture: CurvePicture) -> None:
        figure, tokens = self.figure, self.tokens
        figure.clear()
        self._backdrop = self._held = None
        self._lines.clear()
        self._passing.clear()
        wide, high = figure.get_size_inches()
        larger = tokens.small / LIGHT.small
        left, right = larger * _LEFT / wide, 1.0 - min(larger * _RIGHT / wide, 0.4)
        bottom, top = larger * _BOTTOM / high, 1.0 - _TOP / high
        self.below = None
        if picture.residuals:
            cut = bottom + 0.26 * (top - bottom)
            self.below = figure.add_axes((left, bottom, right - left, cut - bottom))
            self.axes = figure.add_axes((left, cut + 0.05, right - left, top - cut - 0.05), sharex=self.below)
            dress(self.axes, tokens, "", value_label(picture))
            dress(self.below, tokens, time_label(picture), charts.residual(picture.unit))
            self.axes.tick_params(labelbottom=False)
        else:
            self.axes = figure.add_axes((left, bottom, right - left, top - bottom))
            dress(self.axes, tokens, time_label(picture), value_label(picture))
        if picture.by_clock:
            foot = self.below or self.axes
            locator = mdates.AutoDateLocator(minticks=3, maxticks=7)  # type: ignore[no-untyped-call]
            foot.xaxis.set_major_locator(locator)
            formatter = mdates.ConciseDateFormatter(locator, show_offset=True)  # type: ignore[no-untyped-call]
            foot.xaxis.set_major_formatter(formatter)
            foot.xaxis.get_offset_text().set_color(tokens.muted)

    def _set_limits(self, picture: CurvePicture, runs: Sequence[RunPicture]) -> None:
        ends = [max((*r.hours, *r.curve_hours, r.now or 0.0)) for r in runs]
        ahead = horizon(runs[0])
        start, end = 0.0, max(max(ends), ahead, 1e-3)
        if picture.by_clock:
            firsts, lasts = zip(
                *((along(picture, r, 0.0), along(picture, r, e)) for r, e in zip(runs, ends, strict=True)),
                strict=True,
            )
            start, end = float(min(firsts)), float(max(*lasts, along(picture, runs[0], ahead)))
        self.axes.set_xlim(*self._held_for((picture.by_clock, *((r.name, r.started) for r in runs)), start, end))
        tops = [float(np.max(r.on(picture.axis, r.grams, picture.unit))) for r in runs]
        top = max(tops)
        self.axes.set_ylim(0.0, 100.0 if picture.axis == WET else max(top * 1.06, 1e-6))

    def _held_for(self, what: Any, start: float, end: float) -> tuple[float, float]:
        """The stretch of time to show: as before, where the same runs still fill it."""
        if self._held is not None and self._held[:2] == (what, start):
            share = (end - start) / (self._held[2] - start)
            if _FITS <= share <= 1.0:
                return start, self._held[2]
        self._held = what, start, start + _ROOM * (end - start) + 1e-6
        return self._held[1:]

    # --- what is drawn -----------------------------------------------------------------------------------

    def _line(self, name: str, x: Any, y: Any, axes: Axes | None = None, **look: Any) -> Any:
        """The line of this name, made once and moved afterwards."""
        line = self._lines.get(name)
        if line is None:
            (line,) = (axes or self.axes).plot(x, y, **look)
            self._lines[name] = line
            return line
        line.set_data(x, y)
        line.set(**look)
        line.set_visible(True)
        return line

    def _run(
        self,
        picture: CurvePicture,
        run: RunPicture,
        place: int,
        labels: list[_Label],
        *,
        alone: bool,
    ) -> None:
        series = self.tokens.series[place % len(self.tokens.series)]
        possible = self.axes.get_ylim()
        values = np.clip(run.on(picture.axis, run.grams, picture.unit), *possible)
        curve = np.clip(run.on(picture.axis, run.curve_grams, picture.unit), *possible)
        if run.curve_hours:
            x = along(picture, run, run.curve_hours)
            self._line(
                f"curve {place}", x, curve, color=series.colour, linestyle=series.dashes, linewidth=2.0, zorder=3
            )
        self._line(
            f"points {place}", along(picture, run, run.hours), values,
            color=series.colour, linestyle="none", marker=series.marker, markersize=7.0,
            markeredgecolor=self.tokens.surface, markeredgewidth=1.0, clip_on=False, zorder=5,
        )  # fmt: skip
        aside = ((run.other_hours, run.other_grams, series.colour), (*run.left_out, self.tokens.muted))
        for kind, (hours, grams, colour) in zip(("others", "left out"), aside, strict=True):
            if hours:
                values = np.clip(run.on(picture.axis, grams, picture.unit), *self.axes.get_ylim())
                self._line(
                    f"{kind} {place}", along(picture, run, hours), values, clip_on=False,
                    color=colour, linestyle="none", marker=series.marker, markersize=6.0,
                    markerfacecolor="none", markeredgecolor=colour, zorder=4,
                )  # fmt: skip
        if not alone:
            last = run.on(picture.axis, run.curve_grams[-1:] or run.grams[-1:], picture.unit)
            x_last = float(along(picture, run, (run.curve_hours or run.hours)[-1]))
            labels.append(_Label(float(last[0]), short(run.name), series.colour, x_last))
        elif run.curve_hours and picture.models:
            middle = int(0.35 * len(run.curve_hours))
            at = (float(along(picture, run, run.curve_hours[middle])), float(curve[middle]))
            self._passing.append(
                self.axes.annotate(
                    charts.curve(run.curve_name), at, xytext=(8, 6), textcoords="offset points",
                    color=series.colour, fontsize=self.tokens.small, zorder=4,
                )
            )  # fmt: skip

    def _band(self, picture: CurvePicture, run: RunPicture, labels: list[_Label]) -> None:
        band = run.band
        if band is None or len(band.hours) < 2:
            return
        colour = self.tokens.series[0].colour
        x = along(picture, run, band.hours)
        rows = {
            n: run.on(picture.axis, getattr(band, n), picture.unit)
            for n in ("low80", "low50", "median", "high50", "high80")
        }
        for low, high, strength in (("low80", "high80", 0.16), ("low50", "high50", 0.28)):
            self._passing.append(
                self.axes.fill_between(
                    x, rows[low], rows[high], color=colour, alpha=strength, linewidth=0, zorder=1
                )
            )
        for name, dashes in (("low80", ":"), ("high80", ":"), ("median", (0, (5, 2)))):
            self._line(f"band {name}", x, rows[name], color=colour, linestyle=dashes, linewidth=1.2, zorder=2)
        edge = self.axes.get_xlim()[1]
        shown = np.asarray(x) <= edge
        last = int(np.flatnonzero(shown)[-1]) if shown.any() else 0
        inner, outer = (float(rows[n][last]) for n in ("high50", "high80"))
        labels.append(_Label(outer, charts.BAND_80, self.tokens.muted, float(np.asarray(x)[last])))
        labels.append(_Label(inner, charts.BAND_50, self.tokens.ink, float(np.asarray(x)[last])))

    def _target(self, picture: CurvePicture, run: RunPicture, labels: list[_Label]) -> None:
        if run.target_g is None:
            return
        level = float(run.on(picture.axis, run.target_g, picture.unit))
        x = self.axes.get_xlim()
        self._line(
            "target", x, (level, level), color=self.tokens.ink, linestyle=(0, (8, 3)), linewidth=1.2, zorder=2
        )
        labels.append(_Label(level, charts.target(level_words(picture, level)), self.tokens.ink))

    def _finish(self, picture: CurvePicture, run: RunPicture) -> None:
        """The finish on the target line: a thin bar for four in five, a thick one for one in two, the median."""
        if run.finish is None or run.target_g is None:
            return
        level = float(run.on(picture.axis, run.target_g, picture.unit))
        edge = self.axes.get_xlim()[1]
        hours = [along(picture, run, h) if math.isfinite(h) else edge for h in run.finish]
        hours = [min(float(h), edge) for h in hours]
        ink = self.tokens.ink
        for name, ends, width in (("finish 80", hours[0:5:4], 2.0), ("finish 50", hours[1:4:2], 5.0)):
            self._line(name, ends, (level, level), color=ink, linewidth=width, solid_capstyle="butt", zorder=6)
        if hours[2] < edge:
            self._line(
                "finish", (hours[2],), (level,), color=ink, linestyle="none", marker="D", markersize=8.0,
                markeredgecolor=self.tokens.surface, zorder=7,
            )  # fmt: skip

    def _now(self, picture: CurvePicture, run: RunPicture) -> None:
        if run.now is None or run.now <= run.hours[-1] or run.now > horizon(run):
            return
        x = float(along(picture, run, run.now))
        low, high = self.axes.get_ylim()
        self._line("now", (x, x), (low, high), color=self.tokens.accent, linewidth=1.4, zorder=2)
        words = self.axes.text(
            x, high, f" {charts.NOW}", va="top", ha="left", fontsize=self.tokens.small, color=self.tokens.accent
        )  # fmt: skip
        self._passing.append(words)

    def _marks(self, picture: CurvePicture, run: RunPicture) -> None:
        top = self.axes.get_ylim()[1]
        for hour, what in run.marks:
            x = float(along(picture, run, hour))
            self._passing.append(
                self.axes.axvline(x, color=self.tokens.edge, linewidth=0.8, linestyle=(0, (1, 2)), zorder=1)
            )
            self._passing.append(
                self.axes.text(
                    x, top, f" {what}", rotation=90, va="top", ha="right", fontsize=self.tokens.small,
                    color=self.tokens.muted, zorder=2,
                )
            )  # fmt: skip

    def _residuals(self, picture: CurvePicture, runs: Sequence[RunPicture]) -> None:
        assert self.below is not None
        x = self.axes.get_xlim()
        self._line("zero", x, (0.0, 0.0), self.below, color=self.tokens.ink, linewidth=1.0)
        largest = 0.5 / SIZES[picture.unit]
        for place, run in enumerate(runs):
            if not run.residual_grams:
                continue
            series = self.tokens.series[place % len(self.tokens.series)]
            hours = run.hours[-len(run.residual_grams) :]
            size = SIZES[picture.unit]
            left_over = [r / size for r in run.residual_grams]
            largest = max(largest, *(abs(r) for r in left_over))
            self._line(
                f"residuals {place}", along(picture, run, hours), left_over, self.below,
                color=series.colour, linestyle="none", marker=series.marker, markersize=6.0,
            )  # fmt: skip
        self.below.set_ylim(-1.25 * largest, 1.25 * largest)

    # --- words ---------------------------------------------------------------------------------------------

    def _label(self, labels: list[_Label]) -> None:
        """Names at the right, beside what they name, pushed apart where they would touch."""
        low, high = self.axes.get_ylim()
        tall = self.axes.get_position().height * self.figure.get_size_inches()[1]
        gap = _LABEL_GAP * self.tokens.small / LIGHT.small / tall
        ranked = sorted(labels, key=lambda label: label.y)
        shares = [min(max((label.y - low) / (high - low), 0.0), 1.0) for label in ranked]
        for number, (share, label) in enumerate(zip(spread(shares, gap), ranked, strict=True)):
            look: dict[str, Any] = {
                "color": label.colour,
                "fontsize": self.tokens.small,
                "va": "center",
                "ha": "left",
            }
            place: dict[str, Any] = {"xy": (1.0, share), "xycoords": "axes fraction", "xytext": (6, 0)}
            place["textcoords"] = "offset points"
            if label.x is not None:
                begin = 1.0 + 0.08 / self._wide()
                place["xy"], place["xytext"] = (begin, share), (0, 0)
                first, last = self.axes.get_xlim()
                end = (label.x - first) / (last - first), (label.y - low) / (high - low)
                self._hairline(f"leader {number}", (begin, share), end, label.colour, tall)
            self._passing.append(self.axes.annotate(label.text, **place, **look, annotation_clip=False))

    def _hairline(
        self, name: str, begin: tuple[float, float], end: tuple[float, float], colour: str, tall: float
    ) -> None:
        """From a name to what it names, in shares of the axes, a little short of both."""
        wide, point = self._wide(), 1.0 / 72.0
        long = math.hypot((end[0] - begin[0]) * wide, (end[1] - begin[1]) * tall)
        if long < 12.0 * point:
            return
        x, y = (
            [a + (b - a) * 2.0 * point / long, b - (b - a) * 5.0 * point / long]
            for a, b in zip(begin, end, strict=True)
        )
        look: dict[str, Any] = {"color": colour, "linewidth": 0.6, "clip_on": False, "zorder": 3}
        self._line(name, x, y, transform=self.axes.transAxes, **look)

    def _wide(self) -> float:
        return float(self.axes.get_position().width * self.figure.get_size_inches()[0])

    def _say_nothing(self, picture: CurvePicture) -> None:
        words = charts.ONLY_WEIGHT if any(r.hours for r in picture.runs) else charts.NOTHING_WEIGHED
        self._passing.append(
            self.axes.text(
                0.5, 0.5, words, transform=self.axes.transAxes, ha="center", va="center",
                color=self.tokens.muted, fontsize=self.tokens.body,
            )
        )  # fmt: skip
