"""A journal's file opened with the settings it wants, and the lock that keeps writers to one."""

from __future__ import annotations

import os
import sqlite3
from collections.abc import Callable
from pathlib import Path
from typing import Literal

from dryhouse.journal.database import Database
from dryhouse.journal.problems import NOTHING_CHANGED, damaged
from dryhouse.science.errors import WorldProblem

Mode = Literal["ro", "rw", "rwc"]
_FINISHING_SECONDS = 0.4


def connect(path: Path, mode: Mode) -> Database:
    """The file, opened.

    Every commit is on the disk before it is answered (write-ahead log, synchronous FULL). A reader changes
    nothing; where the file could be written it still takes part in tidying the log away when it leaves.
    """
    tidies = mode == "ro" and may_write(path) and may_write(path.parent)
    where = path.absolute().as_uri() + f"?mode={'rw' if tidies else mode}"
    if mode == "ro" and not may_write(path.parent) and not _has_log(path):
        where += "&immutable=1"
    database = Database(where)
    try:
        if mode == "ro":
            database.do("PRAGMA query_only = ON")
        else:
            database.do("PRAGMA synchronous = FULL")
            database.do("PRAGMA foreign_keys = ON")
        _refuse_cut_short(database, path)
    except BaseException:
        database.close()
        raise
    return database


def may_write(path: Path) -> bool:
    """Whether the system would let this program write to the file or folder."""
    return os.access(path, os.W_OK, effective_ids=os.access in os.supports_effective_ids)


def _has_log(path: Path) -> bool:
    log = path.with_name(path.name + "-wal")
    return log.exists() and log.stat().st_size > 0


def _refuse_cut_short(database: Database, path: Path) -> None:
    """A file shorter than it says it is, with no log that could make up for it, is damaged."""
    if not path.exists() or _has_log(path):
        return
    pages, size = database.value("PRAGMA page_count"), database.value("PRAGMA page_size")
    if path.stat().st_size < pages * size:
        raise WorldProblem(damaged(path))


def take_lock(path: Path) -> Callable[[], None]:
    """Become the one writer of this file; answers what gives the lock back.

    A command that is just finishing is waited for. SQLite locks an empty file beside the journal, as it locks
    journals on every system: the lock falls with the process, however that ends.
    """
    lock = Database(path.with_name(path.name + ".lock").absolute().as_uri(), wait=_FINISHING_SECONDS)
    try:
        lock.do("BEGIN EXCLUSIVE")
    except sqlite3.OperationalError as error:
        lock.close()
        if error.sqlite_errorcode != sqlite3.SQLITE_BUSY:
            raise
        raise WorldProblem(
            f"“{path}” is already open in another window or program; close that one first. {NOTHING_CHANGED}"
        ) from None
    return lock.close
