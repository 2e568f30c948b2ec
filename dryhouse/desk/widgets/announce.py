"""Telling a screen reader what came up by itself: a message, a stop, an answer that changed while one typed."""

from __future__ import annotations

from PySide6.QtCore import QObject, QTimer
from PySide6.QtGui import QAccessible, QAccessibleAnnouncementEvent
from PySide6.QtWidgets import QWidget

PAUSE_MS = 900
"""An answer is told once the typing has paused so long."""


def announce(widget: QWidget, text: str) -> None:
    """Say this now, where the widget can be seen."""
    if text and widget.isVisible():
        QAccessible.updateAccessibility(QAccessibleAnnouncementEvent(widget, text))


class Speaker(QObject):
    """Says the latest answer of a widget once it has stopped changing, and none twice."""

    def __init__(self, widget: QWidget) -> None:
        super().__init__(widget)
        self._widget, self._latest, self._told = widget, "", ""
        self._pause = QTimer(self, singleShot=True, interval=PAUSE_MS)
        self._pause.timeout.connect(self.tell)

    def answer(self, text: str) -> None:
        """The answer is this now."""
        self._latest = text
        self._pause.start()

    def tell(self) -> None:
        """Say it, if it is another than was said last."""
        self._pause.stop()
        if self._latest != self._told:
            self._told = self._latest
            announce(self._widget, self._latest)
