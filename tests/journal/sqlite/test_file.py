"""The settings of a connection, and its transactions."""

from __future__ import annotations

import re
import sqlite3
from contextlib import suppress
from pathlib import Path

import pytest

import dryhouse.journal
from dryhouse.journal.database import Database, connect, in_memory
from dryhouse.journal.opening import open_journal
from dryhouse.journal.sqlite import file
from dryhouse.kitchen.ports import Change
from dryhouse.kitchen.records import Batch
from tests.journal.journals import value
from tests.rows import every_row


def setting(database: Database, name: str) -> object:
    return value(database, f"PRAGMA {name}")


def test_every_commit_goes_to_the_disk_and_foreign_keys_hold(tmp_path: Path) -> None:
    journal = open_journal(tmp_path / "journal.dryhouse", write=True)
    assert setting(journal.database, "journal_mode") == "wal"
    assert setting(journal.database, "synchronous") == 2
    assert setting(journal.database, "foreign_keys") == 1
    assert setting(journal.database, "busy_timeout") == 5000
    journal.close()


def test_a_reader_is_held_to_reading(tmp_path: Path) -> None:
    file = tmp_path / "journal.dryhouse"
    open_journal(file, write=True).close()
    database = connect(file, "ro")
    assert setting(database, "query_only") == 1
    database.close()


def test_in_memory_keeps_foreign_keys_too() -> None:
    database = in_memory()
    assert setting(database, "foreign_keys") == 1
    database.close()


def test_a_transaction_inside_another_is_left_out_as_a_whole_and_the_outer_one_goes_on() -> None:
    database = in_memory()
    database.driver.execute("CREATE TABLE jar (id INTEGER)")
    with database.transaction():
        database.driver.execute("INSERT INTO jar VALUES (1)")
        with suppress(ZeroDivisionError), database.transaction():
            database.driver.execute("INSERT INTO jar VALUES (2)")
            raise ZeroDivisionError
        with database.transaction():
            database.driver.execute("INSERT INTO jar VALUES (3)")
        with suppress(ZeroDivisionError), database.transaction():
            database.driver.execute("INSERT INTO jar VALUES (4)")
            with database.transaction():
                database.driver.execute("INSERT INTO jar VALUES (5)")
            raise ZeroDivisionError
    assert not database.driver.in_transaction
    assert [row[0] for row in database.driver.execute("SELECT id FROM jar")] == [1, 3]
    database.close()


def test_reading_a_file_whose_log_was_left_behind_changes_neither(tmp_path: Path) -> None:
    file, left = tmp_path / "journal.dryhouse", tmp_path / "left"
    left.mkdir()
    journal = open_journal(file, write=True)
    journal.write([Change(None, Batch("corn", id=1))])
    for name in (file.name, f"{file.name}-wal"):
        (left / name).write_bytes((tmp_path / name).read_bytes())
    journal.close()
    before = {path.name: path.read_bytes() for path in left.iterdir()}
    reader = open_journal(left / file.name, write=False)
    assert [batch.food for batch in reader.where(Batch)] == ["corn"]
    reader.close()
    assert {name: (left / name).read_bytes() for name in before} == before


def test_nothing_that_only_sqlite_knows_is_said_elsewhere_in_the_journal() -> None:
    folder = Path(dryhouse.journal.__file__).parent
    only = re.compile(r"PRAGMA|sqlite_(?!errorname)|json_(each|group)|\bMATCH\b|INDEXED BY|AUTOINCREMENT|\browid\b")
    said = {path.name for path in folder.glob("*.py") if only.search(path.read_text(encoding="utf-8"))}
    assert said == set()


@every_row(
    ("code", "there", "tried"),
    [
        (sqlite3.SQLITE_FULL, True, [True, False]),
        (sqlite3.SQLITE_IOERR_SHMSIZE, True, [True, False]),
        (sqlite3.SQLITE_CANTOPEN, True, [True, False]),
        (sqlite3.SQLITE_CANTOPEN, False, [True]),
        (sqlite3.SQLITE_BUSY, True, [True]),
        (sqlite3.SQLITE_READONLY, True, [True]),
    ],
)
def test_only_where_the_disk_has_no_room_a_file_is_opened_without_what_lies_beside_it(
    code: int, there: bool, tried: list[bool], tmp_path: Path
) -> None:
    rooms: list[bool] = []

    def opened(path: Path, mode: str, *, room: bool = True) -> str:
        rooms.append(room)
        if room:
            error = sqlite3.OperationalError("as SQLite says it")
            error.sqlite_errorcode = code
            raise error
        return "opened"

    path = tmp_path / f"{code}-{there}.dryhouse"
    if there:
        path.touch()
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(file, "_opened", opened)
        if len(tried) == 2:
            assert file.open_file(path, "rw") == "opened"
        else:
            with pytest.raises(sqlite3.OperationalError):
                file.open_file(path, "rw")
    assert rooms == tried
