"""Opening a journal: to read, which never blocks and never makes a file, or to write, act by act."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from dryhouse.journal.database import Database, connect, in_memory
from dryhouse.journal.missing_journal import MissingJournal
from dryhouse.journal.network_drives import network_drive
from dryhouse.journal.parts import recognized, refuse_incomplete
from dryhouse.journal.problems import as_world_problem
from dryhouse.journal.revision import HEAD, bring_up_to_date, create
from dryhouse.journal.sqlite.file import has_log, is_empty, may_write, write_ahead
from dryhouse.science.errors import WorldProblem
from dryhouse.science.messages import MessageKind as Kind
from dryhouse.science.messages import message

if TYPE_CHECKING:
    from dryhouse.journal.store import SqlJournal


def open_journal(path: Path, *, write: bool) -> SqlJournal | MissingJournal:
    """The journal in this file.

    To write, the file is made where there is none, and brought up to date (after a backup) where it is older; it
    is locked for as long as an act takes, so that any number of windows and commands may have it open. To read, a
    missing file is an empty journal (unless its log is still there), and an older one is brought up to date in
    memory alone. Raises WorldProblem; whatever is wrong, the file is left as it is.
    """
    path = Path(path).resolve()
    with as_world_problem(path):
        if path.is_dir():
            raise WorldProblem(message(Kind.IS_A_FOLDER, path=str(path), inside=str(path / "journal.dryhouse")))
        _refuse_log_alone(path)
        return _to_write(path) if write else _to_read(path)


def _to_read(path: Path) -> SqlJournal | MissingJournal:
    if not path.exists() or path.stat().st_size == 0:
        return MissingJournal(path)
    from dryhouse.journal.store import SqlJournal

    database = connect(path, "ro")
    try:
        if is_empty(database.driver):
            database.close()
            return MissingJournal(path)
        if recognized(database, path) != HEAD:
            database = newest_in_memory(database, path)
    except BaseException:
        database.close()
        raise
    return SqlJournal(database, path)


def newest_in_memory(older: Database, path: Path) -> Database:
    """An older journal brought up to date in memory; the file, which stays as it is, is closed."""
    database = in_memory()
    try:
        older.driver.backup(database.driver)
        bring_up_to_date(database, lambda: refuse_incomplete(database, path))
    except BaseException:
        database.close()
        raise
    older.close()
    return database


def _to_write(path: Path) -> SqlJournal:
    path.parent.mkdir(parents=True, exist_ok=True)
    _refuse_unwritable(path)
    _refuse_shared_by_computers(path)
    from dryhouse.journal.store import SqlJournal

    database = connect(path, "rw" if path.exists() else "rwc")
    try:
        if is_empty(database.driver):
            write_ahead(database.driver)
            create(database)
        elif recognized(database, path) != HEAD:
            from dryhouse.journal.backup import back_up_open

            back_up_open(database, path)
            bring_up_to_date(database, lambda: refuse_incomplete(database, path))
    except BaseException:
        database.close()
        raise
    return SqlJournal(database, path, before_closing=lambda: _back_up_daily(database, path))


def _back_up_daily(database: Database, path: Path) -> None:
    from dryhouse.journal.backup import back_up_daily

    back_up_daily(database, path)


def _refuse_log_alone(path: Path) -> None:
    """A journal that was moved or deleted without its log: a new one in its place would cost what stands there."""
    if not path.exists() and has_log(path):
        raise WorldProblem(message(Kind.LOG_ALONE, path=str(path), log=f"{path.name}-wal"))


def _refuse_shared_by_computers(path: Path) -> None:
    """On a network drive SQLite's locks hold within one computer at best: two of them would mix the file."""
    if drive := network_drive(path.parent):
        raise WorldProblem(message(Kind.ON_A_NETWORK_DRIVE, path=str(path), drive=drive))


def _refuse_unwritable(path: Path) -> None:
    for part in (path, path.parent):
        if part.exists() and not may_write(part):
            kind = Kind.READ_ONLY if part == path else Kind.FOLDER_READ_ONLY
            raise WorldProblem(message(kind, path=str(path), folder=str(part)))
