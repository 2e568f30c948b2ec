"""Opening a journal: to read, which never blocks and never makes a file, or to write, one writer at a time."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from sqlalchemy import Connection

from dryhouse.journal.backup import back_up_daily, back_up_open
from dryhouse.journal.connecting import connect, driver_of, in_memory, may_write, take_lock
from dryhouse.journal.problems import NOTHING_CHANGED, world
from dryhouse.journal.revision import HEAD, bring_up_to_date, create, is_empty, revision_of
from dryhouse.journal.store import SqlJournal
from dryhouse.science.errors import WorldProblem


def open_journal(path: Path, *, write: bool) -> SqlJournal:
    """The journal in this file.

    To write, the file is made where there is none, brought up to date (after a backup) where it is older, and
    locked against a second writer. To read, a missing file is an empty journal, and an older one is brought
    up to date in memory alone. Raises WorldProblem; whatever is wrong, the file is left as it is.
    """
    path = Path(path)
    if path.is_dir():
        raise WorldProblem(f"“{path}” is a folder; name a journal file, such as “{path / 'journal.dryhouse'}”.")
    with world(path):
        return _to_write(path) if write else _to_read(path)


def _to_read(path: Path) -> SqlJournal:
    if not path.exists() or path.stat().st_size == 0:
        connection = in_memory()
        create(connection)
        return SqlJournal(connection, path)
    connection = connect(path, "ro")
    try:
        if is_empty(connection):
            memory = in_memory()
            create(memory)
        elif revision_of(connection, path) != HEAD:
            memory = in_memory()
            driver_of(connection).backup(driver_of(memory))
            bring_up_to_date(memory)
        else:
            return SqlJournal(connection, path)
    except BaseException:
        _shut(connection)
        raise
    _shut(connection)
    return SqlJournal(memory, path)


def _to_write(path: Path) -> SqlJournal:
    path.parent.mkdir(parents=True, exist_ok=True)
    _refuse_unwritable(path)
    release = take_lock(path)
    try:
        return _locked(path, release)
    except BaseException:
        release()
        raise


def _locked(path: Path, release: Callable[[], None]) -> SqlJournal:
    connection = connect(path, "rw" if path.exists() else "rwc")
    try:
        if is_empty(connection):
            connection.exec_driver_sql("PRAGMA journal_mode = WAL")
            create(connection)
        elif revision_of(connection, path) != HEAD:
            back_up_open(connection, path)
            bring_up_to_date(connection)
        connection.exec_driver_sql("PRAGMA journal_mode = WAL")
    except BaseException:
        _shut(connection)
        raise
    return SqlJournal(connection, path, leaving=lambda: back_up_daily(connection, path), left=release)


def _refuse_unwritable(path: Path) -> None:
    for part in (path, path.parent):
        if part.exists() and not may_write(part):
            what = "is" if part == path else f"lies in “{part}”, which is"
            raise WorldProblem(
                f"“{path}” {what} read-only: change the permissions, or open a copy of it elsewhere "
                f"with --journal. {NOTHING_CHANGED}"
            )


def _shut(connection: Connection) -> None:
    connection.close()
    connection.engine.dispose()


def sample_journal() -> Path:
    """A fresh copy of the sample journal, to read and to write in as one likes."""
    from dryhouse.journal.sample import fresh_copy

    return fresh_copy()
