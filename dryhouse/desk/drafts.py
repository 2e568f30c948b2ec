"""Keeps what is typed while it is typed, so that neither a kill nor a close loses it."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import QObject, QTimer

from dryhouse.desk.draft_book import DraftBook

_EVERY_MS = 500
Look = Callable[[], object]


class Drafts(QObject):
    """The book of one sitting, and the forms that are looked at twice a second for something new in them."""

    def __init__(self, journal: Path, parent: QObject) -> None:
        super().__init__(parent)
        self.book = DraftBook(journal)
        self._looks: list[Look] = []
        self._timer = QTimer(self, interval=_EVERY_MS)
        self._timer.timeout.connect(self.keep)

    def watch(self, form: QObject, look: Look) -> None:
        """From now on `look` is asked whether something new stands in a form, as long as it lives."""
        self._looks.append(look)
        form.destroyed.connect(lambda: self._forget(look))
        self._timer.start()

    def _forget(self, look: Look) -> None:
        if look in self._looks:
            self._looks.remove(look)

    def keep(self) -> None:
        """Note and write what stands in every form now. One that cannot be read takes no other with it."""
        failed: Exception | None = None
        for look in self._looks:
            try:
                look()
            except Exception as problem:
                failed = failed or problem
        self.book.save()
        if failed is not None:
            raise failed

    def close(self) -> None:
        """The sitting ends: keep what stands there, and look no more."""
        try:
            self.keep()
        finally:
            self._timer.stop()
            self._looks.clear()
