"""The grid, the marks, the numbers and the labels of one part of a chart, drawn as one thing.

matplotlib keeps five things to draw for each number of an axis; where several parts stand one below the other,
making them takes longer than all the rest of the picture.
"""

from __future__ import annotations

from typing import Any

import numpy as np
from matplotlib.artist import Artist
from matplotlib.axes import Axes
from matplotlib.axis import Axis
from matplotlib.font_manager import FontProperties
from matplotlib.path import Path
from matplotlib.transforms import IdentityTransform

from dryhouse.plots.tokens import Tokens

_MARK, _PAD, _LINE = 4.0, 3.5, 0.8
"""How long a mark is, how far from it its number stands, and how thick the lines are, in points."""

Place = tuple[float, float]
Stroke = tuple[Place, Place]


class PlainScales(Artist):
    """Stands for both axes of what it is put on; `below` says whether there are numbers below too."""

    def __init__(self, axes: Axes, tokens: Tokens, *, below: bool) -> None:
        super().__init__()
        self._tokens, self._below = tokens, below
        self._font = FontProperties(size=tokens.small)
        self.set_zorder(0.5)
        axes.ticklabel_format(style="plain", useOffset=False)
        axes.xaxis.set_visible(False)
        axes.yaxis.set_visible(False)
        axes.add_artist(self)

    def draw(self, renderer: Any) -> None:
        axes = self.axes
        assert axes is not None, "scales stand on axes"
        box, tokens = axes.bbox, self._tokens
        mark, pad = renderer.points_to_pixels(_MARK), renderer.points_to_pixels(_PAD)
        across, up = _numbers(axes.xaxis), _numbers(axes.yaxis)
        xs = axes.transData.transform([(x, 0.0) for x, _ in across])[:, 0] if across else ()
        ys = axes.transData.transform([(0.0, y) for y, _ in up])[:, 1] if up else ()
        grid = [((x, box.y0), (x, box.y1)) for x in xs] + [((box.x0, y), (box.x1, y)) for y in ys]
        marks = [((x, box.y0 - mark), (x, box.y0)) for x in xs] + [((box.x0 - mark, y), (box.x0, y)) for y in ys]
        _strokes(renderer, grid, tokens.grid)
        _strokes(renderer, marks, tokens.muted)
        _, high, deep = renderer.get_text_width_height_descent("lp", self._font, False)
        for y, (_, words) in zip(ys, up, strict=True):
            self._write(renderer, words, box.x0 - mark - pad, y - high / 2 + deep, 1.0)
        for x, (_, words) in zip(xs, across if self._below else (), strict=self._below):
            self._write(renderer, words, x, box.y0 - mark - pad - high + deep, 0.5)
        for axis in (axes.xaxis, axes.yaxis):
            axis.label.draw(renderer)
        self.stale = False

    def _write(self, renderer: Any, words: str, x: float, foot: float, share: float) -> None:
        """A number on its line; this share of it lies left of `x`."""
        wide, _, _ = renderer.get_text_width_height_descent(words, self._font, False)
        ink = renderer.new_gc()
        ink.set_foreground(self._tokens.muted)
        y = renderer.get_canvas_width_height()[1] - foot if renderer.flipy() else foot
        renderer.draw_text(ink, x - share * wide, y, words, self._font, 0.0)
        ink.restore()


def _numbers(axis: Axis) -> list[tuple[float, str]]:
    """Where in view numbers stand on an axis, and what they say."""
    low, high = sorted(axis.get_view_interval())
    slack = 1e-9 * (high - low)
    at = axis.get_majorticklocs()
    told = axis.get_major_formatter().format_ticks(at.tolist())
    return [(float(x), words) for x, words in zip(at, told, strict=True) if low - slack <= x <= high + slack]


def _strokes(renderer: Any, strokes: list[Stroke], colour: str) -> None:
    if not strokes:
        return
    lines = Path(np.asarray(strokes).reshape(-1, 2), [Path.MOVETO, Path.LINETO] * len(strokes))
    ink = renderer.new_gc()
    ink.set_foreground(colour)
    ink.set_linewidth(_LINE)
    ink.set_snap(True)
    renderer.draw_path(ink, lines, IdentityTransform())
    ink.restore()
