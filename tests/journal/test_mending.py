"""What can be mended is, in one step, and nothing is lost by it: what is taken out is kept beside."""

from __future__ import annotations

import json
import shutil
import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from dryhouse.journal import mending
from dryhouse.journal.check import check
from dryhouse.journal.mending import mend, mendable
from dryhouse.journal.opening import open_journal
from dryhouse.journal.sample import build
from dryhouse.kitchen.ports import BatchQuery
from dryhouse.kitchen.records import Batch, Lot, LotMove, Weighing
from dryhouse.science.errors import WorldProblem
from tests.told import in_words, told


@pytest.fixture(scope="module")
def whole(tmp_path_factory: pytest.TempPathFactory) -> Path:
    file = tmp_path_factory.mktemp("whole") / "whole.dryhouse"
    build(file)
    return file


@pytest.fixture
def file(whole: Path, tmp_path: Path) -> Path:
    return Path(shutil.copy(whole, tmp_path / "journal.dryhouse"))


def changed(file: Path, *statements: str) -> bytes:
    with closing(sqlite3.connect(file)) as raw:
        for statement in statements:
            raw.execute(statement)
        raw.commit()
    return file.read_bytes()


def count(file: Path, kind: type) -> int:
    journal = open_journal(file, write=False)
    try:
        return len(journal.where(kind))
    finally:
        journal.close()


def aside(file: Path) -> list[dict]:
    kept = list((file.parent / "backups").glob("journal-set-aside-*.json"))
    return [row for each in kept for row in json.loads(each.read_text())["rows"]]


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ("DROP INDEX ix_batch_filter", "The index ix_batch_filter was rebuilt."),
        ("DROP TABLE batch_words", "The search index was rebuilt."),
        ("DROP TABLE batch_words_config", "The search index was rebuilt."),
        ("DROP TABLE batch_words_data", "The search index was rebuilt."),
        ("DROP TABLE batch_words_idx", "The search index was rebuilt."),
        ("ALTER TABLE batch_words_idx DROP COLUMN pgno", "The search index was rebuilt."),
        ("ALTER TABLE batch_words_data ADD COLUMN more TEXT", "The search index was rebuilt."),
        ("DROP TRIGGER batch_words_went", "The search index was rebuilt."),
        ("INSERT INTO batch_words (batch_words) VALUES ('delete-all')", "The search index was rebuilt."),
        ("CREATE TRIGGER sly AFTER INSERT ON place BEGIN DELETE FROM weighing; END", "“sly” was removed"),
        ('CREATE VIEW "a ""view" AS SELECT 1', '“a "view” was removed'),
    ],
)
def test_what_is_missing_is_made_anew_and_what_is_strange_is_taken_out(file: Path, change: str, said: str) -> None:
    changed(file, change)
    assert check(file) != []
    done = in_words(mend(file))
    assert any(said in line for line in done), done
    assert check(file) == []
    assert aside(file) == []
    assert done[-1].startswith("The file as it was is kept as ")
    assert [kept.read_bytes() != b"" for kept in (file.parent / "backups").glob("journal-before-mending-*")] == [
        True
    ]
    journal = open_journal(file, write=True)
    assert len(journal.batch_ids(BatchQuery(text="corn"))) > 3
    journal.close()


@pytest.mark.parametrize(("was", "now"), [("unicode61", "unicode60"), ("prefix", "qrefix"), ("title", "titlu")])
def test_an_index_of_words_whose_making_was_changed_is_refused_and_made_anew(
    file: Path, was: str, now: str
) -> None:
    """One bit of its statement is enough that SQLite can neither search in it nor drop it, or takes other words."""
    changed(
        file,
        "PRAGMA writable_schema = ON",
        f"UPDATE sqlite_master SET sql = replace(sql, '{was}', '{now}') WHERE name = 'batch_words'",
    )
    for write in (False, True):
        with told(WorldProblem, "is damaged"):
            open_journal(file, write=write)
    assert in_words(check(file)) == ["The table batch_words is missing from the file."]
    assert "The search index was rebuilt." in in_words(mend(file))
    assert check(file) == []
    journal = open_journal(file, write=True)
    assert len(journal.batch_ids(BatchQuery(text="corn"))) > 3
    journal.close()


def test_an_index_that_lost_its_rows_is_filled_again(file: Path) -> None:
    with closing(sqlite3.connect(file)) as raw:
        (as_it_should_be,) = raw.execute("SELECT sql FROM sqlite_master WHERE name = 'ix_batch_filter'").fetchone()
        raw.execute("DROP INDEX ix_batch_filter")
        raw.execute(f"{as_it_should_be} WHERE id < 3")
        raw.execute("PRAGMA writable_schema = ON")
        raw.execute("UPDATE sqlite_master SET sql = ? WHERE name = 'ix_batch_filter'", (as_it_should_be,))
        raw.commit()
    assert check(file) != []
    mend(file)
    assert check(file) == []
    with closing(sqlite3.connect(file)) as raw:
        assert raw.execute("PRAGMA integrity_check").fetchall() == [("ok",)]


