"""What the first chart of each kind costs once, done before anybody waits for it.

The first axes, the first line with marks, the first hatched bar and the first date each make matplotlib read and
work out what it keeps from then on. A small picture that nobody sees has one of each.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from matplotlib.figure import Figure

from dryhouse.plots.axes import frame
from dryhouse.plots.curve import CurveChart
from dryhouse.plots.day import draw_day
from dryhouse.plots.plain_scales import PlainScales
from dryhouse.plots.shelf import draw_shelf
from dryhouse.plots.shelf_picture import ShelfBar, ShelfPicture
from dryhouse.plots.tokens import LIGHT, Tokens
from dryhouse.plots.words_canvas import WordsCanvas
from dryhouse.science.statuses import Status

__all__ = ["CurveChart", "draw_day", "first_strokes"]

_INCHES = (8.0, 5.0)


def first_strokes(tokens: Tokens, dots: float) -> Iterator[None]:
    """Draw a little at each step, in these tokens and at so many dots an inch."""
    day = _figure(tokens, dots)
    for place in range(2):
        axes = day.add_axes((0.2, 0.1 + 0.45 * place, 0.7, 0.4))
        frame(axes, tokens, "h", "g")
        PlainScales(axes, tokens, below=True)
        yield
    series = tokens.series[0]
    axes.plot([0.0, 1.0], [0.0, 100.0], color=series.colour, marker=series.marker, markeredgecolor=tokens.surface)
    axes.text(0.5, 50.0, "h", rotation=90, fontsize=tokens.small, color=tokens.muted)
    yield
    day.canvas.draw()
    yield
    shelf = _figure(tokens, dots)
    first, last = date(2026, 1, 1), date(2026, 12, 31)
    bars = tuple(ShelfBar(str(status), first, last, status) for status in (Status.KEEPING, Status.PAST))
    draw_shelf(shelf, ShelfPicture(bars, last, last), tokens)
    yield
    shelf.canvas.draw()


def _figure(tokens: Tokens, dots: float) -> Figure:
    larger = tokens.small / LIGHT.small
    made = Figure(figsize=(larger * _INCHES[0], larger * _INCHES[1]), dpi=dots, facecolor=tokens.surface)
    WordsCanvas(made)
    return made
