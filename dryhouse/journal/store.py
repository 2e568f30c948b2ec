"""The journal over one SQLite connection: get, find, write. It keeps the promises of `kitchen.ports.Journal`."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import contextmanager
from datetime import date, datetime
from itertools import groupby
from pathlib import Path
from threading import RLock
from typing import Any

from sqlalchemy import Connection, bindparam, select

from dryhouse.journal.batches import BatchLists
from dryhouse.journal.mapping import Mapped, mapped, table_name, to_micros
from dryhouse.journal.problems import NOTHING_CHANGED, world
from dryhouse.kitchen.ports import BatchQuery, BatchRow, Change, R, Record, YieldPair
from dryhouse.kitchen.records.shapes import shapes
from dryhouse.science.errors import WorldProblem

_LARGEST_NUMBER = 2**63 - 1
"""The largest number the file can hold."""


class SqlJournal:
    """Records in SQLite. May be asked from any thread; one thing is done at a time.

    `leaving` is called before the connection is closed where something was written, `left` after it is
    closed: they make the day's backup, and give back the lock.
    """

    def __init__(
        self,
        connection: Connection,
        path: Path,
        leaving: Callable[[], None] = lambda: None,
        left: Callable[[], None] = lambda: None,
    ) -> None:
        self.path = path
        self.connection = connection
        self._leaving, self._left = leaving, left
        self._wrote = False
        self._turn = RLock()
        self._reserved: dict[type, int] = {}
        self._lists = BatchLists(connection)

    @contextmanager
    def _alone(self) -> Iterator[None]:
        with self._turn, world(self.path, files=False):
            if self.connection.closed:
                raise WorldProblem(f"“{self.path}” is closed.")
            yield

    def get(self, kind: type[R], id: int) -> R | None:
        """The record, or None where there is none of that number."""
        if id > _LARGEST_NUMBER:
            return None
        with self._alone():
            return self._read(mapped(kind), id)

    def _read(self, of: Mapped[R], id: int) -> R | None:
        query = select(*of.columns).where(of.table.c.id == bindparam("number"))
        row = self.connection.execute(query, {"number": id}).first()
        return None if row is None else of.record(row)

    def where(self, kind: type[R], **equals: Any) -> tuple[R, ...]:
        """Every record whose fields equal (or are in the given tuple of) these values, by number."""
        of = mapped(kind)
        holds = {shape.name: shape for shape in shapes(kind)}
        query = select(*of.columns).order_by(of.table.c.id)
        for name, wanted in equals.items():
            if holds[name].quantity is not None:
                raise ValueError(f"records are not looked up by {name}: two weights are seldom the same")
            column = of.table.c[name]
            if isinstance(wanted, tuple):
                query = query.where(column.in_([_plain(value) for value in wanted]))
            else:
                query = query.where(column.is_(None) if wanted is None else column == _plain(wanted))
        with self._alone():
            return tuple(of.record(row) for row in self.connection.execute(query))

    def next_id(self, kind: type[Record]) -> int:
        """A number no record of this kind has had, and that is not given out twice."""
        with self._alone():
            query = "SELECT seq FROM sqlite_sequence WHERE name = ?"
            used = self.connection.exec_driver_sql(query, (table_name(kind),)).scalar() or 0
            self._reserved[kind] = max(used, self._reserved.get(kind, 0)) + 1
            return self._reserved[kind]

    def write(self, changes: Iterable[Change]) -> None:
        """All of the changes, or none: on the disk when this returns.

        Raises WorldProblem where a record is no longer as the change remembers it, where something would
        belong to a record that is not there, or where the disk fails.
        """
        listed = list(changes)
        with self._alone(), self._transaction():
            for (kind, how), group in groupby(listed, key=lambda c: (type(c.record), _how(c))):
                self._write_alike(mapped(kind), how, list(group))
            self._wrote = True
        self._lists.forget(type(c.record) for c in listed)

    def _write_alike(self, of: Mapped[Any], how: str, changes: list[Change]) -> None:
        if any(change.record.id <= 0 for change in changes):
            raise ValueError(f"a {of.kind.__name__} has no number yet")
        if how != "came":
            for change in changes:
                if self._read(of, change.record.id) != change.before:
                    raise WorldProblem(f"That entry has been changed or removed meanwhile. {NOTHING_CHANGED}")
        rows = [of.row(change.record) for change in changes]
        if how == "came":
            self.connection.execute(of.table.insert(), rows)
        elif how == "went":
            self.connection.execute(
                of.table.delete().where(of.table.c.id == bindparam("number")), [{"number": r["id"]} for r in rows]
            )
        else:
            update = of.table.update().where(of.table.c.id == bindparam("number"))
            self.connection.execute(update, [{**row, "number": row["id"]} for row in rows])

    @contextmanager
    def _transaction(self) -> Iterator[None]:
        self.connection.exec_driver_sql("BEGIN IMMEDIATE")
        try:
            yield
            self.connection.exec_driver_sql("COMMIT")
        except BaseException:
            driver = self.connection.connection.driver_connection
            if driver is not None and driver.in_transaction:
                driver.rollback()
            raise

    def batch_ids(self, query: BatchQuery) -> Sequence[int]:
        """The numbers of the batches asked for, in order; a missing value comes last either way."""
        with self._alone():
            return self._lists.ids(query)

    def batch_rows(self, ids: Sequence[int]) -> list[BatchRow]:
        """One line for each number, in the order given; numbers that are gone are left out."""
        with self._alone():
            return self._lists.rows(ids)

    def yield_pairs(self, food: str) -> tuple[YieldPair, ...]:
        """Every finished batch of the food with both a prepared and a dried mass, oldest first."""
        with self._alone():
            return self._lists.yield_pairs(food)

    def close(self) -> None:
        """Leave the file in order and let others open it. Closing twice does no harm."""
        with self._turn:
            if self.connection.closed:
                return
            try:
                if self._wrote:
                    self._leaving()
            finally:
                engine = self.connection.engine
                self.connection.close()
                engine.dispose()
                self._left()


def _how(change: Change) -> str:
    if change.before is None:
        return "came"
    return "went" if change.after is None else "changed"


def _plain(value: Any) -> Any:
    if isinstance(value, datetime):
        return to_micros(value)
    if isinstance(value, date):
        return value.isoformat()
    return int(value) if isinstance(value, bool) else value
