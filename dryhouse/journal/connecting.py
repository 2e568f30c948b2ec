"""One SQLite connection with the settings a journal wants, and the lock that keeps writers to one."""

from __future__ import annotations

import os
import sqlite3
from collections.abc import Callable
from pathlib import Path
from typing import Any, Literal

from sqlalchemy import Connection, create_engine
from sqlalchemy.pool import StaticPool

from dryhouse.journal.problems import NOTHING_CHANGED, damaged
from dryhouse.science.errors import WorldProblem

Mode = Literal["ro", "rw", "rwc"]
_BUSY_SECONDS = 5.0
_FINISHING_SECONDS = 0.4


def connect(path: Path, mode: Mode) -> Connection:
    """A connection to the file, in autocommit: transactions are begun by name.

    Every commit is on the disk before it is answered (write-ahead log, synchronous FULL). A reader changes
    nothing; where the file could be written it still takes part in tidying the log away when it leaves.
    """
    tidies = mode == "ro" and may_write(path) and may_write(path.parent)
    where = path.absolute().as_uri() + f"?mode={'rw' if tidies else mode}"
    if mode == "ro" and not may_write(path.parent) and not _has_log(path):
        where += "&immutable=1"
    connection = _connection(where)
    try:
        if mode == "ro":
            connection.exec_driver_sql("PRAGMA query_only = ON")
        else:
            connection.exec_driver_sql("PRAGMA synchronous = FULL")
            connection.exec_driver_sql("PRAGMA foreign_keys = ON")
        _refuse_cut_short(connection, path)
    except BaseException:
        connection.close()
        connection.engine.dispose()
        raise
    return connection


def in_memory() -> Connection:
    """A connection to an empty database that no file holds."""
    connection = _connection("file::memory:")
    connection.exec_driver_sql("PRAGMA foreign_keys = ON")
    return connection


def _connection(where: str) -> Connection:
    def opened() -> sqlite3.Connection:
        return sqlite3.connect(
            where,
            uri=True,
            timeout=_BUSY_SECONDS,
            isolation_level=None,
            check_same_thread=False,
            cached_statements=256,
        )

    engine = create_engine("sqlite://", creator=opened, poolclass=StaticPool, isolation_level="AUTOCOMMIT")
    return engine.connect()


def driver_of(connection: Connection) -> sqlite3.Connection:
    """SQLite's own connection, for what SQLAlchemy has no word for."""
    driver: Any = connection.connection.driver_connection
    assert isinstance(driver, sqlite3.Connection)
    return driver


def may_write(path: Path) -> bool:
    """Whether the system would let this program write to the file or folder."""
    return os.access(path, os.W_OK, effective_ids=os.access in os.supports_effective_ids)


def _has_log(path: Path) -> bool:
    log = path.with_name(path.name + "-wal")
    return log.exists() and log.stat().st_size > 0


def _refuse_cut_short(connection: Connection, path: Path) -> None:
    """A file shorter than it says it is, with no log that could make up for it, is damaged."""
    if not path.exists() or _has_log(path):
        return
    pages = connection.exec_driver_sql("PRAGMA page_count").scalar_one()
    size = connection.exec_driver_sql("PRAGMA page_size").scalar_one()
    if path.stat().st_size < pages * size:
        raise WorldProblem(damaged(path))


def take_lock(path: Path) -> Callable[[], None]:
    """Become the one writer of this file; answers what gives the lock back.

    A command that is just finishing is waited for. The lock is the system's own and falls with the process,
    however it ends.
    """
    from filelock import FileLock, Timeout

    lock = FileLock(path.with_name(path.name + ".lock"), timeout=_FINISHING_SECONDS)
    try:
        lock.acquire()
    except Timeout:
        raise WorldProblem(
            f"“{path}” is already open in another window or program; close that one first. {NOTHING_CHANGED}"
        ) from None
    return lock.release
