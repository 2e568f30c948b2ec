"""The whole journal out to a file, and another one in, from the window: beside it, to be stopped at any time."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import closing
from pathlib import Path
from typing import TYPE_CHECKING, Protocol, TypeVar

from PySide6.QtCore import QObject
from PySide6.QtWidgets import QFileDialog

from dryhouse.desk.messages import Kind
from dryhouse.science.display import counted

if TYPE_CHECKING:
    from dryhouse.desk.exchange_pages import ChoicePage, WorkPage
    from dryhouse.desk.journal_access import JournalAccess
    from dryhouse.desk.long_work import Report
    from dryhouse.desk.session import Session
    from dryhouse.desk.window import DeskWindow
    from dryhouse.kitchen.exchange.bringing import Coming, Difference

R = TypeVar("R")
_JSON, _TABLES = "One JSON file (*.json)", "A folder of tables (*)"
_EXPORTS = "Exports of a journal (*.json *.csv)"


class HasAJournal(Protocol):
    """What is asked of who opens journals in a window."""

    window: DeskWindow
    journals: JournalAccess | None
    session: Session | None

    def here(self) -> Path:
        """The file that is open."""

    def go_back(self) -> None:
        """Back to the places."""

    def show_page(self, page: WorkPage | ChoicePage) -> None:
        """Show a page in place of the places."""


class Exchange(QObject):
    """Export and import, for the one who opens journals in a window."""

    def __init__(self, opening: HasAJournal, parent: QObject) -> None:
        super().__init__(parent)
        self.opening = opening
        self._waiting: Coming | None = None
        """What waits for her choice."""

    def ask_export(self) -> None:
        """Ask where to, and export everything."""
        usual = str(Path.home() / f"{self.opening.here().stem}.json")
        path, kind = QFileDialog.getSaveFileName(
            self.opening.window,
            "Export everything",
            usual,
            f"{_JSON};;{_TABLES}",
            options=QFileDialog.Option.DontConfirmOverwrite,
        )
        if path:
            self.export(Path(path) if kind != _JSON or path.endswith(".json") else Path(f"{path}.json"))

    def export(self, destination: Path) -> None:
        """Export everything to a file or a folder that is not there yet."""
        journals, here = self._journals(), self.opening.here()

        def work(report: Report) -> int:
            return journals.export(here, destination, lambda count: report(counted(count, "record"), None))

        def done(count: int) -> None:
            self._back(f"Exported {counted(count, 'record')} to {destination}")

        self._work(f"Exporting to {destination.name}", work, done)

    def ask_import(self) -> None:
        """Ask what, and bring it in."""
        path, _ = QFileDialog.getOpenFileName(self.opening.window, "Import", str(Path.home()), _EXPORTS)
        if path:
            self.bring_in(Path(path).parent if path.endswith(".csv") else Path(path))

    def bring_in(self, source: Path) -> None:
        """Look an exported file or folder through; where something differs ask, and then bring it in."""
        journals, here = self._journals(), self.opening.here()

        def work(report: Report) -> Coming:
            return journals.look_through(here, source, lambda share: report("", share))

        self._work(f"Reading {source.name}", work, self._looked)

    def _looked(self, coming: Coming) -> None:
        session = self.opening.session
        if session is None or not coming.differences:
            self._take_in(coming, [])
            return
        from dryhouse.desk.exchange_pages import ChoicePage
        from dryhouse.kitchen.exchange.telling import difference_line

        new = counted(coming.added.total(), "new record")
        sentence = (
            f"The file also has {new}; {coming.same} are here already. Check what you want as the file says; "
            "the rest stays as it is here."
        )
        lines = [(d, difference_line(session.kitchen, d)) for d in coming.differences]
        page = ChoicePage(sentence, lines, lambda chosen: self._take_in(coming, chosen), self.opening.go_back)
        self._waiting = coming
        page.destroyed.connect(self._let_go)
        self.opening.show_page(page)

    def _let_go(self) -> None:
        """The page was left."""
        if self._waiting is not None:
            self._waiting.close()
            self._waiting = None

    def _take_in(self, coming: Coming, chosen: list[Difference]) -> None:
        from dryhouse.kitchen.exchange.bringing import MOST_UNDONE, take_in

        session = self.opening.session
        if session is None or coming.added.total() + len(chosen) > MOST_UNDONE:
            self._waiting = None
            self._take_in_many(coming, chosen)
            return
        done = session.act(take_in, coming, chosen)
        if done is None:
            return
        self._waiting = None
        coming.close()
        self.opening.go_back()
        if not done.changes:
            session.say(done.what)

    def _take_in_many(self, coming: Coming, chosen: list[Difference]) -> None:
        """More than undo keeps: beside the window, with a backup first."""
        from dryhouse.desk.exchange_pages import WorkPage
        from dryhouse.desk.long_work import work_beside

        journals, here = self._journals(), self.opening.here()

        def work(report: Report) -> str:
            with closing(coming):
                report("First, a backup of the journal as it is.", None)
                backup = journals.back_up_file(here)
                report("Everything goes into the journal at once.", None)
                done = journals.take_in(here, coming, chosen)
            return f"{done.what}. This can't be undone; the journal as it was is kept as {backup}"

        page = WorkPage("Bringing it in")
        self.opening.show_page(page)
        work_beside(page, work, told=page.tell, done=self._back, failed=self._failed, name="bring in")

    def _work(self, heading: str, work: Callable[[Report], R], done: Callable[[R], None]) -> None:
        from dryhouse.desk.exchange_pages import WorkPage
        from dryhouse.desk.long_work import work_beside

        stops: list[Callable[[], None]] = []

        def stop() -> None:
            for each in stops:
                each()
            self._back(f"{heading} was stopped; nothing was changed.", "note")

        page = WorkPage(heading, stop)
        self.opening.show_page(page)
        stops.append(work_beside(page, work, told=page.tell, done=done, failed=self._failed, name=heading))

    def _failed(self, sentence: str) -> None:
        self._back(sentence, "input")

    def _back(self, sentence: str, kind: Kind = "done") -> None:
        self.opening.go_back()
        if self.opening.session is not None:
            self.opening.session.look_elsewhere()
            self.opening.session.say(sentence, kind)

    def _journals(self) -> JournalAccess:
        assert self.opening.journals is not None, "this window opens no journals"
        return self.opening.journals
