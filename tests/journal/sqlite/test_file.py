"""The settings of a connection, and the lock."""

from __future__ import annotations

import re
from pathlib import Path

import dryhouse.journal
from dryhouse.journal.database import Database, become_writer, connect, in_memory
from dryhouse.journal.opening import open_journal
from dryhouse.science.errors import WorldProblem
from tests.journal.journals import value
from tests.told import told


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


def test_the_lock_is_for_one_and_can_be_given_back(tmp_path: Path) -> None:
    file = tmp_path / "journal.dryhouse"
    release = become_writer(file)
    with told(WorldProblem, "another window"):
        become_writer(file)
    release()
    become_writer(file)()


def test_nothing_that_only_sqlite_knows_is_said_elsewhere_in_the_journal() -> None:
    folder = Path(dryhouse.journal.__file__).parent
    only = re.compile(r"PRAGMA|sqlite_(?!errorname)|json_(each|group)|\bMATCH\b|INDEXED BY|AUTOINCREMENT|\browid\b")
    said = {path.name for path in folder.glob("*.py") if only.search(path.read_text(encoding="utf-8"))}
    assert said == set()
