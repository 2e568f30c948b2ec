"""Files dropped on the window: a journal is opened, an export imported, else the place that knows it takes it."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QEvent, QObject
from PySide6.QtGui import QDragEnterEvent, QDropEvent

if TYPE_CHECKING:
    from dryhouse.desk.window import DeskWindow

JOURNAL = ".dryhouse"
EXPORT = ".json"
_KNOWN = "A journal (.dryhouse), weighings (.csv), a meal (.meal.json) or an export (.json) can be dropped here."


class Drops(QObject):
    """Hears what is dragged onto a window."""

    def __init__(
        self, window: DeskWindow, open_journal: Callable[[Path], Any], bring_in: Callable[[Path], Any]
    ) -> None:
        super().__init__(window)
        self.window, self._open_journal, self._bring_in = window, open_journal, bring_in
        window.setAcceptDrops(True)
        window.installEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if isinstance(event, QDragEnterEvent) and _paths(event):
            event.acceptProposedAction()
            return True
        if isinstance(event, QDropEvent) and event.type() == QEvent.Type.Drop and (paths := _paths(event)):
            event.acceptProposedAction()
            self.take(paths[0])
            return True
        return False

    def take(self, path: Path) -> None:
        """Open a journal; let the place in view, then the others, take another file."""
        window = self.window
        if path.suffix == JOURNAL:
            self._open_journal(path)
            return
        for place in dict.fromkeys((window.here, *(spec.id for spec in window.specs))):
            view = window.view(place) if place else None
            if view is not None and view.takes(path):
                window.go(place)
                view.take_file(path)
                return
        if window.session is not None and path.suffix == EXPORT:
            self._bring_in(path)
        elif window.session is not None:
            window.session.say(f"{path.name} is no file for this window. {_KNOWN}", "input")


def _paths(event: QDropEvent) -> list[Path]:
    return [Path(url.toLocalFile()) for url in event.mimeData().urls() if url.isLocalFile()]
