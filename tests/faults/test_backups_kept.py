"""No backup is lost to another journal, to a damaged one or to its own restoring; it comes back as it was."""

from __future__ import annotations

import os
import shutil
import sqlite3
from pathlib import Path

import pytest

from dryhouse.journal.backup import KEEP, back_up, restore
from dryhouse.journal.backup_names import backups_of
from dryhouse.journal.check import check
from dryhouse.journal.opening import open_journal
from dryhouse.kitchen.ports import Change
from dryhouse.kitchen.records import Batch
from dryhouse.science.errors import WorldProblem
from tests.faults.children import kill_after, start
from tests.told import told


@pytest.fixture
def file(tmp_path: Path) -> Path:
    return filled(tmp_path / "journal.dryhouse", "corn")


def filled(file: Path, food: str, batches: int = 1) -> Path:
    journal = open_journal(file, write=True)
    journal.write([Change(None, Batch(food, notes="noted " * 60, id=n)) for n in range(1, batches + 1)])
    journal.close()
    for kept in backups_of(file):
        kept.unlink()
    return file


def foods(file: Path) -> list[str]:
    journal = open_journal(file, write=False)
    try:
        return [batch.food for batch in journal.where(Batch)]
    finally:
        journal.close()


def damage(file: Path) -> None:
    """Overwrite a page in the middle of the batches."""
    raw = sqlite3.connect(file)
    page = raw.execute("SELECT rootpage FROM sqlite_master WHERE name = 'batch'").fetchone()[0]
    raw.close()
    whole = file.read_bytes()
    file.write_bytes(whole[: (page - 1) * 4096] + b"\xff" * 4096 + whole[page * 4096 :])


def test_a_journal_whose_name_begins_alike_keeps_its_backups(file: Path) -> None:
    other = filled(file.with_name("journal-2025.dryhouse"), "pear")
    kept = [back_up(other), back_up(other)]
    for _ in range(KEEP + 2):
        back_up(file)
    assert backups_of(other) == kept[::-1]
    assert len(backups_of(file)) == KEEP


def test_a_name_with_brackets_keeps_as_many_as_any_other(tmp_path: Path) -> None:
    file = filled(tmp_path / "my[1] *.dryhouse", "corn")
    made = [back_up(file, keep=3) for _ in range(5)]
    assert backups_of(file) == made[:1:-1]


def test_what_is_no_backup_by_its_name_is_left_alone(file: Path) -> None:
    folder = file.parent / "backups"
    folder.mkdir(exist_ok=True)
    strangers = [
        folder / name
        for name in (
            "journal-before the circuit.dryhouse",
            "journal-2026-01-01Z.dryhouse",
            "journal-damaged-2026-01-01T101010.000001.dryhouse",
            "journal-old.dryhouse.part",
            "journal-2026-01-01T101010.000001Z.dryhouse.mine",
        )
    ]
    for stranger in strangers:
        stranger.write_text("hers")
    for _ in range(3):
        back_up(file, keep=1)
    assert all(stranger.read_text() == "hers" for stranger in strangers)


def test_a_damaged_journal_pushes_no_good_backup_out(file: Path) -> None:
    filled(file.with_name("long.dryhouse"), "corn", 200)
    file = file.with_name("long.dryhouse")
    good = [back_up(file, keep=2), back_up(file, keep=2)]
    damage(file)
    for _ in range(3):
        with told(WorldProblem, "damaged"):
            back_up(file, keep=2)
    assert backups_of(file) == good[::-1]
    assert all(check(kept) == [] for kept in good)
    assert {kept.name for kept in (file.parent / "backups").glob("long*")} == {kept.name for kept in good}


def test_a_damaged_journal_is_set_aside_when_a_backup_is_restored(file: Path) -> None:
    file = filled(file.with_name("long.dryhouse"), "corn", 200)
    good = back_up(file)
    damage(file)
    ruined = file.read_bytes()
    aside = restore(good, file)
    assert check(file) == []
    assert aside is not None
    assert aside.read_bytes() == ruined


def test_the_oldest_backup_can_be_restored_and_stays(file: Path) -> None:
    oldest = back_up(file)
    journal = open_journal(file, write=True)
    journal.write([Change(None, Batch("pear", id=9))])
    journal.close()
    for kept in backups_of(file):
        if kept != oldest:
            kept.unlink()
    for _ in range(KEEP - 1):
        back_up(file)
    assert backups_of(file)[-1] == oldest
    restore(oldest, file)
    assert foods(file) == ["corn"]
    assert oldest.exists()


LOGGING = """
journal = open_journal(file, write=True)
number = 0
while True:
    number += 1
    journal.write([Change(None, Batch("pear", notes="noted " * 60, id=number))])
    say(number)
"""


@pytest.mark.parametrize("same", [True, False], ids=["of the same journal", "of another one"])
def test_a_log_without_its_file_is_not_played_over_what_is_restored(tmp_path: Path, same: bool) -> None:
    file = tmp_path / "killed" / "journal.dryhouse"
    file.parent.mkdir()
    if same:
        filled(file, "corn", 5)
        kept = Path(shutil.copy(back_up(file), tmp_path / "kept.dryhouse"))
        file.unlink()
    else:
        kept = filled(tmp_path / "kept.dryhouse", "corn", 5)
    kill_after(start(LOGGING, file), 60)
    log = file.with_name(file.name + "-wal")
    left = log.read_bytes()
    assert left
    file.unlink()
    aside = restore(kept, file)
    assert foods(file) == ["corn"] * 5
    assert check(file) == []
    assert aside is not None
    assert aside.read_bytes() == left, "the log is kept, since it may hold what nothing else does"


def test_a_link_and_its_file_are_one_journal(file: Path) -> None:
    link = file.with_name("link.dryhouse")
    link.symlink_to(file)
    journal, other = open_journal(file, write=True), open_journal(link, write=True)
    journal.write([Change(None, Batch("pear", id=journal.next_id(Batch)))])
    assert other.next_id(Batch) == 3
    assert [batch.food for batch in other.where(Batch)] == ["corn", "pear"]
    other.write([Change(Batch("pear", id=2), None)])
    journal.close()
    other.close()
    kept = back_up(file)
    file.write_bytes(b"ruined")
    restore(kept, link)
    assert link.is_symlink()
    assert foods(link) == ["corn"]


BACKING_UP = """
for turn in range(6):
    say(back_up(file).name)
"""


def test_programs_that_back_up_at_once_do_not_sweep_each_other_s_away(file: Path) -> None:
    journal = open_journal(file, write=True)
    children = [start(BACKING_UP, file) for _ in range(4)]
    said = [child.communicate() for child in children]
    assert [child.returncode for child in children] == [0] * 4, said
    journal.close()
    assert len(backups_of(file)) == KEEP
    assert all(check(kept) == [] for kept in backups_of(file))
    assert [left.name for left in (file.parent / "backups").glob("*part*")] == []


def test_an_unfinished_copy_of_a_program_that_still_runs_is_left_to_it(file: Path) -> None:
    folder = file.parent / "backups"
    folder.mkdir(exist_ok=True)
    running = folder / f"journal-2026-01-01T101010.000001Z.dryhouse.{os.getpid()}.part"
    gone = folder / "journal-2026-01-01T101010.000002Z.dryhouse.4194399.part-journal"
    former = folder / "journal-2026-01-01T101010.000003Z.dryhouse.part"
    for part in (running, gone, former):
        part.write_text("half")
    back_up(file)
    assert [part.exists() for part in (running, gone, former)] == [True, False, False]
