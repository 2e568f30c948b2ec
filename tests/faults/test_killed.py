"""Killed at any instant, the program loses nothing it has acknowledged, and the file opens."""

from __future__ import annotations

import sqlite3
from pathlib import Path

import pytest

from dryhouse.journal.backup import back_up, restore
from dryhouse.journal.backup_names import backups_of
from dryhouse.journal.check import check
from dryhouse.journal.opening import open_journal
from dryhouse.journal.revision import HEAD, migrations_folder
from dryhouse.kitchen.ports import Change
from dryhouse.kitchen.records import Batch, Weighing
from tests.faults.children import kill_after, start

SAVING = """
journal = open_journal(file, write=True)
if journal.get(Batch, 1) is None:
    journal.write([Change(None, Batch("corn", id=1))])
while True:
    number = journal.next_id(Weighing)
    journal.write([Change(None, Weighing(1, datetime.now(UTC), Mass(float(number)), id=number))])
    say(number)
"""


@pytest.fixture
def file(tmp_path: Path) -> Path:
    return tmp_path / "journal.dryhouse"


def saved(file: Path) -> set[int]:
    journal = open_journal(file, write=True)
    try:
        return {w.id for w in journal.where(Weighing)}
    finally:
        journal.close()


def test_a_kill_right_after_a_save_loses_nothing(file: Path) -> None:
    acknowledged: set[int] = set()
    for saves in (
        1,
        2,
        3,
        5,
        8,
        40,
        250,
    ):  # within the last, SQLite takes its log of a thousand pages into the file
        said = {int(word) for word in kill_after(start(SAVING, file), saves)}
        assert said.isdisjoint(acknowledged), "a number came twice"
        acknowledged |= said
        there = saved(file)
        assert acknowledged <= there
        assert len(there - acknowledged) <= 8, "at most one unacknowledged save a kill"
        assert check(file) == []


MAKING = """
say("making")
for turn in range(10_000):
    open_journal(file.with_name(f"new{turn}.dryhouse"), write=True).close()
    say(turn)
"""


@pytest.mark.parametrize("lines", [1, 2, 4, 7, 12])
def test_a_kill_while_a_journal_is_made_leaves_one_that_opens(tmp_path: Path, lines: int) -> None:
    kill_after(start(MAKING, tmp_path / "x"), lines)
    made = list(tmp_path.glob("new*.dryhouse"))
    assert made or lines == 1
    for each in made:
        journal = open_journal(each, write=True)
        journal.write([Change(None, Batch("corn", id=journal.next_id(Batch)))])
        journal.close()
        assert check(each) == []


def fill(file: Path, batches: int = 400) -> None:
    journal = open_journal(file, write=True)
    journal.write(
        [Change(None, Batch("corn", notes="as noted that evening " * 40, id=n)) for n in range(1, batches)]
    )
    journal.close()
    for kept in backups_of(file):
        kept.unlink()


BACKING_UP = """
say("ready")
while True:
    back_up(file, keep=3)
    say("backed up")
"""


@pytest.mark.parametrize("lines", [1, 2, 3, 6])
def test_a_kill_during_a_backup_leaves_only_whole_backups(file: Path, lines: int) -> None:
    fill(file)
    kill_after(start(BACKING_UP, file), lines)
    assert check(file) == []
    found = backups_of(file)
    assert len(found) >= min(lines - 1, 3)
    assert all(check(each) == [] for each in found)
    back_up(file, keep=3)
    assert list((file.parent / "backups").glob("*.part*")) == []
    assert len(backups_of(file)) <= 3


RESTORING = """
say("ready")
while True:
    restore(Path(sys.argv[2]), file)
    say("restored")
"""


@pytest.mark.parametrize("lines", [1, 2, 3, 5])
def test_a_kill_during_a_restore_leaves_the_old_or_the_new_journal(file: Path, tmp_path: Path, lines: int) -> None:
    other = tmp_path / "other" / "other.dryhouse"
    fill(other, 50)
    fill(file)
    kill_after(start(RESTORING, file, other), lines)
    assert check(file) == []
    journal = open_journal(file, write=True)
    assert len(journal.where(Batch)) in ({399, 49} if lines == 1 else {49})
    journal.close()
    assert restore(other, file) is not None


NEXT = '''"""A later shape, for this test."""
from alembic import op
revision = "{next}"
down_revision = "{head}"
branch_labels = None
depends_on = None

def upgrade():
    connection = op.get_bind()
    connection.exec_driver_sql("ALTER TABLE batch ADD COLUMN later TEXT")
    connection.exec_driver_sql("UPDATE batch SET later = notes")
    print("half way", flush=True)
    {then}
    connection.exec_driver_sql("CREATE TABLE afterwards (id INTEGER PRIMARY KEY)")
'''
MIGRATING = """
import dryhouse.journal.opening as opening, dryhouse.journal.revision as revision
opening.HEAD = revision.HEAD = sys.argv[3]
revision.migrations_folder = lambda: Path(sys.argv[2])
say("ready")
journal = open_journal(file, write=sys.argv[4] == "write")
say(len(journal.where(Batch)))
journal.close()
"""


def later_migrations(folder: Path, then: str) -> Path:
    (folder / "versions").mkdir(parents=True)
    for name in (
        "env.py",
        "script.py.mako",
        *(f"versions/{f.name}" for f in migrations_folder().glob("versions/*.py")),
    ):
        (folder / name).write_bytes((migrations_folder() / name).read_bytes())
    (folder / "versions" / "9999_later.py").write_text(NEXT.format(next="9999", head=HEAD, then=then))
    return folder


def test_a_kill_during_a_migration_leaves_the_journal_as_it_was(file: Path, tmp_path: Path) -> None:
    fill(file)
    slow = later_migrations(tmp_path / "slow", "import time; time.sleep(600)")
    said = kill_after(start(MIGRATING, file, slow, "9999", "write"), 2)
    assert said == ["ready", "half way"]
    assert check(file) == []
    journal = open_journal(file, write=True)
    assert len(journal.where(Batch)) == 399
    journal.close()
    (kept,) = backups_of(file)
    assert check(kept) == []


def test_a_migration_that_fails_leaves_the_journal_as_it_was(file: Path, tmp_path: Path) -> None:
    fill(file)
    failing = later_migrations(tmp_path / "failing", "raise RuntimeError('no further')")
    child = start(MIGRATING, file, failing, "9999", "write")
    _, errors = child.communicate()
    assert "no further" in errors
    assert check(file) == []


def test_an_older_journal_is_backed_up_and_brought_up_to_date(file: Path, tmp_path: Path) -> None:
    fill(file)
    good = later_migrations(tmp_path / "good", "pass")
    child = start(MIGRATING, file, good, "9999", "write")
    said, errors = child.communicate()
    assert said.split("\n")[:3] == ["ready", "half way", "399"], errors
    assert len(backups_of(file)) == 1
    raw = sqlite3.connect(file)
    assert raw.execute("SELECT version_num FROM alembic_version").fetchone() == ("9999",)
    assert raw.execute("SELECT count(*) FROM afterwards").fetchone() == (0,)
    raw.close()


def test_reading_an_older_journal_leaves_the_file_as_it_is(file: Path, tmp_path: Path) -> None:
    fill(file)
    before = file.read_bytes()
    good = later_migrations(tmp_path / "good", "pass")
    said, errors = start(MIGRATING, file, good, "9999", "read").communicate()
    assert said.split("\n")[:3] == ["ready", "half way", "399"], errors
    assert file.read_bytes() == before
    assert backups_of(file) == []
