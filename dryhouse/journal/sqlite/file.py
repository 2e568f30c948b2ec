"""One SQLite file: opened with the settings it wants, written to, copied, marked as ours, looked through."""

from __future__ import annotations

import os
import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from itertools import islice
from pathlib import Path
from typing import Any, Literal, NamedTuple

from dryhouse.journal.sqlite import word_index

Mode = Literal["ro", "rw", "rwc"]

APPLICATION_ID = 0x44727948
"""Marks a SQLite file as a journal of ours: `DryH`."""

_BUSY_SECONDS = 5.0
"""How long an act waits for another program that is just writing; what is written takes far less."""
ENDINGS = ("-wal", "-shm", "-journal")
"""What SQLite keeps beside a file that is open, or was when the program was killed."""


def open_file(path: Path, mode: Mode) -> sqlite3.Connection:
    """The file, opened in autocommit: transactions are begun by name.

    Every commit is on the disk before it is answered (write-ahead log, synchronous FULL). A reader changes
    nothing: a log that still holds something is left as it is, and an empty one goes with its last reader. Where
    the disk has no room for what SQLite keeps beside the file, it is opened without that.
    """
    try:
        return _opened(path, mode)
    except sqlite3.OperationalError as error:
        if not path.exists() or error.sqlite_errorcode & 0xFF not in _NO_ROOM:
            raise
        return _opened(path, mode, room=False)


_NO_ROOM = (sqlite3.SQLITE_FULL, sqlite3.SQLITE_IOERR, sqlite3.SQLITE_CANTOPEN)
"""How SQLite says that it could make nothing beside the file."""


def _opened(path: Path, mode: Mode, *, room: bool = True) -> sqlite3.Connection:
    logged = has_log(path)
    tidies = mode == "ro" and not logged and may_write(path) and may_write(path.parent)
    immutable = mode == "ro" and not logged and (not room or not may_write(path.parent))
    alone = not room and not immutable
    way = "ro&immutable=1" if immutable else "rw" if tidies or alone else mode
    driver = _connect(f"{path.absolute().as_uri()}?mode={way}")
    try:
        if alone:
            # What it shares with other programs has no room beside the file: no other is let in meanwhile.
            driver.execute("PRAGMA locking_mode = EXCLUSIVE")
        if mode == "ro":
            driver.execute("PRAGMA query_only = ON")
        else:
            driver.execute("PRAGMA synchronous = FULL")
            enforce_foreign_keys(driver, True)
        driver.execute("PRAGMA page_count").fetchone()
    except BaseException:
        driver.close()
        raise
    return driver


def in_memory() -> sqlite3.Connection:
    """An empty database that no file holds."""
    driver = _connect("file::memory:")
    enforce_foreign_keys(driver, True)
    return driver


def _connect(where: str) -> sqlite3.Connection:
    return sqlite3.connect(
        where,
        uri=True,
        timeout=_BUSY_SECONDS,
        isolation_level=None,
        check_same_thread=False,
        cached_statements=256,
    )


def may_write(path: Path) -> bool:
    """Whether the system would let this program write to the file or folder."""
    return os.access(path, os.W_OK, effective_ids=os.access in os.supports_effective_ids)


def has_log(path: Path) -> bool:
    """Whether the file has a log that holds something it does not have yet."""
    log = path.with_name(path.name + "-wal")
    return log.exists() and log.stat().st_size > 0


def is_cut_short(driver: sqlite3.Connection, path: Path) -> bool:
    """Whether the file is shorter than it says it is, with no log that could make up for it."""
    if not path.exists() or has_log(path):
        return False
    pages, size = _value(driver, "PRAGMA page_count"), _value(driver, "PRAGMA page_size")
    return bool(path.stat().st_size < pages * size)


def enforce_foreign_keys(driver: sqlite3.Connection, on: bool) -> None:
    """Refuse what would belong to a record that is not there; a migration checks that by itself."""
    driver.execute(f"PRAGMA foreign_keys = {'ON' if on else 'OFF'}")


def write_ahead(driver: sqlite3.Connection) -> None:
    """Write to a log first, so that readers never wait for a writer. Where that cannot be begun, since another
    program is just using the file or the disk is full, the old way is kept: it is as safe."""
    with suppress(sqlite3.OperationalError):
        driver.execute("PRAGMA journal_mode = WAL")


@contextmanager
def transaction(driver: sqlite3.Connection) -> Iterator[None]:
    """All that is done inside is on the disk at the end, or nothing of it is done. Nobody else writes meanwhile;
    one inside another is done or left out as a whole, and is on the disk with the outer one."""
    if driver.in_transaction:
        with _part_of_a_transaction(driver):
            yield
        return
    driver.execute("BEGIN IMMEDIATE")
    try:
        yield
        driver.execute("COMMIT")
    except BaseException:
        if driver.in_transaction:
            driver.rollback()
        raise


@contextmanager
def one_moment(driver: sqlite3.Connection) -> Iterator[None]:
    """What is read inside is the file as it was when this began."""
    if driver.in_transaction:
        yield
        return
    driver.execute("BEGIN")
    try:
        yield
    finally:
        if driver.in_transaction:
            driver.rollback()


