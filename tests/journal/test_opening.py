"""Opening a journal to read and to write."""

from __future__ import annotations

import subprocess
import sys
from contextlib import closing
from pathlib import Path

from dryhouse.journal.opening import open_journal
from dryhouse.kitchen.ports import BatchQuery, Change
from dryhouse.kitchen.records import Batch, Place
from dryhouse.science.errors import WorldProblem
from tests.told import told


def test_reading_where_there_is_no_file_is_an_empty_journal_and_makes_none(tmp_path: Path) -> None:
    journal = open_journal(tmp_path / "away" / "journal.dryhouse", write=False)
    assert journal.where(Batch) == ()
    assert list(journal.batch_ids(BatchQuery(text="corn"))) == []
    with told(WorldProblem, "no journal"):
        journal.write([Change(None, Place("pantry", id=1))])
    journal.close()
    assert list(tmp_path.iterdir()) == []


def test_writing_makes_the_file_and_its_folder(tmp_path: Path) -> None:
    file = tmp_path / "new" / "journal.dryhouse"
    open_journal(file, write=True).close()
    assert file.stat().st_size > 0
    with closing(open_journal(file, write=False)) as journal:
        assert journal.where(Batch) == ()


def test_an_empty_file_is_taken_for_a_new_journal(tmp_path: Path) -> None:
    file = tmp_path / "journal.dryhouse"
    file.touch()
    with closing(open_journal(file, write=False)) as journal:
        assert journal.where(Batch) == ()
    journal = open_journal(file, write=True)
    journal.write([Change(None, Place("pantry", id=1))])
    journal.close()
    with closing(open_journal(file, write=False)) as journal:
        assert len(journal.where(Place)) == 1


def test_what_one_opening_wrote_the_next_one_reads(tmp_path: Path) -> None:
    file = tmp_path / "Gläser & Tüten %20?.dryhouse"
    journal = open_journal(file, write=True)
    journal.write([Change(None, Batch("corn", id=1))])
    journal.close()
    again = open_journal(file, write=True)
    assert again.get(Batch, 1) == Batch("corn", id=1)
    again.close()


def test_a_reader_sees_what_a_writer_saves_meanwhile(tmp_path: Path) -> None:
    file = tmp_path / "journal.dryhouse"
    writer = open_journal(file, write=True)
    reader = open_journal(file, write=False)
    assert list(reader.batch_ids(BatchQuery())) == []
    writer.write([Change(None, Batch("corn", id=1))])
    assert list(reader.batch_ids(BatchQuery())) == [1]
    reader.close()
    writer.close()


def test_a_reader_cannot_write(tmp_path: Path) -> None:
    file = tmp_path / "journal.dryhouse"
    open_journal(file, write=True).close()
    reader = open_journal(file, write=False)
    with told(WorldProblem, "read"):
        reader.write([Change(None, Batch("corn", id=1))])
    reader.close()


def test_leaving_leaves_one_whole_file(tmp_path: Path) -> None:
    file = tmp_path / "journal.dryhouse"
    journal = open_journal(file, write=True)
    journal.write([Change(None, Batch("corn", id=1))])
    journal.close()
    journal.close()
    open_journal(file, write=False).close()
    assert {f.name for f in tmp_path.iterdir()} <= {"journal.dryhouse", "backups"}


def test_a_folder_is_no_journal(tmp_path: Path) -> None:
    for write in (False, True):
        with told(WorldProblem, "folder"):
            open_journal(tmp_path, write=write)


def test_where_there_is_no_journal_nothing_of_the_database_is_imported(tmp_path: Path) -> None:
    code = (
        "import sys; from pathlib import Path; from dryhouse.journal.opening import open_journal;"
        f"open_journal(Path({str(tmp_path / 'none.dryhouse')!r}), write=False).close();"
        "print('sqlalchemy' in sys.modules)"
    )
    answer = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=True, cwd=Path(__file__).parents[2]
    )
    assert answer.stdout.strip() == "False"


def test_a_current_journal_is_opened_without_the_machinery_of_migration(tmp_path: Path) -> None:
    file = tmp_path / "journal.dryhouse"
    open_journal(file, write=True).close()
    code = (
        "import sys; from pathlib import Path; from dryhouse.journal.opening import open_journal;"
        f"[open_journal(Path(p), write=True).close() for p in ({str(file)!r}, {str(tmp_path / 'new.dryhouse')!r})];"
        "print([m for m in ('alembic', 'sqlalchemy.orm', 'scipy', 'pint', 'PySide6') if m in sys.modules])"
    )
    answer = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=True, cwd=Path(__file__).parents[2]
    )
    assert answer.stdout.strip() == "[]"
