"""One open journal: SQLAlchemy's engine over it, and the transactions in which it is changed."""

from __future__ import annotations

import os
import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING

from dryhouse.journal.problems import damaged
from dryhouse.journal.sqlite import file
from dryhouse.science.errors import WorldProblem

if TYPE_CHECKING:
    from sqlalchemy import Connection


class Database:
    """A connection in autocommit: transactions are begun by name. Not for two threads at once."""

    def __init__(self, driver: sqlite3.Connection, path: Path | None = None) -> None:
        self.driver = driver
        """For the modules in `sqlite`; everything else goes through `connection`."""
        self.closed = False
        self._path = path
        self._is = None if path is None else _identity(path)

    @cached_property
    def connection(self) -> Connection:
        """SQLAlchemy over this connection, made where it is first needed and before a transaction is begun: it
        takes a look at the database then, and ends that look with a rollback."""
        from sqlalchemy import create_engine
        from sqlalchemy.pool import StaticPool

        engine = create_engine(
            "sqlite://", creator=lambda: self.driver, poolclass=StaticPool, isolation_level="AUTOCOMMIT"
        )
        return engine.connect()

    def get_ready(self) -> None:
        """Make ready what the first question would otherwise wait for."""
        _ = self.connection

    @contextmanager
    def transaction(self) -> Iterator[Connection]:
        """All that is done inside is on the disk at the end, or nothing of it is; nobody else writes meanwhile."""
        connection = self.connection
        with file.transaction(self.driver):
            yield connection

    def is_elsewhere(self) -> bool:
        """Whether another file, or none, now stands where this one was opened."""
        return self._path is not None and _identity(self._path) != self._is

    def close(self) -> None:
        """Let go of the file. Closing twice does no harm."""
        if "connection" in self.__dict__:
            self.connection.close()
            self.connection.engine.dispose()
            del self.connection
        self.driver.close()
        self.closed = True


def _identity(path: Path) -> tuple[int, int] | None:
    try:
        there = os.stat(path)
    except OSError:
        return None
    return there.st_dev, there.st_ino


def connect(path: Path, mode: file.Mode) -> Database:
    """The journal in a file. Raises WorldProblem where the file is shorter than it should be."""
    database = Database(file.open_file(path, mode), path)
    try:
        if file.is_cut_short(database.driver, path):
            raise WorldProblem(damaged(path))
    except BaseException:
        database.close()
        raise
    return database


def in_memory() -> Database:
    """An empty database that no file holds."""
    return Database(file.in_memory())