@contextmanager
def _part_of_a_transaction(driver: sqlite3.Connection) -> Iterator[None]:
    driver.execute("SAVEPOINT part")
    try:
        yield
    except BaseException:
        if driver.in_transaction:
            driver.execute("ROLLBACK TO part")
        raise
    finally:
        if driver.in_transaction:
            driver.execute("RELEASE part")


def copy_whole(driver: sqlite3.Connection, into: Path) -> None:
    """A whole copy under its final name, or none."""
    part = into.with_name(f"{into.name}.{os.getpid()}.part")
    try:
        copy = open_file(part, "rwc")
        try:
            driver.backup(copy)
            copy.execute("PRAGMA journal_mode = DELETE")
        finally:
            copy.close()
        _to_disk(part)
        os.replace(part, into)
    except BaseException:
        with suppress(OSError):
            part.unlink(missing_ok=True)
        raise
    _to_disk(into.parent)


def copy_over(driver: sqlite3.Connection, path: Path) -> None:
    """Put all of a database in the place of what a file holds, in one transaction."""
    target = open_file(path, "rw")
    try:
        driver.backup(target)
        target.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    finally:
        target.close()


def _to_disk(path: Path) -> None:
    if path.is_dir() and os.name == "nt":
        return
    handle = os.open(path, os.O_RDONLY if path.is_dir() else os.O_RDWR)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


def mark_as_ours(driver: sqlite3.Connection) -> None:
    """Write into the file that it is a journal."""
    driver.execute(f"PRAGMA application_id = {APPLICATION_ID}")


def is_ours(driver: sqlite3.Connection) -> bool:
    """Whether the file says that it is a journal."""
    return bool(_value(driver, "PRAGMA application_id") == APPLICATION_ID)


def is_empty(driver: sqlite3.Connection) -> bool:
    """Whether nothing was ever put into the file."""
    marked = _value(driver, "PRAGMA application_id")
    return marked in (0, APPLICATION_ID) and _value(driver, "SELECT count(*) FROM sqlite_master") == 0


def revision_kept(driver: sqlite3.Connection) -> str | None:
    """Which migrations the file has been through, as Alembic keeps it; None where it does not say."""
    if not driver.execute("SELECT 1 FROM sqlite_master WHERE name = 'alembic_version'").fetchone():
        return None
    row = driver.execute("SELECT version_num FROM alembic_version").fetchone()
    return None if row is None or row[0] is None else str(row[0])


def damage_in(driver: sqlite3.Connection, most: int, *, quick: bool = False) -> list[str]:
    """What SQLite finds wrong with the file, in its own words. A quick look does not compare indexes with rows."""
    look = "quick_check" if quick else "integrity_check"
    return [said for (said,) in driver.execute(f"PRAGMA {look}({most})") if said != "ok"]


def orphans_in(driver: sqlite3.Connection, most: int | None = None) -> list[tuple[str, int, str]]:
    """Rows that belong to a row that is not there: their table, their number, the table of what is missing."""
    found = driver.execute("PRAGMA foreign_key_check")
    return [(table, number, target) for table, number, target, _ in islice(found, most)]


class Part(NamedTuple):
    """One thing a file is made of: a table, a column, an index or a trigger; of a column also what it holds."""

    what: str
    name: str
    holds: str = ""


STRANGE = ("strange trigger", "strange view")
"""What a trigger and a view are called that no program of ours has made."""


def parts_in(driver: sqlite3.Connection) -> set[Part]:
    """Tables, indexes, triggers and views in a file, and the columns of its tables. Runs nothing of the file's.

    The index of words is there only as it was made: SQLite takes its columns and its ways from that statement.
    """
    ours = word_index.triggers()
    found = set()
    for what, name, made in driver.execute("SELECT type, name, sql FROM sqlite_master").fetchall():
        if name == word_index.TABLES[0] and not word_index.same_statement(made or "", word_index.WORDS[0]):
            continue
        known = what in ("table", "index")
        known |= what == "trigger" and word_index.same_statement(made or "", ours.get(name, ""))
        found.add(Part(str(what) if known else f"strange {what}", str(name)))
        if what == "table" and not made.startswith("CREATE VIRTUAL"):
            columns = driver.execute("SELECT name, type FROM pragma_table_info(?)", (name,))
            found |= {Part("column", f"{name}.{column}", holds) for column, holds in columns}
    return found


def keep_unreadable_text(driver: sqlite3.Connection) -> None:
    """From now on a text that is none comes as its bytes, instead of ending what is being read."""

    def text(kept: bytes) -> str | bytes:
        try:
            return kept.decode()
        except UnicodeDecodeError:
            return kept

    driver.text_factory = text


def count_in(driver: sqlite3.Connection, table: str) -> int:
    """How many rows a table has."""
    return int(_value(driver, f'SELECT count(*) FROM "{table}"'))


def data_version(driver: sqlite3.Connection) -> int:
    """A number that changes when another program has written to the file."""
    return int(_value(driver, "PRAGMA data_version"))


def schema_version(driver: sqlite3.Connection) -> int:
    """A number that changes with the tables, whoever changes them."""
    return int(_value(driver, "PRAGMA schema_version"))


def _value(driver: sqlite3.Connection, query: str) -> Any:
    return driver.execute(query).fetchone()[0]
