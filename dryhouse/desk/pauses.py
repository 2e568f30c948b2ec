"""Waiting until nobody types: for what takes longer than a key may wait, and can wait itself."""

from __future__ import annotations

from collections.abc import Callable
from time import monotonic
from typing import Generic, TypeVar

from PySide6.QtCore import QCoreApplication, QEvent, QObject, QTimer

T = TypeVar("T")

_LOOK_MS = 50


class Keys(QObject):
    """Knows when a key was last pressed anywhere in the program, from `listen` to `end`."""

    def __init__(self, parent: QObject) -> None:
        super().__init__(parent)
        self._last = 0.0

    def listen(self) -> None:
        """Begin: what was pressed before is not known."""
        self._last = monotonic()
        _application().installEventFilter(self)

    def end(self) -> None:
        """Listen no more."""
        _application().removeEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() == QEvent.Type.KeyPress:
            self._last = monotonic()
        return False

    def rest_for(self, seconds: float) -> bool:
        """Whether none was pressed for so long."""
        return monotonic() - self._last >= seconds


class InAPause(QObject, Generic[T]):
    """Hands on what came, all of it at once, as soon as no key has been pressed for so many seconds."""

    def __init__(self, parent: QObject, act: Callable[[list[T]], object], seconds: float) -> None:
        super().__init__(parent)
        self._act, self._seconds = act, seconds
        self._came: list[T] = []
        self._keys = Keys(self)
        self._timer = QTimer(self, interval=_LOOK_MS)
        self._timer.timeout.connect(self._look)

    def want(self, what: T) -> None:
        """Have this handed on."""
        self._came.append(what)
        if not self._timer.isActive():
            self._keys.listen()
            self._timer.start()

    def _look(self) -> None:
        if self._keys.rest_for(self._seconds):
            self._timer.stop()
            self._keys.end()
            came, self._came = self._came, []
            self._act(came)


def _application() -> QCoreApplication:
    """The application, which is there as long as anything is typed."""
    running = QCoreApplication.instance()
    assert running is not None
    return running
