"""The chart of a yield: handbook, own batches and both joined, one above the other on one scale.

Bars are the middle 80 %, the stroke across a bar its middle. Own batches are dots in the order they were
dried, the last one ringed. Everything is labelled where it stands, and nothing is told by colour alone.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from dryhouse.plots.axes import dress, set_labels_at
from dryhouse.plots.tokens import LIGHT, Tokens
from dryhouse.words import charts

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure


@dataclass(frozen=True, slots=True)
class Way:
    """One way of knowing the yield, in % of the prepared mass; no interval where none is known."""

    name: str
    value: float
    low: float | None = None
    high: float | None = None


@dataclass(frozen=True, slots=True)
class Dot:
    """One own batch, in % of the prepared mass; `same` says that it is of the form asked for."""

    value: float
    label: str
    same: bool = True


@dataclass(frozen=True, slots=True)
class YieldPicture:
    """What the chart shows: the ways from top to bottom, and own batches, oldest first."""

    food: str
    ways: tuple[Way, ...]
    dots: tuple[Dot, ...] = ()


BARS = ("xx", "..", "")
"""The hatch of each way's bar, so that they differ in black and white too."""
_HALF = 0.15
_DOTS_ROOM = 0.62
_LEFT, _RIGHT, _BOTTOM, _TOP = 1.45, 0.12, 0.52, 0.06
"""Margins in inches, at the usual size of text: the left one holds the names."""
_FEWEST_ROWS = 2
"""Room for as many rows is kept, so that a single bar is not blown up."""
_MOST_DOTS = 400
"""More dots than this are thinned, the last always kept: they would lie on each other."""


def draw_yields(figure: Figure, picture: YieldPicture, tokens: Tokens) -> None:
    """The picture on an empty figure."""
    figure.set_layout_engine("none")
    (width, height), larger = figure.get_size_inches(), tokens.small / LIGHT.small
    left, bottom = min(larger * _LEFT, 0.5 * width), larger * _BOTTOM
    inner = 1 - (left + _RIGHT) / width, 1 - (bottom + _TOP) / height
    axes = figure.add_axes((left / width, bottom / height, *inner))
    dress(axes, tokens, charts.DRIED_SHARE, "")
    set_labels_at(figure, axes, left, larger * (_BOTTOM - 0.26))
    axes.grid(visible=False, axis="y")
    axes.spines["left"].set_visible(False)
    axes.tick_params(axis="y", length=0)
    rows, y = [], 0.0
    for i, way in enumerate(picture.ways):
        rows.append((y, way.name))
        _bar(axes, tokens, i, way, y)
        y -= 1.0
    if picture.dots:
        rows.append((y - 0.1, charts.EACH_BATCH))
        _dots(axes, tokens, picture.dots, y - 0.1)
        y -= 1.0
    axes.set_yticks([r[0] for r in rows], [r[1] for r in rows])
    for label in axes.get_yticklabels():
        label.set_color(tokens.ink)
        label.set_fontsize(tokens.body)
    axes.set_ylim(min(y, -_FEWEST_ROWS) + 0.35, 0.75)
    axes.set_xlim(*_limits(picture))


def table_of(picture: YieldPicture) -> list[Sequence[object]]:
    """The numbers behind the chart, headings first."""
    rows: list[Sequence[object]] = [("what", "dried_pct_of_prepared", "low80", "high80")]
    rows += [(w.name, w.value, w.low, w.high) for w in picture.ways]
    rows += [(d.label, d.value, None, None) for d in picture.dots]
    return rows


def in_words(picture: YieldPicture) -> str:
    """The chart as a sentence, for a screen reader."""
    ways = ((way.name, way.value, way.low, way.high) for way in picture.ways)
    return charts.yields_sentence(picture.food, ways, picture.dots[-1].value if picture.dots else None)


def _bar(axes: Axes, tokens: Tokens, i: int, way: Way, y: float) -> None:
    colour = tokens.series[i % len(tokens.series)].colour
    label = charts.percent(way.value)
    if way.low is not None and way.high is not None:
        axes.barh(
            y,
            way.high - way.low,
            2 * _HALF,
            left=way.low,
            facecolor=tokens.surface,
            edgecolor=colour,
            hatch=BARS[i % len(BARS)],
            linewidth=1.4,
            zorder=2,
        )
        label += f"   ({charts.span(way.low, way.high)})"
    reach = _HALF + 0.06
    axes.plot([way.value] * 2, [y - reach, y + reach], color=colour, linewidth=3.5, solid_capstyle="butt", zorder=3)
    axes.annotate(
        label,
        (way.value, y + reach),
        xytext=(0, 3),
        textcoords="offset points",
        ha="center",
        va="bottom",
        color=tokens.ink,
        fontsize=tokens.small,
    )


def _dots(axes: Axes, tokens: Tokens, dots: Sequence[Dot], y: float) -> None:
    shown = list(dots)
    if len(shown) > _MOST_DOTS:
        step = len(shown) / _MOST_DOTS
        shown = [shown[int(k * step)] for k in range(_MOST_DOTS - 1)] + [shown[-1]]
    n = len(shown)
    heights = [y + _DOTS_ROOM * ((k + 0.5) / n - 0.5) for k in range(n)]
    for same in (True, False):
        chosen = [k for k in range(n) if shown[k].same is same]
        axes.plot(
            [shown[k].value for k in chosen],
            [heights[k] for k in chosen],
            linestyle="none",
            marker="o" if same else "x",
            markersize=6 if n <= 60 else 3.5,
            markerfacecolor=tokens.series[1].colour if same else "none",
            markeredgecolor=tokens.series[1].colour,
            alpha=1.0 if n <= 60 else 0.6,
            zorder=3,
        )
    last = shown[-1]
    axes.plot(
        [last.value],
        [heights[-1]],
        linestyle="none",
        marker="o",
        markersize=13,
        markerfacecolor="none",
        markeredgecolor=tokens.ink,
        markeredgewidth=1.6,
        zorder=4,
    )
    axes.annotate(
        charts.last(last.value),
        (last.value, heights[-1]),
        xytext=(11, 0),
        textcoords="offset points",
        ha="left",
        va="center",
        color=tokens.ink,
        fontsize=tokens.small,
        bbox={"facecolor": tokens.surface, "edgecolor": "none", "alpha": 0.85, "pad": 1.0},
        zorder=5,
    )
    if any(not d.same for d in shown):
        axes.annotate(
            charts.OTHER_FORM,
            (1.0, 0.0),
            xycoords="axes fraction",
            xytext=(0, 4),
            textcoords="offset points",
            ha="right",
            va="bottom",
            color=tokens.muted,
            fontsize=tokens.small,
        )


def _limits(picture: YieldPicture) -> tuple[float, float]:
    ends = [v for w in picture.ways for v in (w.value, w.low, w.high) if v is not None]
    ends += [d.value for d in picture.dots]
    low, high = min(ends), max(ends)
    room = 0.18 * (high - low) or 0.2 * high
    return max(low - room, 0.0), max(min(high + room, 100.0), high)
