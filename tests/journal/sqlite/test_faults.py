"""An error of SQLite's, by itself or inside one of SQLAlchemy's, is one of the things that can happen to a file."""

from __future__ import annotations

import sqlite3

from sqlalchemy.exc import OperationalError

from dryhouse.journal.sqlite.faults import Fault, fault_of
from tests.rows import every_row


@every_row(
    ("name", "fault"),
    [
        ("SQLITE_FULL", Fault.FULL),
        ("SQLITE_READONLY_DIRECTORY", Fault.READ_ONLY),
        ("SQLITE_CORRUPT_INDEX", Fault.DAMAGED),
        ("SQLITE_CONSTRAINT_FOREIGNKEY", Fault.BELONGS),
        ("SQLITE_IOERR_WRITE", Fault.DISK),
        ("SQLITE_ERROR", Fault.OURS),
        ("SQLITE_CONSTRAINT_NOTNULL", Fault.OURS),
        ("SQLITE_SOMETHING_NEW", Fault.OTHER),
    ],
)
def test_each_error_is_known_by_the_name_sqlite_gives_it(name: str, fault: Fault) -> None:
    error = sqlite3.OperationalError("as SQLite says it")
    error.sqlite_errorname = name
    assert fault_of(error) is fault
    assert fault_of(OperationalError("SELECT 1", {}, error)) is fault


def test_an_index_of_words_that_lost_what_it_knows_of_itself_is_damage() -> None:
    error = sqlite3.OperationalError("invalid fts5 file format (found 0, expected 4) - run 'rebuild'")
    error.sqlite_errorname = "SQLITE_ERROR"
    assert fault_of(error) is Fault.DAMAGED


def test_what_is_no_error_of_sqlite_is_no_fault() -> None:
    assert fault_of(OSError("elsewhere")) is None
