"""Opening a journal in the window, and what the window shows when it does not open."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QStandardPaths, Signal
from PySide6.QtWidgets import QFileDialog

from dryhouse.desk.journal_access import JournalAccess, Opener
from dryhouse.desk.menus import fill_menus
from dryhouse.desk.read_ahead import read_ahead_later
from dryhouse.desk.session import Session
from dryhouse.desk.widgets.empty_state import EmptyState
from dryhouse.desk.window import DeskWindow
from dryhouse.kitchen.ports import BatchQuery
from dryhouse.science.errors import WorldProblem
from dryhouse.words.messages import problem_sentence

if TYPE_CHECKING:
    from dryhouse.desk.one_window import OneWindow
    from dryhouse.kitchen.kitchen import Kitchen

_FILES = "Journals (*.dryhouse);;All files (*)"


class Opening(QObject):
    """Opens journals in one window. `opened` fires when the places of a journal can be used."""

    opened = Signal()

    def __init__(self, window: DeskWindow, journals: JournalAccess | None = None) -> None:
        super().__init__(window)
        self.window, self.journals = window, journals
        self.session: Session | None = None
        self._plain: EmptyState | None = None
        self._answers: OneWindow | None = None
        window.closing.connect(self.close)
        if journals is not None:
            window.doors = self

    def answer_second_starts(self) -> None:
        """From now on a second start with the journal that is open here brings this window to the front."""
        from dryhouse.desk.one_window import OneWindow

        if self._answers is None:
            self._answers = OneWindow(self.window)
        self._answers.close()
        if self.session is not None:
            self._answers.answer_for(self._journals().path(self.session.kitchen))

    # --- opening ------------------------------------------------------------------------------------------

    def open(self, opener: Opener) -> bool:
        """Open a journal and show the last place. The one that was open is closed first, since both may be the
        same file; where the new one does not open, the old one is opened again."""
        back = self._way_back()
        self.close()
        try:
            kitchen = opener()
        except WorldProblem as problem:
            self._did_not_open(problem_sentence(problem), back)
            return False
        self._show(kitchen)
        return True

    def close(self) -> None:
        """Leave the open journal in order."""
        if self.session is not None:
            session, self.session = self.session, None
            if self._answers is not None:
                self._answers.close()
            self.window.detach()
            session.kitchen.journal.close()

    def open_own(self) -> None:
        """The journal the program was started with."""
        self.open(self._journals().own)

    def open_sample(self) -> None:
        """A copy of the sample journal."""
        self.open(self._journals().sample)

    def ask_open(self) -> None:
        """Ask which file, and open it."""
        path, _ = QFileDialog.getOpenFileName(self.window, "Open a journal", _documents(), _FILES)
        if path:
            self.open(lambda: self._journals().file(Path(path)))

    def back_up(self) -> None:
        """Copy the open journal to its folder of backups."""
        session = self.session
        where = session.attempt(self._journals().back_up, session.kitchen) if session is not None else None
        if session is not None and where is not None:
            session.say(f"Backed up to {where}", "done")

    def ask_restore(self) -> None:
        """Ask which backup, and put it in the place of the journal that is open (or did not open)."""
        path, _ = QFileDialog.getOpenFileName(self.window, "Restore a backup", _documents(), _FILES)
        if path:
            self.restore(Path(path))

    def restore(self, backup: Path) -> None:
        """Put a backup in the journal's place; the former journal is kept, and the message says where."""
        journals = self._journals()
        into = None if self.session is None else journals.path(self.session.kitchen)
        kept: list[Path | None] = []

        def restored() -> Kitchen:
            kept.append(journals.restore(backup, into))
            return journals.own() if into is None else journals.file(into)

        if self.open(restored) and self.session is not None:
            former = f" The former journal is kept as {kept[0]}" if kept[0] else ""
            self.session.say(f"Restored {backup.name}.{former}", "done")

    def _journals(self) -> JournalAccess:
        """The journals there are. Only a window that has them offers what asks for them."""
        assert self.journals is not None, "this window opens no journals"
        return self.journals

    def _way_back(self) -> Opener | None:
        if self.session is None or self.journals is None:
            return None
        journals, path = self.journals, self.journals.path(self.session.kitchen)
        return lambda: journals.file(path)

    def _show(self, kitchen: Kitchen) -> None:
        self.session = Session(kitchen, self.window.theme)
        self._drop_plain()
        self.window.attach(self.session, self.journals.name(kitchen) if self.journals is not None else "")
        self.window.menus = fill_menus(self.window, self.session)
        if self.journals is not None and not len(kitchen.journal.batch_ids(BatchQuery())):
            self._welcome()
        else:
            self.window.go_last()
        read_ahead_later(self.session, self.window.specs)
        self.opened.emit()

    # --- what is shown in place of the places ---------------------------------------------------------------

    def _welcome(self) -> None:
        self._show_plain(
            "journal",
            "Welcome to your drying journal",
            "Write down a tray batch when it comes off the dryer, and see what it tells you: how dry it is, how "
            "long it keeps, and the water that brings it back. Look around in the sample journal first, or start "
            "your own.",
            ("Look at the sample journal", self.open_sample),
            ("Start my own journal", self._start),
        )

    def _start(self) -> None:
        self._drop_plain()
        self.window.go("journal")

    def _did_not_open(self, sentence: str, back: Opener | None) -> None:
        if back is not None and self.open(back) and self.session is not None:
            self.session.say(sentence, "world")
            return
        acts: list[tuple[str, Callable[[], object]]] = []
        if self.journals is not None:
            acts = [
                ("Open another journal…", self.ask_open),
                ("Restore a backup…", self.ask_restore),
                ("Look at the sample journal", self.open_sample),
            ]
        self._show_plain("cross", "This journal did not open", sentence, *acts)
        self.opened.emit()

    def _show_plain(
        self, picture: str, heading: str, sentence: str, *acts: tuple[str, Callable[[], object]]
    ) -> None:
        self._drop_plain()
        self._plain = EmptyState(self.window.theme, picture, heading, sentence, *acts)
        self.window.show_plain(self._plain)
        if self._plain.buttons:
            self._plain.buttons[0].setFocus()

    def _drop_plain(self) -> None:
        if self._plain is not None:
            self.window.stack.removeWidget(self._plain)
            self._plain.deleteLater()
            self._plain = None


def _documents() -> str:
    return QStandardPaths.writableLocation(QStandardPaths.StandardLocation.DocumentsLocation)
