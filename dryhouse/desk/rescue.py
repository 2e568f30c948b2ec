"""What the window shows where a journal's file failed: why, what can be done, what a check found."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Protocol

from PySide6.QtCore import QObject
from PySide6.QtWidgets import QFileDialog

from dryhouse.desk.background import read_beside
from dryhouse.desk.restore_page import RestorePage
from dryhouse.desk.widgets.empty_state import EmptyState
from dryhouse.desk.widgets.found_page import FoundPage
from dryhouse.science.display import Style, counted
from dryhouse.science.errors import WorldProblem
from dryhouse.words.messages import message_words, problem_sentence

if TYPE_CHECKING:
    from dryhouse.desk.journal_access import JournalAccess
    from dryhouse.desk.session import Session
    from dryhouse.desk.window import DeskWindow

Acts = list[tuple[str, Callable[[], object]]]


class OpensJournals(Protocol):
    """What is asked of who opens journals in a window."""

    window: DeskWindow
    journals: JournalAccess | None
    session: Session | None

    def here(self) -> Path:
        """The file that is open, or the one that did not open."""

    def ask_open(self) -> None:
        """Ask which file, and open it."""

    def open_sample(self) -> None:
        """The sample journal."""

    def reopen(self) -> None:
        """The same file anew."""

    def go_back(self) -> None:
        """Back to the places."""

    def restore(self, backup: Path) -> None:
        """Put a backup in the journal's place."""

    def show_page(self, page: EmptyState | FoundPage | RestorePage) -> None:
        """Show a page in place of the places."""


class Rescue(QObject):
    """The pages of a file that failed, for the one who opens journals in a window."""

    def __init__(self, opening: OpensJournals, parent: QObject) -> None:
        super().__init__(parent)
        self.opening = opening
        self._said: set[tuple[Path, str]] = set()
        """What was shown already: a failed file has its page once, and every act says it again in the bar."""

    def did_not_open(self, sentence: str) -> None:
        """No journal is open: why, and the ways on."""
        acts = self._ways_on()
        if acts:
            acts.append(("Look at the sample journal", self.opening.open_sample))
        theme = self.opening.window.theme
        self.opening.show_page(EmptyState(theme, "cross", "Could not open this journal", sentence, *acts))

    def file_failed(self, sentence: str) -> None:
        """The file that is open failed: what can be done stands in place of the place she was in, which stays as it
        was, with all that is typed there."""
        acts, here = self._ways_on(), self.opening.here() if self.opening.journals is not None else Path()
        if (here, sentence) in self._said:
            return
        self._said.add((here, sentence))
        if acts:
            acts.insert(0, ("Open it again", self.opening.reopen))
        acts.append(("Go back", self.opening.go_back))
        theme = self.opening.window.theme
        self.opening.show_page(EmptyState(theme, "cross", "This journal's file has failed", sentence, *acts))

    def _ways_on(self) -> Acts:
        if self.opening.journals is None:
            return []
        return [
            ("Open another journal…", self.opening.ask_open),
            ("Restore a backup…", self.ask_restore),
            ("Check the journal", self.check),
        ]

    def ask_restore(self) -> None:
        """Show the backups of the journal that is open (or did not open), to put one in its place."""
        journals, session = self.opening.journals, self.opening.session
        assert journals is not None, "this window opens no journals"
        leave = self.opening.go_back if session is not None else self.opening.reopen
        self.opening.show_page(
            RestorePage(journals, self.opening.here(), self.opening.restore, self.ask_restore_file, leave)
        )

    def ask_restore_file(self) -> None:
        """Ask for any file, and put it in the place of the journal."""
        path, _ = QFileDialog.getOpenFileName(self.opening.window, "Restore a backup", "", "Journals (*.dryhouse)")
        if path:
            self.opening.restore(Path(path))

    def check(self) -> None:
        """Look the whole journal through, beside the window, and say what was found."""
        journals, path, session = self.opening.journals, self.opening.here(), self.opening.session
        assert journals is not None, "this window opens no journals"

        def look() -> list[str]:
            try:
                return [message_words(found, Style()) for found in journals.faults(path)]
            except WorldProblem as problem:
                return [problem_sentence(problem)]

        if session is not None:
            session.say("Looking through the whole journal…")
        else:
            theme = self.opening.window.theme
            self.opening.show_page(EmptyState(theme, "journal", "Looking through the whole journal…", str(path)))
        read_beside(self, look, lambda found: self._checked(path, found), "check the journal")

    def _checked(self, path: Path, found: list[str]) -> None:
        if path != self.opening.here():
            return
        session = self.opening.session
        if session is not None and not found:
            session.say("The journal is whole: its file, its tables and every record.", "done")
            return
        back = ("Back to the journal", self.opening.go_back) if session else ("Open it again", self.opening.reopen)
        if found:
            heading, restore = (
                f"The check found {counted(len(found), 'fault')}",
                ("Restore a backup…", self.ask_restore),
            )
            self.opening.show_page(FoundPage(heading, str(path), found, restore, back))
        else:
            theme = self.opening.window.theme
            self.opening.show_page(EmptyState(theme, "journal", "The journal is whole", str(path), back))
