"""The shelf as the place shows it: one reading of the journal, brought up to date by every act.

The reading belongs to the session; it may be made ahead, off the window's thread, before the place is shown.
"""

from __future__ import annotations

from datetime import date

from PySide6.QtCore import QObject

from dryhouse.desk.background import read_beside
from dryhouse.desk.places.shelf.spec import SPEC
from dryhouse.desk.session import Session
from dryhouse.kitchen.calendar import end_of_day, today
from dryhouse.kitchen.ports import Done, Record, WrittenElsewhere
from dryhouse.kitchen.records import Lot
from dryhouse.kitchen.shelf.book import ShelfBook
from dryhouse.kitchen.shelf.lines import ShelfLine
from dryhouse.kitchen.shelf.shelf import shelf
from dryhouse.science.safety import LotFacts


class ShelfState(QObject):
    """The book, the day looked at, and the lines of that day by lot."""

    def __init__(self, session: Session) -> None:
        super().__init__(session)
        self.session = session
        self.on: date | None = None
        """The day looked at; None is today."""
        self.gone = False
        self._book: ShelfBook | None = None
        self._lines: dict[int, ShelfLine] | None = None
        self._meanwhile: list[Done[Record]] | None = None
        """Acts done while a reading ahead is under way; None where none is."""
        session.changed.connect(self.take)

    @property
    def book(self) -> ShelfBook:
        """The records of the shelf, read when first wanted."""
        if self._book is None:
            self._book = ShelfBook.read(self.session.kitchen)
        return self._book

    def read_ahead(self) -> None:
        """Begin reading off the window's thread. Whoever wants the book before it is there reads it herself."""
        if self._book is None and self._meanwhile is None:
            self._meanwhile = []
            kitchen, day = self.session.kitchen, self.day

            def read() -> tuple[ShelfBook, date, tuple[ShelfLine, ...]]:
                book = ShelfBook.read(kitchen)
                return book, day, shelf(kitchen, day, book=book)

            read_beside(self, read, self._keep, "read ahead for the shelf")

    def _keep(self, read: tuple[ShelfBook, date, tuple[ShelfLine, ...]]) -> None:
        SPEC.load()
        meanwhile, self._meanwhile = self._meanwhile or [], None
        if self._book is not None or any(isinstance(done, WrittenElsewhere) for done in meanwhile):
            return
        self._book, day, lines = read
        for done in meanwhile:
            self._book.take(done)
        if not meanwhile and day == self.day and not self.gone:
            self._lines = {line.lot.id: line for line in lines}

    @property
    def day(self) -> date:
        """The day looked at."""
        return self.on or today(self.session.kitchen)

    def take(self, done: Done[Record]) -> None:
        """Bring the book up to what an act changed."""
        self._lines = None
        if self._book is not None and isinstance(done, WrittenElsewhere):
            self._book = None
        elif self._book is not None:
            self._book.take(done)
        elif self._meanwhile is not None:
            self._meanwhile.append(done)

    def look_at(self, on: date | None, *, gone: bool | None = None) -> None:
        """Look at another day, or also at what is gone."""
        self.on, self._lines = on, None
        self.gone = self.gone if gone is None else gone

    def lines(self) -> dict[int, ShelfLine]:
        """Every lot on the day looked at, in the shelf's own order."""
        if self._lines is None:
            found = shelf(self.session.kitchen, self.day, gone=self.gone, book=self.book)
            self._lines = {line.lot.id: line for line in found}
        return self._lines

    def line(self, id: int | None) -> ShelfLine | None:
        """The line of a lot, also of one that the day's list leaves out."""
        if id is None or id not in self.book.lots:
            return None
        listed = self.lines().get(id)
        return listed or self.book.line(self.book.lots[id], self.day, end_of_day(self.session.kitchen, self.day))

    def facts(self, lot: Lot) -> LotFacts:
        """What is recorded of a lot up to the day looked at."""
        return self.book.facts(lot, end_of_day(self.session.kitchen, self.day))


def state_of(session: Session) -> ShelfState:
    """The one state of a session, made when first wanted."""
    known = session.findChild(ShelfState)
    return known if known is not None else ShelfState(session)


def read_ahead(session: Session) -> None:
    """Begin reading the shelf for the place that will show it."""
    state_of(session).read_ahead()
