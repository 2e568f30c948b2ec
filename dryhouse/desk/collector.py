"""Python's collector of cycles, kept to the window's thread.

A cycle may hold widgets, and Python collects on whatever thread happens to make the next object: a widget let go
off the window's thread ends the program without a word. So the collector is off by itself, and a timer of the
window does its work in the pauses.
"""

from __future__ import annotations

import gc

from PySide6.QtCore import QObject, QTimer

_EVERY_MS = 500


class Collector(QObject):
    """Collects when Python's own thresholds are reached. What was made before it is left out for good."""

    def __init__(self, parent: QObject) -> None:
        super().__init__(parent)
        gc.disable()
        gc.freeze()
        self._timer = QTimer(self, interval=_EVERY_MS)
        self._timer.timeout.connect(self.look)
        self._timer.start()

    def look(self) -> None:
        """Collect the oldest generation that is due, and with it the younger ones."""
        counted = zip(gc.get_count(), gc.get_threshold(), strict=True)
        due = [generation for generation, (count, threshold) in enumerate(counted) if count > threshold]
        if due:
            gc.collect(due[-1])
