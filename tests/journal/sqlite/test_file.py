"""The settings of a connection, and its transactions."""

from __future__ import annotations

import re
from contextlib import suppress
from pathlib import Path

import dryhouse.journal
from dryhouse.journal.database import Database, connect, in_memory
from dryhouse.journal.opening import open_journal
from dryhouse.kitchen.ports import Change
from dryhouse.kitchen.records import Batch
from tests.journal.journals import value


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