def test_a_record_that_cannot_be_read_is_set_aside_with_what_belongs_to_it(file: Path) -> None:
    batches, weighings = count(file, Batch), count(file, Weighing)
    with closing(sqlite3.connect(file)) as raw:
        number = raw.execute("SELECT batch FROM weighing GROUP BY batch ORDER BY count(*) DESC").fetchone()[0]
        own = raw.execute("SELECT count(*) FROM weighing WHERE batch = ?", (number,)).fetchone()[0]
    changed(file, f"UPDATE batch SET started = 9000000000000000000 WHERE id = {number}")
    assert f"Batch {number} holds something that cannot be read." in in_words(check(file))
    done = in_words(mend(file))
    assert check(file) == []
    assert count(file, Batch) == batches - 1
    assert count(file, Weighing) == weighings - own
    kinds = [row["kind"] for row in aside(file)]
    assert kinds.count("Batch") == 1
    assert kinds.count("Weighing") == own
    assert any("out of the journal" in line for line in done)
    assert aside(file)[0]["row"]["started"] == 9000000000000000000


def test_what_names_something_that_is_gone_names_nothing_and_what_belongs_to_it_is_set_aside(file: Path) -> None:
    lots = count(file, Lot)
    changed(file, "DELETE FROM batch WHERE id = 1", "DELETE FROM place WHERE id = 2")
    assert check(file) != []
    mend(file)
    assert check(file) == []
    assert count(file, Lot) == lots, "a jar stays a jar without its batch"
    journal = open_journal(file, write=False)
    assert not journal.where(Lot, batch=1)
    assert not journal.where(LotMove, place=2)
    journal.close()
    belong = {"Weighing", "BatchPart", "BatchEvent", "LotMove", "PlaceTemperature"}
    assert {row["kind"] for row in aside(file)} <= belong
    assert aside(file)


def test_text_that_is_none_and_an_infinite_weight_are_kept_as_they_stood(file: Path) -> None:
    changed(
        file,
        "UPDATE weighing SET note = CAST(x'ff80' AS TEXT) WHERE id = 5",
        "UPDATE weighing SET gross_g = 9e999 WHERE id = 6",
    )
    found = check(file)
    assert "Weighing 6 holds something that cannot be read." in in_words(found)
    assert any(map(mendable, found))
    mend(file)
    assert check(file) == []
    assert [row["row"]["note"] for row in aside(file) if row["row"]["id"] == 5] == [{"bytes": "ff80"}]
    assert [row["row"]["gross_g"] for row in aside(file) if row["row"]["id"] == 6] == [{"number": "inf"}]


def test_a_column_that_holds_text_for_a_number_is_said_to_be_mendable(file: Path) -> None:
    """The schema is put back after the change: a table as this program makes it takes no such value."""
    with closing(sqlite3.connect(file)) as raw:
        (as_made,) = raw.execute("SELECT sql FROM sqlite_master WHERE name = 'weighing'").fetchone()
    for made, change in (
        (as_made.strip().removesuffix("STRICT"), "SELECT 1"),
        (as_made, "UPDATE weighing SET gross_g = 'heavy' WHERE id = 6"),
    ):
        with closing(sqlite3.connect(file)) as raw:
            raw.execute(change)
            raw.execute("PRAGMA writable_schema = ON")
            raw.execute("UPDATE sqlite_master SET sql = ? WHERE name = 'weighing'", (made,))
            raw.commit()
    found = check(file)
    assert found
    assert all(map(mendable, found)), in_words(found)
    mend(file)
    assert check(file) == []
    assert [row["row"]["gross_g"] for row in aside(file)] == ["heavy"]


@pytest.mark.parametrize("change", ["DROP TABLE weighing", "UPDATE alembic_version SET version_num = '0001'"])
def test_where_a_part_is_gone_nothing_is_tried_and_a_backup_asked_for(file: Path, change: str) -> None:
    before = changed(file, change)
    with told(WorldProblem, "restore a backup"):
        mend(file)
    assert file.read_bytes() == before


def test_a_mend_that_does_not_come_to_its_end_changes_nothing(file: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    changed(file, "UPDATE weighing SET gross_g = 9e999 WHERE id = 6", "DROP INDEX ix_batch_filter")
    said = in_words(check(file))

    def full(*_asked: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(mending, "_write", full)
    with told(WorldProblem, "full"):
        mend(file)
    assert in_words(check(file)) == said


def test_a_window_that_is_open_goes_on_after_a_mend(file: Path) -> None:
    journal = open_journal(file, write=True)
    changed(file, "DROP INDEX ix_batch_filter")
    with told(WorldProblem, "damaged"):
        journal.version()
    mend(file)
    journal.version()
    batch = journal.where(Batch)[0]
    assert journal.get(Batch, batch.id) == batch
    journal.close()
