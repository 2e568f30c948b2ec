"""What the window shows where a journal's file failed: why, what can be done, what a check found."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Protocol

from PySide6.QtCore import QObject
from PySide6.QtWidgets import QFileDialog

from dryhouse.desk.background import read_beside
from dryhouse.desk.widgets.empty_state import EmptyState
from dryhouse.science.display import Style, counted
from dryhouse.science.errors import WorldProblem
from dryhouse.words.messages import message_words, problem_sentence

if TYPE_CHECKING:
    from dryhouse.desk.journal_access import JournalAccess
    from dryhouse.desk.restore_page import RestorePage
    from dryhouse.desk.session import Session
    from dryhouse.desk.widgets.found_page import FoundPage
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
        self._suspected: set[Path] = set()
        self._said: set[tuple[Path, str]] = set()
        """What was shown already: a failed file has its page once, and every act says it again in the bar."""

    def did_not_open(self, sentence: str) -> None:
        """No journal is open: why, and the ways on."""
        acts = self._ways_on()
        if acts:
            acts.append(("Look at the sample journal", self.opening.open_sample))
        theme = self.opening.window.theme
        self.opening.show_page(EmptyState(theme, "cross", "Could not open this journal", sentence, *acts))

    def emptied(self) -> None:
        """A journal with nothing in it, and backups beside it: it was lost, or half copied, or all was deleted."""
        said = (
            f"There is nothing in {self.opening.here()}, and there are backups of it. Restore one, or start over."
        )
        acts = ("Restore a backup…", self.ask_restore), ("Start an empty journal", self.opening.go_back)
        theme = self.opening.window.theme
        self.opening.show_page(EmptyState(theme, "journal", "This journal is empty", said, *acts))

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
        self.opening.show_page(EmptyState(theme, "cross", "Problem with this journal's file", sentence, *acts))

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
        from dryhouse.desk.restore_page import RestorePage

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

    def look_for_the_cause(self) -> None:
        """After something went wrong: show what a check finds. A journal is checked once for that, and nothing is
        said where it has no part in it."""
        if self.opening.journals is not None and self.opening.here() not in self._suspected:
            self._suspected.add(self.opening.here())
            self.check(quietly=True)

    def check(self, *, quietly: bool = False) -> None:
        """Look the whole journal through, beside the window, and say what was found."""
        journals, path = self.opening.journals, self.opening.here()
        assert journals is not None, "this window opens no journals"

        def look() -> tuple[list[str], bool]:
            try:
                found = list(journals.faults(path))
                return [message_words(each, Style()) for each in found], journals.mendable(found)
            except WorldProblem as problem:
                return [problem_sentence(problem)], False

        if not quietly:
            self._wait("Checking the whole journal…", path)
        read_beside(self, look, lambda found: self._checked(path, *found, quietly=quietly), "check the journal")

    def _wait(self, sentence: str, path: Path) -> None:
        if self.opening.session is not None:
            self.opening.session.say(sentence)
        else:
            theme = self.opening.window.theme
            self.opening.show_page(EmptyState(theme, "journal", sentence, str(path)))

    def _checked(self, path: Path, found: list[str], mendable: bool, *, quietly: bool = False) -> None:
        if path != self.opening.here() or (quietly and not found):
            return
        session = self.opening.session
        if session is not None and not found:
            session.say("No damage found in the file, its tables or any record.", "done")
        elif found:
            acts: Acts = [("&Repair what can be repaired", lambda: self.mend(path))] if mendable else []
            acts += [("Restore a backup…", self.ask_restore), self._back()]
            heading = f"The check found {counted(len(found), 'fault')}"
            self._tell(heading, path, found, *acts)
        else:
            theme = self.opening.window.theme
            self.opening.show_page(EmptyState(theme, "journal", "No damage found", str(path), self._back()))

    def _back(self) -> tuple[str, Callable[[], object]]:
        if self.opening.session is not None:
            return "Back to the journal", self.opening.go_back
        return "Open it again", self.opening.reopen

    def mend(self, path: Path) -> None:
        """Mend what can be mended, beside the window, and say what was done."""
        journals = self.opening.journals
        assert journals is not None, "this window opens no journals"

        def put_right() -> tuple[str, list[str]]:
            try:
                return "What was repaired", [message_words(each, Style()) for each in journals.mend(path)]
            except WorldProblem as problem:
                return "The journal was not repaired", [problem_sentence(problem)]

        self._wait("Repairing…", path)
        read_beside(self, put_right, lambda done: self._mended(path, *done), "mend the journal")

    def _mended(self, path: Path, heading: str, done: list[str]) -> None:
        if path == self.opening.here():
            acts = self._back(), ("Check it again", self.check), ("Restore a backup…", self.ask_restore)
            self._tell(heading, path, done, *acts)

    def _tell(self, heading: str, path: Path, lines: list[str], *acts: tuple[str, Callable[[], object]]) -> None:
        from dryhouse.desk.widgets.found_page import FoundPage

        self.opening.show_page(FoundPage(heading, str(path), lines, *acts))
