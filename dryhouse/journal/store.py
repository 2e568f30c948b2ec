"""The journal over one open database: get, find, write. It keeps the promises of `kitchen.ports.Journal`.

SQLAlchemy is imported at the first question or write that needs it, not before (`sqlite.direct_sql`).
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from pathlib import Path
from threading import RLock
from typing import Any

from dryhouse.journal.batches import BatchLists
from dryhouse.journal.database import Database
from dryhouse.journal.few_records import FEW, FewRecords
from dryhouse.journal.parts import recognized
from dryhouse.journal.problems import as_world_problem
from dryhouse.journal.sqlite import direct_sql
from dryhouse.journal.sqlite.file import data_version, one_moment, schema_version, write_ahead
from dryhouse.kitchen.ports import BatchQuery, BatchRow, Change, R, Record, Staging, YieldPair
from dryhouse.kitchen.records import RECORD_KINDS
from dryhouse.science.errors import WorldProblem
from dryhouse.science.messages import MessageKind as Kind
from dryhouse.science.messages import message


class SqlJournal:
    """Records in SQLite. May be asked from any thread; one thing is done at a time.

    `before_closing` is called where something was written: it makes the day's backup.
    """

    def __init__(self, database: Database, path: Path, before_closing: Callable[[], None] = lambda: None) -> None:
        self.path = path
        self.database = database
        self._before_closing = before_closing
        self._wrote = self._ahead = False
        self._lock = RLock()
        self._shape = schema_version(database.driver)
        self._reserved: dict[type, int] = {}
        self._lists = BatchLists(database)
        self._few = FewRecords(database)

    @contextmanager
    def _asked(self) -> Iterator[Database]:
        with self._lock, as_world_problem(self.path, files=False):
            if self.database.closed:
                raise WorldProblem(message(Kind.CLOSED, path=str(self.path)))
            yield self.database

    def get(self, kind: type[R], id: int) -> R | None:
        """The record, or None where there is none of that number."""
        with self._asked() as database:
            found = direct_sql.records_numbered(database.driver, kind, [id])
            return found[0] if found else None

    def where(self, kind: type[R], **equals: Any) -> tuple[R, ...]:
        """Every record whose fields equal (or are in the given tuple of) these values, by number."""
        with self._asked() as database:
            if kind in FEW:
                return self._few.where(kind, equals)
            from dryhouse.journal.reading import every

            return every(database.connection, kind, equals)

    def next_id(self, kind: type[Record]) -> int:
        """A number no record of this kind has had, and that is not given out twice."""
        from dryhouse.journal.reading import last_number

        with self._asked() as database:
            used = last_number(database.connection, kind)
            self._reserved[kind] = max(used, self._reserved.get(kind, 0)) + 1
            return self._reserved[kind]

    def write(self, changes: Iterable[Change]) -> None:
        """All of the changes, or none: on the disk when this returns.

        Raises WorldProblem where a record is no longer as the change remembers it, where something would
        belong to a record that is not there, or where the disk fails.
        """
        from dryhouse.journal.writing import write

        listed = list(changes)
        with self.alone():
            write(self.database, listed)
            self._wrote = True
            self._forget({type(c.record) for c in listed})

    @contextmanager
    def alone(self) -> Iterator[None]:
        """Nobody else writes meanwhile; what is written inside is on the disk at the end, or nothing of it is."""
        with self._asked() as database:
            if database.driver.in_transaction:
                yield
                return
            try:
                with database.transaction():
                    self._refuse_another_file(database)
                    yield
            except BaseException:
                self._forget(RECORD_KINDS)
                raise
            self._write_ahead(database)

    def _write_ahead(self, database: Database) -> None:
        """From the first act on that was done, and not before: a file that is only looked at, or in which an act is
        refused, keeps every byte. The first act is as safe the old way."""
        if self._wrote and not self._ahead:
            write_ahead(database.driver)
            self._ahead = True

    def _refuse_another_file(self, database: Database) -> None:
        """Raises WorldProblem where the file was put away, or brought into a shape this program does not write."""
        if database.is_elsewhere():
            raise WorldProblem(message(Kind.REPLACED, path=str(self.path)))
        shape = schema_version(database.driver)
        if shape != self._shape:
            recognized(database, self.path)
            self._shape = shape

    def stage(self) -> Staging:
        """A place for new records that are too many to hold; it must be closed."""
        from dryhouse.journal.staging import Waiting

        return Waiting()

    def take_in(
        self, staging: Staging, edits: Callable[[Mapping[type, int]], Iterable[Change]]
    ) -> Mapping[type, int]:
        """All that waits, and the edits, or none of it; answers how much was added to the numbers of each kind."""
        from dryhouse.journal.staging import Waiting

        assert isinstance(staging, Waiting), "what waits was staged by another journal"
        with self._asked() as database, staging.beside(database), self.alone():
            bases = staging.move(database, edits)
            self._wrote = True
            self._forget(RECORD_KINDS)
        return bases

    def highest_id(self, kind: type[Record]) -> int:
        """The highest number a record of this kind has had; 0 where there never was one. Gives none out."""
        from dryhouse.journal.reading import last_number

        with self._asked() as database:
            return last_number(database.connection, kind)

    @contextmanager
    def at_one_moment(self) -> Iterator[None]:
        """What is read inside is the journal as it was when this began, whoever writes meanwhile."""
        with self._asked() as database:
            _ = database.connection
            with one_moment(database.driver):
                yield

    def version(self) -> int:
        """A number that changes when another window or program has written."""
        with self._asked() as database:
            self._refuse_another_file(database)
            return data_version(database.driver)

    def _forget(self, kinds: Iterable[type]) -> None:
        self._lists.forget(kinds)
        self._few.forget(kinds)

    def batch_ids(self, query: BatchQuery) -> Sequence[int]:
        """The numbers of the batches asked for, in order; a missing value comes last either way."""
        with self._asked():
            return self._lists.ids(query)

    def batch_rows(self, ids: Sequence[int]) -> list[BatchRow]:
        """One line for each number, in the order given; numbers that are gone are left out."""
        with self._asked():
            return self._lists.rows(ids)

    def yield_pairs(self, food: str) -> tuple[YieldPair, ...]:
        """Every finished batch of the food with both a prepared and a dried mass, oldest first."""
        with self._asked() as database:
            return direct_sql.yield_pairs(database.driver, food)

    def get_ready(self) -> None:
        """Make ready what the first search and the first write would otherwise wait for."""
        import dryhouse.journal.writing  # noqa: F401

        self._lists.get_ready()
        with self._lock:
            if not self.database.closed:
                self.database.get_ready()

    def close(self) -> None:
        """Leave the file in order and let others open it. Closing twice does no harm."""
        with self._lock:
            if self.database.closed:
                return
            try:
                if self._wrote:
                    self._before_closing()
            finally:
                self.database.close()
