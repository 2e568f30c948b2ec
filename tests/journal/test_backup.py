"""Backups: whole files, the newest kept; restoring keeps what was there."""

from __future__ import annotations

import os
import sqlite3
import subprocess
import sys
import time
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path

import pytest

from dryhouse.journal.backup import back_up, back_up_daily, back_up_if_due, copy_to, emptied, restore
from dryhouse.journal.backup_list import listed
from dryhouse.journal.backup_names import backups_of
from dryhouse.journal.check import check
from dryhouse.journal.opening import open_journal
from dryhouse.kitchen.ports import Change
from dryhouse.kitchen.records import Batch
from dryhouse.science.errors import WorldProblem
from tests.rows import every_row
from tests.told import told


@pytest.fixture
def file(tmp_path: Path) -> Path:
    file = tmp_path / "journal.dryhouse"
    add(file, "corn", 1)
    return file


def add(file: Path, food: str, number: int) -> None:
    journal = open_journal(file, write=True)
    journal.write([Change(None, Batch(food, id=number))])
    journal.close()


def foods(file: Path) -> list[str]:
    journal = open_journal(file, write=False)
    try:
        return [b.food for b in journal.where(Batch)]
    finally:
        journal.close()


def forget_backups(file: Path) -> None:
    for kept in backups_of(file):
        kept.unlink()


def test_the_first_session_of_a_day_that_writes_leaves_a_backup(file: Path) -> None:
    (first,) = backups_of(file)
    assert foods(first) == ["corn"]
    add(file, "apple", 2)
    assert backups_of(file) == [first]
    yesterday = first.stat().st_mtime - 86_400
    os.utime(first, (yesterday, yesterday))
    foods(file)
    assert backups_of(file) == [first]
    add(file, "pear", 3)
    newest, *_ = backups_of(file)
    assert foods(newest) == ["corn", "apple", "pear"]


def test_a_session_to_write_in_which_nothing_is_written_leaves_no_backup(file: Path) -> None:
    (first,) = backups_of(file)
    yesterday = first.stat().st_mtime - 86_400
    os.utime(first, (yesterday, yesterday))
    open_journal(file, write=True).close()
    assert backups_of(file) == [first]


def test_a_backup_from_a_clock_that_was_ahead_does_not_stop_the_daily_one(file: Path) -> None:
    (first,) = backups_of(file)
    ahead = first.stat().st_mtime + 5 * 365 * 86_400
    os.utime(first, (ahead, ahead))
    add(file, "apple", 2)
    assert len(backups_of(file)) == 2


def test_a_day_s_backup_that_does_not_fit_stops_nobody(file: Path) -> None:
    forget_backups(file)
    (file.parent / "backups").rmdir()
    (file.parent / "backups").write_text("in the way")
    journal = open_journal(file, write=True)
    back_up_daily(journal.database, file)
    journal.write([Change(None, Batch("pear", id=2))])
    journal.close()
    assert foods(file) == ["corn", "pear"]


def test_a_backup_is_a_whole_journal_beside_the_first(file: Path) -> None:
    forget_backups(file)
    made = back_up(file)
    assert made.parent == file.parent / "backups"
    assert check(made) == []
    assert foods(made) == ["corn"]
    assert backups_of(file) == [made]


def test_a_backup_holds_what_an_open_window_has_just_saved(file: Path) -> None:
    journal = open_journal(file, write=True)
    journal.write([Change(None, Batch("apple", id=2))])
    made = back_up(file)
    journal.close()
    assert foods(made) == ["corn", "apple"]


def test_the_newest_backups_are_kept(file: Path) -> None:
    made = [back_up(file, keep=3) for _ in range(5)]
    assert backups_of(file) == made[:1:-1]


def test_backups_of_another_journal_in_the_same_folder_stay(file: Path) -> None:
    other = file.with_name("other.dryhouse")
    add(other, "pear", 1)
    kept = back_up(other, keep=1)
    for _ in range(3):
        back_up(file, keep=1)
    assert kept.exists()


def test_restoring_brings_back_the_state_and_keeps_the_present_one(file: Path) -> None:
    made = back_up(file)
    add(file, "apple", 2)
    former = restore(made, file)
    assert foods(file) == ["corn"]
    assert former is not None
    assert foods(former) == ["corn", "apple"]
    add(file, "pear", 2)
    assert foods(file) == ["corn", "pear"]


