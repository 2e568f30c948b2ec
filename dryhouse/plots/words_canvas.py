"""A canvas for charts that remembers the words it has drawn.

Most of what a chart takes is its letters: matplotlib lays out and fills each of them in every drawing. Here a word
is drawn once, by matplotlib, and laid down again wherever it stands, in this chart and in the next ones.
"""

from __future__ import annotations

from functools import lru_cache
from math import ceil
from typing import TYPE_CHECKING, Any

import numpy as np
from matplotlib.backends import backend_agg
from matplotlib.colors import to_rgb
from matplotlib.font_manager import FontProperties

if TYPE_CHECKING:
    from matplotlib.figure import Figure

_MOST = 2048
"""So many words are remembered: some 4 MB."""
_ROOM = 3
"""Pixels round a word, for letters that reach beyond their box."""

Size = tuple[float, float, float]
Colour = tuple[float, float, float]
Pixels = np.ndarray[Any, np.dtype[np.uint8]]


_Agg: Any = backend_agg.RendererAgg  # matplotlib gives its renderers no types


class WordsCanvas(backend_agg.FigureCanvasAgg):
    """matplotlib's canvas, with words from memory."""

    figure: Figure

    def get_renderer(self) -> Any:
        """The renderer of this size, made anew only when the size changes."""
        wanted = int(self.figure.bbox.width), int(self.figure.bbox.height), self.figure.dpi
        if self._lastKey != wanted:
            self._lastKey = wanted
            self.renderer = _Renderer(*wanted)  # type: ignore[no-untyped-call]
        return self.renderer


class _Renderer(backend_agg.RendererAgg):
    """Draws as matplotlib does, but words that lie flat from memory and on whole pixels."""

    def draw_text(
        self, gc: Any, x: float, y: float, s: str, prop: Any, angle: float, ismath: Any = False, mtext: Any = None
    ) -> None:
        if ismath or angle or not gc.get_antialiased():
            super().draw_text(gc, x, y, s, prop, angle, ismath, mtext)  # type: ignore[no-untyped-call]
            return
        left, foot = x - _ROOM, round(self.height - y) - _ROOM
        for along, below, pixels in _drawn(s, prop.copy(), self.dpi, to_rgb(gc.get_rgb())):
            self.draw_image(gc, round(left + along), foot - below, pixels)

    def get_text_width_height_descent(self, s: str, prop: Any, ismath: Any) -> Size:
        if ismath:
            return super().get_text_width_height_descent(s, prop, ismath)  # type: ignore[no-any-return, no-untyped-call]
        return _measured(s, prop.copy(), self.dpi)


def _words(text: str) -> list[str]:
    """The words, and the spaces between them."""
    first, *others = text.split(" ")
    return [part for part in (first, *(p for word in others for p in (" ", word))) if part]


@lru_cache(_MOST)
def _measured(text: str, prop: FontProperties, dpi: float) -> Size:
    """How far words reach, how high they are, and how far they go below their line, in pixels."""
    wide, high, below = zip(*(_word_size(word, prop, dpi) for word in _words(text) or [" "]), strict=True)
    return sum(wide), max(h - d for h, d in zip(high, below, strict=True)) + max(below), max(below)


@lru_cache(_MOST)
def _word_size(word: str, prop: FontProperties, dpi: float) -> Size:
    told: Size = _Agg(1, 1, dpi).get_text_width_height_descent(word, prop, False)
    return told


@lru_cache(_MOST)
def _drawn(text: str, prop: FontProperties, dpi: float, colour: Colour) -> list[tuple[float, int, Pixels]]:
    """Each word: how far along its line it begins, how far its pixels go below the line, and the pixels."""
    placed, along = [], 0.0
    for word in _words(text):
        wide, high, below = _word_size(word, prop, dpi)
        if high:
            placed.append((along, ceil(below), _word_drawn(word, prop, dpi, colour)))
        along += wide
    return placed


@lru_cache(_MOST)
def _word_drawn(word: str, prop: FontProperties, dpi: float, colour: Colour) -> Pixels:
    """A word in its colour, the lowest row first, as matplotlib lays pictures down."""
    wide, high, below = _word_size(word, prop, dpi)
    foot = ceil(below) + _ROOM
    alone = _Agg(ceil(wide) + 2 * _ROOM, ceil(high - below) + foot + _ROOM, dpi)
    alone.draw_text(alone.new_gc(), _ROOM, alone.height - foot, word, prop, 0.0)
    pixels: Pixels = np.array(alone.buffer_rgba())[::-1]
    pixels[..., :3] = np.round(255 * np.asarray(colour)).astype(np.uint8)
    return np.ascontiguousarray(pixels)
