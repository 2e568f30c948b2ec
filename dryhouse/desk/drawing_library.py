"""Getting matplotlib ready for the first chart, and then for the first of other kinds, in the pauses of the window.

Reading it takes a third of a second, and on the first start of all it looks through every font of the machine,
which may take many. Neither may be done in a thread (see `background`). So it is read part by part while nobody
types, and the fonts are gone through by a process of its own, which leaves them in a file.
"""

from __future__ import annotations

import importlib
import sys
from collections.abc import Iterator
from pathlib import Path
from time import monotonic

from PySide6.QtCore import QObject, QProcess, QTimer, Signal

from dryhouse.desk.beside import LIST_FONTS, beside
from dryhouse.desk.pauses import Keys
from dryhouse.plots.tokens import LIGHT, Tokens

PARTS = (
    "PIL.Image", "pyparsing", "dateutil.rrule", "matplotlib", "matplotlib.font_manager", "matplotlib.mathtext",
    "matplotlib.text", "matplotlib.dates", "matplotlib.collections", "matplotlib.image", "matplotlib.contour",
    "matplotlib.legend", "matplotlib.tri", "matplotlib.axes", "matplotlib.projections.polar",
    "matplotlib.projections", "matplotlib.figure", "matplotlib.backends.backend_agg",
)  # fmt: skip
"""What a first chart imports, in an order in which no part takes long."""

_NEEDS_FONTS = "matplotlib.font_manager"
_STEP_MS, _AFTER_A_KEY_S = 10, 0.3
_DONE = object()
_FONTS_LOOK_MS, _LONGEST_S = 100, 120.0


def loaded() -> bool:
    """Whether a chart can be drawn at once."""
    return PARTS[-1] in sys.modules


class DrawingLibrary(QObject):
    """`ready` fires once, when charts can be drawn. What the first of other kinds costs is done after it, a little
    in each pause."""

    ready = Signal()

    def __init__(self, parent: QObject) -> None:
        super().__init__(parent)
        self._left = list(PARTS)
        self._keys = Keys(self)
        self._fonts_until = 0.0
        self._strokes: Iterator[None] | None = None
        self._timer = QTimer(self, interval=_STEP_MS)
        self._timer.timeout.connect(self._step)

    def begin(self, tokens: Tokens = LIGHT, dots: float = 100.0) -> None:
        """Begin, where that is still to be done; the tokens and the dots an inch that charts will be drawn in."""
        if not self._timer.isActive() and not loaded():
            self._look = tokens, dots
            self._keys.listen()
            self._timer.start()

    def _step(self) -> None:
        if not self._keys.rest_for(_AFTER_A_KEY_S) or self._fonts_awaited():
            return
        if self._left:
            importlib.import_module(self._left.pop(0))
            if not self._left:
                self.ready.emit()
        elif self._strokes is None:
            from dryhouse.plots.first_strokes import first_strokes

            self._strokes = first_strokes(*self._look)
        elif next(self._strokes, _DONE) is _DONE:
            self._timer.stop()
            self._keys.end()

    def _fonts_awaited(self) -> bool:
        """Whether the next part needs the list of fonts and it is not there yet; the list is asked for once."""
        if not self._left or self._left[0] != _NEEDS_FONTS or _fonts_listed():
            self._timer.setInterval(_STEP_MS)
            return False
        if not self._fonts_until:
            self._fonts_until = monotonic() + _LONGEST_S
            QProcess.startDetached(*beside(LIST_FONTS))
            self._timer.setInterval(_FONTS_LOOK_MS)
        return monotonic() < self._fonts_until


def _fonts_listed() -> bool:
    """Whether the list of fonts is there, made by the matplotlib that is installed."""
    import matplotlib

    made_with = Path(matplotlib.get_data_path()).stat().st_mtime  # its modules are no files in a package
    lists = Path(matplotlib.get_cachedir()).glob("fontlist-v*.json")
    return any(found.stat().st_mtime > made_with for found in lists)


def drawing_library(session: QObject) -> DrawingLibrary:
    """The one of a session, made when first wanted."""
    return session.findChild(DrawingLibrary) or DrawingLibrary(session)
