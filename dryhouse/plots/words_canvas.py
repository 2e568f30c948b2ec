"""A canvas for charts that remembers the words it has drawn.

Most of what a chart takes is its letters: matplotlib lays out and fills each of them in every drawing. Here a word
is drawn once, by matplotlib, and laid down again wherever it stands, in this chart and in the next ones.
"""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING, Any

import numpy as np
from matplotlib.backends import backend_agg
from matplotlib.colors import to_rgb
from matplotlib.font_manager import FontProperties

if TYPE_CHECKING:
    from matplotlib.figure import Figure

_MOST = 2048
"""So many words are remembered: some 4 MB."""

Size = tuple[float, float, float]
Colour = tuple[float, float, float]
Pixels = np.ndarray[Any, np.dtype[np.uint8]]


_Agg: Any = backend_agg.RendererAgg  # matplotlib gives its renderers no types
_flag: Any = backend_agg.get_hinting_flag


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

    def draw_text(  # noqa: PLR0913 - as matplotlib calls it
        self, gc: Any, x: float, y: float, s: str, prop: Any, angle: float, ismath: Any = False, mtext: Any = None
    ) -> None:
        if ismath or angle or not gc.get_antialiased():
            super().draw_text(gc, x, y, s, prop, angle, ismath, mtext)  # type: ignore[no-untyped-call]
            return
        foot, colour = round(self.height - y), to_rgb(gc.get_rgb())
        for along, below, pixels in _drawn(s, prop.copy(), self.dpi, colour):
            self.draw_image(gc, round(x + along), foot - below, pixels)

    def get_text_width_height_descent(self, s: str, prop: Any, ismath: Any) -> Size:
        if ismath:
            return super().get_text_width_height_descent(s, prop, ismath)  # type: ignore[no-any-return, no-untyped-call]
        return _measured(s, prop.copy(), self.dpi)


def set_ahead(text: str, prop: FontProperties, dpi: float, colour: str) -> None:
    """Remember words before they are drawn for the first time."""
    _measured(text, prop, dpi)
    _drawn(text, prop, dpi, to_rgb(colour))


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
    told: Size = _setter(dpi).get_text_width_height_descent(word, prop, False)
    return told


@lru_cache(4)
def _setter(dpi: float) -> Any:
    return _Agg(1, 1, dpi)


@lru_cache(_MOST)
def _drawn(text: str, prop: FontProperties, dpi: float, colour: Colour) -> list[tuple[float, int, Pixels]]:
    """Each word: how far along its line its pixels begin, how many rows of them lie below the line, the pixels."""
    placed, along, before = [], 0.0, _word_size(" ", prop, dpi)[0]
    for word in _words(text):
        if not word.isspace():
            below, shade = _word_drawn(word, prop, dpi)
            placed.append((along - before, below, _coloured(shade, colour)))
        along += _word_size(word, prop, dpi)[0]
    return placed


@lru_cache(_MOST)
def _word_drawn(word: str, prop: FontProperties, dpi: float) -> tuple[int, Pixels]:
    """How many rows of a word lie below its line, and how dark its pixels are, the lowest row first.

    It is laid out and filled in one go; matplotlib does each letter by itself, which takes four times as long. It
    stands behind a space, because letters are counted from the left edge of the first, seldom a whole pixel.
    """
    font = _setter(dpi)._prepare_font(prop)
    font.set_text(f" {word}", 0.0, flags=_flag())
    above = (font.get_width_height()[1] - font.get_descent()) // 64 + 1
    font.draw_glyphs_to_bitmap(antialiased=True)
    shade = np.asarray(font.get_image())
    return len(shade) - above, shade[::-1]


def _coloured(shade: Pixels, colour: Colour) -> Pixels:
    """As matplotlib lays pictures down: the colour, as far as a pixel is covered."""
    pixels = np.empty((*shade.shape, 4), np.uint8)
    pixels[..., :3] = np.round(255 * np.asarray(colour)).astype(np.uint8)
    pixels[..., 3] = shade
    return pixels
