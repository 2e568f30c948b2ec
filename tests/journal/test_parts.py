"""What a file is made of is known without SQLAlchemy, and what is strange or missing is found before it is run."""

from __future__ import annotations

import sqlite3
import subprocess
import sys
from contextlib import closing
from pathlib import Path

import pytest

from dryhouse.journal.check import check
from dryhouse.journal.database import connect, in_memory
from dryhouse.journal.looked_up import index_names
from dryhouse.journal.opening import open_journal
from dryhouse.journal.parts import expected, missing, strange
from dryhouse.journal.revision import create
from dryhouse.journal.sqlite.file import parts_in
from dryhouse.journal.sqlite.word_index import TABLES
from dryhouse.journal.tables import metadata
from dryhouse.kitchen.ports import Change
from dryhouse.kitchen.records import Batch, Weighing
from dryhouse.science.errors import WorldProblem
from tests.told import in_words, told


@pytest.fixture
def file(tmp_path: Path) -> Path:
    file = tmp_path / "journal.dryhouse"
    journal = open_journal(file, write=True)
    journal.write([Change(None, Batch("corn", id=1))])
    journal.close()
    return file


def changed(file: Path, *statements: str) -> bytes:
    with closing(sqlite3.connect(file)) as raw:
        for statement in statements:
            raw.execute(statement)
        raw.commit()
        raw.execute("PRAGMA journal_mode = DELETE")
    return file.read_bytes()


def test_a_new_file_is_made_of_exactly_what_is_expected() -> None:
    made = in_memory()
    create(made)
    ours = set(metadata.tables) | {"alembic_version", *TABLES}
    there = {
        part
        for part in parts_in(made.driver)
        if not part.name.startswith(("sqlite_", "batch_words_docsize"))
        and (part.what != "column" or part.name.partition(".")[0] in ours)
    }
    assert expected() == there
    assert (missing(made), strange(made)) == ([], [])
    made.close()


def test_the_indexes_are_called_as_the_tables_call_them() -> None:
    assert {index.name for table in metadata.tables.values() for index in table.indexes} == set(index_names())


def test_what_is_expected_is_known_without_sqlalchemy() -> None:
    code = (
        "import sys; from dryhouse.journal.parts import expected;"
        "print(len(expected()) > 100, 'sqlalchemy' in sys.modules)"
    )
    said = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert said.stdout.split() == ["True", "False"]


STRANGE = {
    "a trigger": ["CREATE TRIGGER sly AFTER INSERT ON batch BEGIN DELETE FROM weighing; END"],
    "a trigger called like ours": [
        "DROP TRIGGER batch_words_came",
        "CREATE TRIGGER batch_words_came AFTER INSERT ON batch BEGIN DELETE FROM weighing; END",
    ],
    "a view": ["CREATE VIEW no_end AS WITH RECURSIVE n(x) AS (SELECT 1 UNION ALL SELECT x FROM n) SELECT x FROM n"],
}


@pytest.mark.parametrize("what", STRANGE)
def test_what_could_act_on_its_own_is_refused_before_it_does(file: Path, what: str) -> None:
    before = changed(file, *STRANGE[what])
    for write in (True, False):
        with told(WorldProblem, "which this program did not put there"):
            open_journal(file, write=write)
    assert file.read_bytes() == before
    assert any("was not put there by this program" in said for said in in_words(check(file)))


def test_a_trigger_planted_while_the_journal_is_open_acts_on_nothing(file: Path) -> None:
    journal = open_journal(file, write=True)
    with closing(sqlite3.connect(file)) as other:
        other.execute(*STRANGE["a trigger"])
        other.commit()
    with told(WorldProblem, "sly"):
        journal.write([Change(None, Batch("pear", id=2))])
    assert [batch.id for batch in journal.where(Batch)] == [1]
    journal.close()


@pytest.mark.parametrize(
    "change",
    [
        "DROP TABLE lot_check",
        "DROP TABLE batch_words",
        "DROP TRIGGER batch_words_went",
        "DROP INDEX ix_batch_filter",
        "ALTER TABLE meal DROP COLUMN method",
    ],
)
def test_a_file_that_lost_a_part_is_damaged_and_stays_as_it_is(file: Path, change: str) -> None:
    before = changed(file, change)
    for write in (True, False):
        with told(WorldProblem, "damaged"):
            open_journal(file, write=write)
    assert file.read_bytes() == before


def test_a_column_of_another_kind_is_damage(file: Path) -> None:
    changed(
        file,
        "ALTER TABLE weighing RENAME TO old",
        "CREATE TABLE weighing AS SELECT * FROM old",
        "DROP TABLE old",
    )
    with told(WorldProblem, "damaged"):
        open_journal(file, write=False)


def in_pages(file: Path, *changes: str) -> None:
    """Changes that SQLite itself would refuse in a table of ours: its checks are switched off first."""
    with closing(sqlite3.connect(file)) as raw:
        made = raw.execute("SELECT sql FROM sqlite_master WHERE name = 'batch'").fetchone()[0]
        raw.execute("PRAGMA writable_schema = ON")
        for sql in (made.replace(" STRICT", ""), made):
            raw.execute("UPDATE sqlite_master SET sql = ? WHERE name = 'batch'", (sql,))
            raw.commit()
            raw.close()
            raw = sqlite3.connect(file)
            raw.execute("PRAGMA writable_schema = ON")
            if sql != made:
                for change in changes:
                    raw.execute(change)
                raw.commit()
        raw.close()


@pytest.mark.parametrize(
    "change",
    [
        "UPDATE batch SET prepared_mass_g = 'much', prepared_mass_typed = 'much'",
        "UPDATE batch SET prepared_mass_g = 9e999, prepared_mass_typed = '1 lb'",
        "UPDATE batch SET prepared_mass_g = 12.0, prepared_mass_typed = NULL",
        "UPDATE batch SET set_temperature_c = 1e300, set_temperature_typed = '1 F'",
        "UPDATE batch SET notes = x'ff00'",
        "UPDATE batch SET started = 'yesterday'",
        "UPDATE batch SET started = 9000000000000000000",
    ],
)
def test_a_value_that_was_never_kept_so_is_damage_and_named_by_the_check(file: Path, change: str) -> None:
    in_pages(file, change)
    journal = open_journal(file, write=False)
    with told(WorldProblem, "damaged"):
        journal.where(Batch)
    with told(WorldProblem, "damaged"):
        journal.get(Batch, 1)
    assert journal.where(Weighing) == ()
    journal.close()
    assert any(said.startswith(("Batch 1", "The file is damaged")) for said in in_words(check(file)))


def test_looking_at_a_file_of_another_mode_changes_no_byte_until_something_is_written(file: Path) -> None:
    before = changed(file)
    journal = open_journal(file, write=True)
    assert [batch.id for batch in journal.where(Batch)] == [1]
    journal.close()
    assert file.read_bytes() == before


def test_a_connection_that_only_checks_sees_the_same_parts(file: Path) -> None:
    database = connect(file, "ro")
    assert missing(database) == []
    database.close()
