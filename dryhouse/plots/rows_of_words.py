"""Many short words in one chart, drawn as one thing: a name or a remark for each row, however many there are."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any, NamedTuple

from matplotlib.artist import Artist
from matplotlib.axes import Axes
from matplotlib.colors import to_rgba
from matplotlib.font_manager import FontProperties
from matplotlib.path import Path
from matplotlib.transforms import Bbox, BboxTransformTo, IdentityTransform, Transform

_ROUND = 1.0
"""Pixels of ground round the words."""
_APART, _APART_LEFT = 5.0, 3.5
"""Points between the words and the place they stand at."""


class Said(NamedTuple):
    """Words beside a place."""

    x: float
    y: float
    text: str
    colour: str
    bold: bool = False


def font(size: float, bold: bool) -> FontProperties:
    """What such words are drawn in."""
    return FontProperties(size=size, weight="bold" if bold else "normal")


class RowsOfWords(Artist):
    """Words to the right of their places, or to the left, at their height. What is out of view is left out; with a
    `ground` no line of the chart runs through them."""

    def __init__(
        self,
        axes: Axes,
        said: Sequence[Said],
        size: float,
        transform: Transform,
        *,
        to_left: bool = False,
        ground: str = "",
    ) -> None:
        super().__init__()
        self._ground = ground
        self.set_zorder(3)
        self.said, self.to_left = tuple(said), to_left
        self._fonts = {bold: font(size, bold) for bold in (False, True)}
        self.set_transform(transform)
        axes.add_artist(self)

    def draw(self, renderer: Any) -> None:
        for said, box, foot in self.placed(renderer):
            lines = renderer.new_gc()
            if self._ground:
                behind = Path.unit_rectangle().transformed(BboxTransformTo(box.padded(_ROUND)))
                lines.set_linewidth(0.0)
                renderer.draw_path(lines, behind, IdentityTransform(), to_rgba(self._ground))
            lines.set_foreground(said.colour)
            y = renderer.get_canvas_width_height()[1] - foot if renderer.flipy() else foot
            renderer.draw_text(lines, box.x0, y, said.text, self._fonts[said.bold], 0.0)
            lines.restore()
        self.stale = False

    def placed(self, renderer: Any) -> Iterator[tuple[Said, Bbox, float]]:
        """What is in view, the box it takes in pixels, and the line it stands on."""
        if not self.said or self.axes is None:
            return
        view, apart = self.axes.bbox, renderer.points_to_pixels(_APART_LEFT if self.to_left else _APART)
        places = self.get_transform().transform([(said.x, said.y) for said in self.said])
        feet = {bold: _foot(renderer, letters) for bold, letters in self._fonts.items()}
        for said, (x, y) in zip(self.said, places.tolist(), strict=True):
            if not (view.x0 - 1 <= x <= view.x1 + 1 and view.y0 <= y <= view.y1):
                continue
            wide, high, below = renderer.get_text_width_height_descent(said.text, self._fonts[said.bold], False)
            left, foot = x - apart - wide if self.to_left else x + apart, y - feet[said.bold]
            yield said, Bbox.from_bounds(left, foot - below, wide, high), foot


def _foot(renderer: Any, letters: FontProperties) -> float:
    """How far below its middle a line of words stands."""
    _, high, below = renderer.get_text_width_height_descent("lp", letters, False)
    return float(high / 2 - below)
