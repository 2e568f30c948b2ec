"""The settings of a connection, and the lock."""

from __future__ import annotations

from pathlib import Path

import pytest

from dryhouse.journal.connecting import connect, in_memory, take_lock
from dryhouse.journal.opening import open_journal
from dryhouse.science.errors import WorldProblem


def setting(connection: object, name: str) -> object:
    return connection.exec_driver_sql(f"PRAGMA {name}").scalar()  # type: ignore[attr-defined]


def test_every_commit_goes_to_the_disk_and_foreign_keys_hold(tmp_path: Path) -> None:
    journal = open_journal(tmp_path / "journal.dryhouse", write=True)
    assert setting(journal.connection, "journal_mode") == "wal"
    assert setting(journal.connection, "synchronous") == 2
    assert setting(journal.connection, "foreign_keys") == 1
    assert setting(journal.connection, "busy_timeout") == 5000
    journal.close()


def test_a_reader_is_held_to_reading(tmp_path: Path) -> None:
    file = tmp_path / "journal.dryhouse"
    open_journal(file, write=True).close()
    connection = connect(file, "ro")
    assert setting(connection, "query_only") == 1
    connection.close()
    connection.engine.dispose()


def test_in_memory_keeps_foreign_keys_too() -> None:
    connection = in_memory()
    assert setting(connection, "foreign_keys") == 1
    connection.close()
    connection.engine.dispose()


def test_the_lock_is_for_one_and_can_be_given_back(tmp_path: Path) -> None:
    file = tmp_path / "journal.dryhouse"
    release = take_lock(file)
    with pytest.raises(WorldProblem, match="another window"):
        take_lock(file)
    release()
    take_lock(file)()