def test_restoring_where_no_journal_is_makes_it(file: Path, tmp_path: Path) -> None:
    target = tmp_path / "elsewhere" / "journal.dryhouse"
    assert restore(back_up(file), target) is None
    assert foods(target) == ["corn"]


def test_a_damaged_journal_is_set_aside_and_replaced(file: Path) -> None:
    made = back_up(file)
    ruined = b"\0" * 5000 + file.read_bytes()[5000:]
    file.write_bytes(ruined)
    aside = restore(made, file)
    assert foods(file) == ["corn"]
    assert aside is not None
    assert "damaged" in aside.name
    assert aside.read_bytes() == ruined


@pytest.mark.parametrize("content", [b"", b"a shopping list\n" * 200, b"SQLite format 3\0" + b"\1" * 4000])
def test_what_is_no_journal_is_not_restored(file: Path, content: bytes) -> None:
    wrong = file.with_name("wrong.dryhouse")
    wrong.write_bytes(content)
    before = file.read_bytes()
    with pytest.raises(WorldProblem):
        restore(wrong, file)
    assert file.read_bytes() == before


def test_a_backup_with_a_hole_in_it_is_not_restored(file: Path) -> None:
    made = back_up(file)
    whole = made.read_bytes()
    for page in range(4, len(whole) // 4096, 9):
        made.write_bytes(whole[: page * 4096] + b"\xff" * 4096 + whole[(page + 1) * 4096 :])
        with pytest.raises(WorldProblem):
            restore(made, file)
    assert foods(file) == ["corn"]


def test_restoring_into_a_journal_that_is_open_shows_there_at_once(file: Path) -> None:
    made = back_up(file)
    journal = open_journal(file, write=True)
    pear = Batch("pear", id=2)
    journal.write([Change(None, pear)])
    version = journal.version()
    former = restore(made, file)
    assert former is not None
    assert foods(former) == ["corn", "pear"]
    assert journal.version() != version
    assert [b.food for b in journal.where(Batch)] == ["corn"]
    with told(WorldProblem, "meanwhile"):
        journal.write([Change(pear, Batch("apple", id=2))])
    journal.write([Change(None, Batch("apple", id=journal.next_id(Batch)))])
    journal.close()
    assert foods(file) == ["corn", "apple"]


def test_a_journal_that_was_set_aside_while_it_was_open_takes_no_more(file: Path) -> None:
    made = back_up(file)
    journal = open_journal(file, write=True)
    file.rename(file.with_name("moved.dryhouse"))
    restore(made, file)
    with told(WorldProblem, "replaced while it was open here"):
        journal.write([Change(None, Batch("pear", id=2))])
    journal.close()
    assert foods(file) == ["corn"]


def test_a_missing_backup_and_the_journal_itself_are_refused(file: Path) -> None:
    with told(WorldProblem, "no file"):
        restore(file.with_name("gone.dryhouse"), file)
    with told(WorldProblem, "itself"):
        restore(file, file)


def test_what_is_no_journal_is_not_backed_up_either(tmp_path: Path) -> None:
    other = tmp_path / "letters.dryhouse"
    with closing(sqlite3.connect(other)) as foreign:
        foreign.execute("CREATE TABLE letters (text)")
    with told(WorldProblem, "not a Dryhouse journal"):
        back_up(other)
    assert list(tmp_path.iterdir()) == [other]


def test_there_is_nothing_to_back_up_before_the_first_entry(tmp_path: Path) -> None:
    with told(WorldProblem, "nothing to back up"):
        back_up(tmp_path / "journal.dryhouse")
    assert list(tmp_path.iterdir()) == []


def test_a_journal_that_was_written_to_is_due_once_a_day_and_one_that_was_only_read_is_not(file: Path) -> None:
    forget_backups(file)
    made = back_up_if_due(file)
    assert made is not None
    assert back_up_if_due(file) is None
    days_ago = made.stat().st_mtime - 3 * 86_400
    os.utime(made, (days_ago, days_ago))
    os.utime(file, (days_ago - 60, days_ago - 60))
    assert foods(file) == ["corn"]
    assert back_up_if_due(file) is None
    journal = open_journal(file, write=True)
    journal.write([Change(None, Batch("pear", id=2))])
    again = back_up_if_due(file)
    journal.close()
    assert again is not None
    assert foods(again) == ["corn", "pear"]


def test_a_backup_dated_ahead_of_the_clock_neither_stops_the_next_ones_nor_pushes_them_out(file: Path) -> None:
    forget_backups(file)
    first = back_up(file)
    ahead = first.rename(first.with_name("journal-2031-01-01T120000.000000Z.dryhouse"))
    made = [back_up(file, keep=2) for _ in range(4)]
    assert backups_of(file) == [ahead, made[3], made[2]]


def test_backups_are_listed_with_what_is_in_them_and_whether_they_are_whole(file: Path) -> None:
    forget_backups(file)
    whole = back_up(file)
    add(file, "pear", 2)
    ruined = back_up(file)
    ruined.write_bytes(b"ruined")
    with closing(sqlite3.connect(file)) as raw:
        raw.execute("UPDATE batch SET started = 9000000000000000000")
        raw.commit()
    no_help = back_up(file)
    last, newest, oldest = listed(file)
    assert (last.path, last.batches, last.whole) == (no_help, None, False)
    assert (newest.path, newest.batches, newest.whole) == (ruined, None, False)
    assert (oldest.path, oldest.batches, oldest.whole) == (whole, 1, True)
    assert abs((oldest.at - datetime.now(UTC)).total_seconds()) < 600


def test_a_copy_that_is_being_made_is_left_alone_and_the_rest_of_one_that_was_stopped_goes(file: Path) -> None:
    """The program that makes it is named by its number: while it runs, it is not disturbed either."""
    forget_backups(file)
    with subprocess.Popen([sys.executable, "-c", "input()"], stdin=subprocess.PIPE) as working:
        whose = {"working": str(working.pid), "gone": "999999999", "nobody": ""}
        parts = {
            who: file.parent
            / "backups"
            / f"journal-2026-11-2{n}T120000.000000Z.dryhouse.{pid}{'.' if pid else ''}part"
            for n, (who, pid) in enumerate(whose.items())
        }
        for part in parts.values():
            part.write_bytes(b"half a copy")
        back_up(file)
        assert [who for who, part in parts.items() if part.exists()] == ["working"]
        assert working.poll() is None
        working.communicate(b"\n")
    assert working.returncode == 0


def aged(backup: Path, hours: float) -> None:
    moment = time.time() - 3600 * hours
    os.utime(backup, (moment, moment))


@every_row(("hours", "due"), [(19.9, False), (20.1, True), (24.0, True), (-0.1, True)])
def test_a_daily_backup_is_due_once_the_last_is_twenty_hours_old(tmp_path: Path, hours: float, due: bool) -> None:
    file = tmp_path / f"j{hours}" / "journal.dryhouse"
    file.parent.mkdir()
    add(file, "corn", 1)
    (first,) = backups_of(file)
    aged(first, hours)
    journal = open_journal(file, write=True)
    back_up_daily(journal.database, file)
    journal.close()
    assert (len(backups_of(file)) == 2) is due


@every_row(
    ("backup", "written", "due"),
    [
        (30.0, 40.0, False),  # not written to since
        (30.0, 30.01, False),  # tidied as it was closed
        (30.0, 29.0, True),
        (19.0, 0.0, False),  # at most once a day
        (21.0, 0.0, True),
        (-5.0, 0.0, True),  # a clock that was ahead
    ],
)
def test_a_backup_is_due_where_the_journal_was_written_to_since_the_last(
    tmp_path: Path, backup: float, written: float, due: bool
) -> None:
    file = tmp_path / f"j{backup}-{written}" / "journal.dryhouse"
    file.parent.mkdir()
    add(file, "corn", 1)
    (first,) = backups_of(file)
    aged(first, backup)
    aged(file, written)
    assert (back_up_if_due(file) is not None) is due


def test_a_journal_that_was_lost_or_emptied_is_told_by_its_backups(file: Path) -> None:
    assert not emptied(file)
    content = file.read_bytes()
    file.write_bytes(b"")
    assert emptied(file)
    file.unlink()
    assert emptied(file)
    with closing(sqlite3.connect(file)) as blank:
        blank.execute("PRAGMA user_version = 1")
    assert emptied(file)
    forget_backups(file)
    assert not emptied(file), "nothing says that there was anything in it"
    file.write_bytes(content)
    assert not emptied(file)


def test_a_copy_goes_where_she_wants_it_and_is_no_backup(file: Path, tmp_path: Path) -> None:
    into = tmp_path / "stick" / "corn.dryhouse"
    into.parent.mkdir()
    into.write_text("an older copy")
    before = backups_of(file)
    copy_to(file, into)
    assert foods(into) == ["corn"]
    assert backups_of(file) == before
    into.with_name("corn.dryhouse-wal").touch()
    with told(WorldProblem, "open"):
        copy_to(file, into)
