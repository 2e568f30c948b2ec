"""One open SQLite database: asked in plain SQL, and written to by SQLAlchemy over the same connection."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from sqlalchemy import Connection

_BUSY_SECONDS = 5.0


class Database:
    """A connection in autocommit: transactions are begun by name. Not for two threads at once.

    SQLAlchemy takes a moment to import and is only needed to change something, so it is reached through a
    `transaction`; whoever reads does not wait for it.
    """

    def __init__(self, where: str, *, wait: float = _BUSY_SECONDS) -> None:
        self.driver = sqlite3.connect(
            where,
            uri=True,
            timeout=wait,
            isolation_level=None,
            check_same_thread=False,
            cached_statements=256,
        )
        self.closed = False
        self._alchemy: Connection | None = None

    def ask(self, query: str, values: Sequence[Any] = ()) -> list[Any]:
        """Every row of the answer."""
        return self.driver.execute(query, values).fetchall()

    def value(self, query: str, values: Sequence[Any] = ()) -> Any:
        """The first value of the answer; None where there is none."""
        row = self.driver.execute(query, values).fetchone()
        return None if row is None else row[0]

    def do(self, statement: str) -> None:
        """A statement that has no answer, or none that matters."""
        self.driver.execute(statement).close()

    @contextmanager
    def transaction(self) -> Iterator[Connection]:
        """All that is done inside is on the disk at the end, or nothing of it is done."""
        alchemy = self._over_this()
        alchemy.exec_driver_sql("BEGIN IMMEDIATE")
        try:
            yield alchemy
            alchemy.exec_driver_sql("COMMIT")
        except BaseException:
            if self.driver.in_transaction:
                self.driver.rollback()
            raise

    def get_ready(self) -> None:
        """Make ready what the first transaction would otherwise wait for."""
        self._over_this()

    def _over_this(self) -> Connection:
        """SQLAlchemy over this connection, made where it is first needed and before a transaction is begun: it
        takes a look at the database then, and ends that look with a rollback."""
        if self._alchemy is None:
            from sqlalchemy import create_engine
            from sqlalchemy.pool import StaticPool

            engine = create_engine(
                "sqlite://", creator=lambda: self.driver, poolclass=StaticPool, isolation_level="AUTOCOMMIT"
            )
            self._alchemy = engine.connect()
        return self._alchemy

    def close(self) -> None:
        """Let go of the file. Closing twice does no harm."""
        if self._alchemy is not None:
            self._alchemy.close()
            self._alchemy.engine.dispose()
            self._alchemy = None
        self.driver.close()
        self.closed = True


def in_memory() -> Database:
    """An empty database that no file holds."""
    database = Database("file::memory:")
    database.do("PRAGMA foreign_keys = ON")
    return database
