"""Journals as files: a new one, one by its path, and a copy put where the person says."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QObject, QStandardPaths
from PySide6.QtWidgets import QFileDialog

from dryhouse.desk.drops import JOURNAL

if TYPE_CHECKING:
    from dryhouse.desk.journal_access import JournalAccess, Opener
    from dryhouse.desk.window import DeskWindow

_FILES = f"Journals (*{JOURNAL})"


class JournalFiles(QObject):
    """What the File menu does with files. `open_with` opens a journal in the window."""

    def __init__(self, window: DeskWindow, journals: JournalAccess, open_with: Callable[[Opener], Any]) -> None:
        super().__init__(window)
        self.window, self.journals, self._open = window, journals, open_with

    def open_file(self, path: Path, *_told: object) -> None:
        """The journal in this file."""
        self._open(lambda: self.journals.file(path))

    def ask_new(self) -> None:
        """Ask where, and begin an empty journal there."""
        path = self._ask("A new journal", "journal")
        if path is None:
            return
        if path.exists():
            self._say(f"{path.name} is there already. Give the new journal another name.")
            return
        self.open_file(path)

    def ask_copy(self) -> None:
        """Ask where to, and put a whole copy of the open journal there; the journal itself stays open."""
        session = self.window.session
        path = self._ask("Save a copy", "copy") if session is not None else None
        if session is None or path is None:
            return
        if path.resolve() == self.journals.path(session.kitchen).resolve():
            self._say("That is the journal itself. Give the copy another name.")
            return
        if session.attempt(self.journals.copy, session.kitchen, path) is not None:
            session.say(f"Saved a copy to {path}", "done")

    def _ask(self, title: str, named: str) -> Path | None:
        folder = QStandardPaths.writableLocation(QStandardPaths.StandardLocation.DocumentsLocation)
        path, _ = QFileDialog.getSaveFileName(self.window, title, f"{folder}/{named}{JOURNAL}", _FILES)
        if not path:
            return None
        return Path(path) if path.endswith(JOURNAL) else Path(path + JOURNAL)

    def _say(self, text: str) -> None:
        if self.window.session is not None:
            self.window.session.say(text, "input")
