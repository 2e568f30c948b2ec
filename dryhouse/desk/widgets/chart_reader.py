"""Reading a chart: the point under the pointer or next by the arrows, in words; nearer and farther, to and fro."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QPointF

from dryhouse.science.display import Style
from dryhouse.words.dates import weekday_clock

if TYPE_CHECKING:
    from matplotlib.figure import Figure

NEAR = 28.0
"""Pixels within which the pointer finds a point."""
STEP = 1.25
"""How much nearer one turn of the wheel goes."""


@dataclass(frozen=True, slots=True)
class ChartPoint:
    """A drawn point: where it is on the canvas, and what it says."""

    at: QPointF
    said: str


def points_of(figure: Figure, style: Style, ratio: float) -> list[ChartPoint]:
    """Every marked point in view, from left to right."""
    from matplotlib.dates import ConciseDateFormatter, num2date

    from_number: Any = num2date  # matplotlib gives it no types

    high, found = figure.bbox.height, list[ChartPoint]()
    for axes in figure.axes:
        dated = isinstance(axes.xaxis.get_major_formatter(), ConciseDateFormatter)
        x_name, y_name = axes.get_xlabel(), axes.get_ylabel()
        for line in axes.lines:
            if not line.get_visible() or line.get_marker() in (None, "None", "", " "):
                continue
            drawn: Any = line.get_xydata()
            for x, y in drawn:
                if not (axes.viewLim.x0 <= x <= axes.viewLim.x1):
                    continue
                px, py = axes.transData.transform((x, y))
                when = weekday_clock(from_number(x)) if dated else style.number(float(x), 2)
                told = f"{_named(x_name)}{when}; {_named(y_name)}{style.number(float(y), 2)}"
                found.append(ChartPoint(QPointF(px / ratio, (high - py) / ratio), told))
    return sorted(found, key=lambda point: point.at.x())


def _named(label: str) -> str:
    return f"{label}: " if label else ""


def nearest(points: list[ChartPoint], at: QPointF) -> int | None:
    """The point nearest to a place, where one is near enough."""
    best = min(range(len(points)), key=lambda n: _far(points[n].at, at), default=None)
    return best if best is not None and _far(points[best].at, at) <= NEAR else None


def _far(one: QPointF, other: QPointF) -> float:
    apart = one - other
    return float((apart.x() ** 2 + apart.y() ** 2) ** 0.5)


class Span:
    """The stretch of the bottom axis in view: all of it, or a part one has gone nearer to."""

    def __init__(self) -> None:
        self.whole: tuple[float, float] | None = None
        self.part: tuple[float, float] | None = None

    def apply(self, figure: Any) -> None:
        """Show the part on axes that were drawn whole."""
        if not figure.axes:
            return
        self.whole = tuple(figure.axes[0].get_xlim())
        if self.part is not None:
            for axes in figure.axes:
                axes.set_xlim(*self.part)

    def nearer(self, factor: float, share: float = 0.5) -> None:
        """So many times nearer, round the place that is this share of the way across; never beyond the whole."""
        if self.whole is None:
            return
        low, high = self.part or self.whole
        middle = low + share * (high - low)
        wide = (high - low) / factor
        self._take(middle - share * wide, middle + (1 - share) * wide)

    def move(self, share: float) -> None:
        """To the right by this share of what is in view; to the left where it is negative."""
        if self.part is not None:
            low, high = self.part
            by = share * (high - low)
            self._take(low + by, high + by)

    def reset(self) -> None:
        """All of it."""
        self.part = None

    def _take(self, low: float, high: float) -> None:
        assert self.whole is not None, "nothing is nearer than the whole before that was drawn"
        least, most = self.whole
        wide = min(high - low, most - least)
        low = min(max(low, least), most - wide)
        self.part = None if wide >= most - least else (low, low + wide)
