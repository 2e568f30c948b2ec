"""Whatever the world does, a person reads one sentence that names the file and says nothing was lost."""

from __future__ import annotations

import sqlite3
from pathlib import Path

import pytest

from dryhouse.journal.problems import as_world_problem, message_for
from dryhouse.science.errors import WorldProblem
from tests.rows import every_row
from tests.told import in_words

FILE = Path("galley") / "journal.dryhouse"


def error(name: str) -> sqlite3.Error:
    made = sqlite3.OperationalError("as SQLite says it")
    made.sqlite_errorname = name
    return made


@every_row(
    ("name", "word"),
    [
        ("SQLITE_FULL", "full"),
        ("SQLITE_READONLY_DIRECTORY", "only be read"),
        ("SQLITE_BUSY", "Another program"),
        ("SQLITE_NOTADB", "not a Dryhouse journal"),
        ("SQLITE_CORRUPT_INDEX", "damaged"),
        ("SQLITE_CANTOPEN", "cannot be opened"),
        ("SQLITE_IOERR_WRITE", "disk"),
        ("SQLITE_PROTOCOL", "could not be used"),
    ],
)
def test_each_fault_has_its_sentence(name: str, word: str) -> None:
    (sentence,) = in_words([message_for(error(name), FILE)])
    assert word in sentence
    assert str(FILE) in sentence
    assert sentence.endswith(".")


def test_a_full_disk_is_known_by_the_system_s_number_too() -> None:
    assert "full" in in_words([message_for(OSError(28, "No space left on device"), FILE)])[0]


def test_faults_of_sqlite_and_of_files_become_world_problems() -> None:
    for fault in (error("SQLITE_FULL"), OSError(13, "Permission denied")):
        with pytest.raises(WorldProblem), as_world_problem(FILE):
            raise fault


def test_our_own_mistakes_are_not_dressed_up() -> None:
    with pytest.raises(KeyError), as_world_problem(FILE):
        raise KeyError("food")
    with pytest.raises(OSError), as_world_problem(FILE, files=False):
        raise OSError(2, "No such file")
