"""Opening a journal in the window, and what the window shows when it does not open."""

from __future__ import annotations

from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QLocale, QObject, QStandardPaths, Signal
from PySide6.QtWidgets import QFileDialog

from dryhouse.desk import fault_log, faults
from dryhouse.desk.drops import Drops
from dryhouse.desk.exchange import Exchange
from dryhouse.desk.file_menu import note_recent
from dryhouse.desk.journal_access import JournalAccess, Opener
from dryhouse.desk.journal_files import JournalFiles
from dryhouse.desk.menus import fill_menus, fill_menus_without_journal
from dryhouse.desk.read_ahead import read_ahead_later
from dryhouse.desk.rescue import Rescue
from dryhouse.desk.safekeeping import Safekeeping
from dryhouse.desk.session import Session
from dryhouse.desk.widgets.empty_state import EmptyState
from dryhouse.desk.window import DeskWindow
from dryhouse.kitchen.ports import BatchQuery
from dryhouse.kitchen.settings import UNITS_KEY, set_preference, style
from dryhouse.science.display import METRIC, US
from dryhouse.science.errors import InputProblem, WorldProblem
from dryhouse.words.messages import problem_sentence

if TYPE_CHECKING:
    from dryhouse.desk.exchange_pages import ChoicePage, WorkPage
    from dryhouse.desk.one_window import OneWindow
    from dryhouse.desk.restore_page import RestorePage
    from dryhouse.desk.widgets.found_page import FoundPage
    from dryhouse.kitchen.kitchen import Kitchen

    Page = EmptyState | FoundPage | RestorePage | WorkPage | ChoicePage

_FILES = "Journals (*.dryhouse);;All files (*)"


class Opening(QObject):
    """Opens journals in one window. `opened` fires when the places of a journal can be used."""

    opened = Signal()

    def __init__(self, window: DeskWindow, journals: JournalAccess | None = None) -> None:
        super().__init__(window)
        self.window, self.journals = window, journals
        self.session: Session | None = None
        self.rescue = Rescue(self, self)
        self.exchange = Exchange(self, self)
        self._page: Page | None = None
        self._tried: Path | None = None
        """The file whose page says that it did not open."""
        self._answers: OneWindow | None = None
        window.closing.connect(self.close)
        Drops(window, lambda path: self.open(lambda: self._journals().file(path)), self.exchange.bring_in)
        if journals is not None:
            self.files = JournalFiles(window, journals, self.open)
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
            self._show(opener())
        except Exception as problem:
            self.close()
            self._did_not_open(_said(problem), back)
            return False
        return True

    def close(self) -> None:
        """Leave the open journal in order."""
        if self.session is not None:
            session, self.session = self.session, None
            if self._answers is not None:
                self._answers.close()
            self.window.detach()
            try:
                session.kitchen.journal.close()
            except WorldProblem as problem:
                fault_log.write(problem_sentence(problem))

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

    def restore(self, backup: Path) -> None:
        """Put a backup in the journal's place; the former journal is kept, and the message says where."""
        journals, into = self._journals(), self.here()
        kept: list[Path | None] = []

        def restored() -> Kitchen:
            kept.append(journals.restore(backup, into))
            return journals.file(into)

        if self.open(restored) and self.session is not None:
            former = f" The former journal is kept as {kept[0]}" if kept[0] else ""
            self.session.say(f"Restored {backup.name}.{former}", "done")

    def here(self) -> Path:
        """The file that is open, or the one that did not open."""
        journals = self._journals()
        return self._tried or journals.tried if self.session is None else journals.path(self.session.kitchen)

    def reopen(self) -> None:
        """Open the same file anew."""
        path = self.here()
        self.open(lambda: self._journals().file(path))

    def go_back(self) -> None:
        """From a page back to the places, which are as they were left."""
        self._drop_page()
        self.window.go_last()

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
        try:
            self.session = Session(kitchen, self.window.theme)
        except BaseException:
            kitchen.journal.close()
            raise
        self.session.file_failed.connect(self.rescue.file_failed)
        self._drop_page()
        self.window.attach(self.session, self.journals.name(kitchen) if self.journals is not None else "")
        self.window.menus = fill_menus(self.window, self.session)
        if self.journals is not None and not len(kitchen.journal.batch_ids(BatchQuery())):
            self._welcome()
        else:
            self.window.go_last()
        read_ahead_later(self.session, self.window.specs)
        if self.journals is not None:
            Safekeeping(self.session, self.journals, self.journals.path(kitchen))
            note_recent(self.window.settings, self.journals.path(kitchen))
        self.opened.emit()

    # --- what is shown in place of the places ---------------------------------------------------------------

    def _welcome(self) -> None:
        if self._journals().has_backups(self.here()):
            self.rescue.emptied()
            return
        welcome = EmptyState(
            self.window.theme,
            "journal",
            "Welcome to your drying journal",
            "Log each batch as it comes off the dryer, and see how dry it is, how "
            "long it keeps, and the water that brings it back. Which units do you use?",
            *((said, partial(self._start, units)) for units, said in starts()),
            ("Look at the sample journal first", self.open_sample),
        )
        self.show_page(welcome)

    def _start(self, units: str) -> None:
        """Her own journal, in the units she chose."""
        if self.session is not None:
            self.session.attempt(set_preference, self.session.kitchen, UNITS_KEY, units)
            self.session.set_style(style(self.session.kitchen))
        self._drop_page()
        self.window.go("journal")

    def _did_not_open(self, sentence: str, back: Opener | None) -> None:
        tried = None if self.journals is None else self.journals.tried
        if back is not None and self.open(back) and self.session is not None:
            self.session.say(sentence, "world")
            return
        self._tried = tried
        fill_menus_without_journal(self.window)
        self.rescue.did_not_open(sentence)
        self.opened.emit()

    def show_page(self, page: Page) -> None:
        """Show a page in place of the places, the keyboard on its first button."""
        self._drop_page()
        self._page = page
        self.window.show_plain(page)
        if page.buttons:
            page.buttons[0].setFocus()

    def _drop_page(self) -> None:
        if self._page is not None:
            self.window.stack.removeWidget(self._page)
            self._page.deleteLater()
            self._page = None


def starts(locale: QLocale | None = None) -> tuple[tuple[str, str], ...]:
    """The units she may start in, those of her system first."""
    words = ((US, "Start in ounces, cups and °F"), (METRIC, "Start in grams, milliliters and °C"))
    measured = (locale or QLocale.system()).measurementSystem()
    return words if measured == QLocale.MeasurementSystem.ImperialUSSystem else words[::-1]


def _documents() -> str:
    return QStandardPaths.writableLocation(QStandardPaths.StandardLocation.DocumentsLocation)


def _said(problem: Exception) -> str:
    """A sentence for whatever kept a journal from opening; our own mistake goes to the log too."""
    if isinstance(problem, InputProblem | WorldProblem):
        return problem_sentence(problem)
    fault_log.write(fault_log.details(type(problem), problem, problem.__traceback__))
    return f"{faults.SENTENCE} {fault_log.where()}"
