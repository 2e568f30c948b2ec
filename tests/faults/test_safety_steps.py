"""Each step the safety of a journal rests on, held by itself: what is on the disk when, and what undoes what."""

from __future__ import annotations

import os
import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from dryhouse.journal import backup
from dryhouse.journal.backup import back_up, restore
from dryhouse.journal.backup_names import backups_of
from dryhouse.journal.check import check
from dryhouse.journal.opening import open_journal
from dryhouse.journal.sqlite.file import transaction
from dryhouse.kitchen.ports import Change
from dryhouse.kitchen.records import Batch
from dryhouse.science.errors import WorldProblem
from tests.faults.children import start
from tests.faults.test_killed import MIGRATING, later_migrations
from tests.told import in_words, told


@pytest.fixture
def file(tmp_path: Path) -> Path:
    file = tmp_path / "journal.dryhouse"
    journal = open_journal(file, write=True)
    journal.write([Change(None, Batch("corn", id=1))])
    journal.close()
    for kept in backups_of(file):
        kept.unlink()
    return file


def test_a_copy_is_on_the_disk_before_it_has_its_name_and_its_name_before_it_is_answered(
    file: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    steps: list[str] = []
    really_replace, really_sync = os.replace, os.fsync

    def synced(handle: int) -> None:
        steps.append("folder" if os.path.isdir(f"/proc/self/fd/{handle}") else "file")
        really_sync(handle)

    def replaced(old: Path, new: Path) -> None:
        steps.append("name")
        really_replace(old, new)

    monkeypatch.setattr(os, "fsync", synced)
    monkeypatch.setattr(os, "replace", replaced)
    back_up(file)
    assert steps[:3] == ["file", "name", "folder"]


def test_a_backup_that_does_not_come_out_whole_is_not_kept_and_takes_no_other_one_s_place(
    file: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    good = back_up(file, keep=1)
    really = backup.copy_whole

    def torn(driver: sqlite3.Connection, into: Path) -> None:
        really(driver, into)
        into.write_bytes(into.read_bytes()[:9000])

    monkeypatch.setattr(backup, "copy_whole", torn)
    with told(WorldProblem, "damaged"):
        back_up(file, keep=1)
    assert backups_of(file) == [good]


def test_what_a_restore_left_is_looked_at_before_it_is_called_restored(
    file: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    good = back_up(file)
    really = backup.copy_over

    def torn(driver: sqlite3.Connection, into: Path) -> None:
        really(driver, into)
        into.write_bytes(into.read_bytes()[:9000])

    monkeypatch.setattr(backup, "copy_over", torn)
    with told(WorldProblem, "not whole"):
        restore(good, file)


def test_nobody_else_writes_between_the_first_look_and_the_last_word_of_an_act(file: Path) -> None:
    alone = sqlite3.connect(file, isolation_level=None)
    with closing(alone) as one, closing(sqlite3.connect(file, timeout=0)) as other:
        with transaction(one):
            assert one.execute("SELECT count(*) FROM batch").fetchone() == (1,)
            with pytest.raises(sqlite3.OperationalError, match="locked"):
                other.execute("UPDATE batch SET notes = 'theirs'")
        other.execute("UPDATE batch SET notes = 'theirs'")
        other.rollback()


def test_a_migration_that_was_killed_half_way_leaves_no_column_behind(file: Path, tmp_path: Path) -> None:
    slow = later_migrations(tmp_path / "slow", "import time; time.sleep(600)")
    child = start(MIGRATING, file, slow, "9999", "write")
    assert [child.stdout.readline().strip() for _ in range(2)] == ["ready", "half way"]
    child.kill()
    child.wait()
    child.close()
    with closing(sqlite3.connect(file)) as raw:
        columns = [row[1] for row in raw.execute("PRAGMA table_info(batch)")]
    assert "later" not in columns
    assert check(file) == []


def test_a_column_that_a_migration_left_half_made_is_named_and_taken_out(file: Path) -> None:
    from dryhouse.journal.mending import mend

    with closing(sqlite3.connect(file)) as raw:
        raw.execute("ALTER TABLE batch ADD COLUMN later TEXT")
        raw.commit()
    assert in_words(check(file)) == ["“batch.later” in the file was not put there by this program."]
    mend(file)
    assert check(file) == []
