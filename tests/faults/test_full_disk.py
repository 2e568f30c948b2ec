"""A disk without room: the save is refused in a sentence, everything before it stays, and saving goes on after."""

from __future__ import annotations

from pathlib import Path

import pytest

from dryhouse.journal import sample
from dryhouse.journal.check import check
from dryhouse.journal.opening import open_journal
from dryhouse.kitchen.ports import BatchQuery, Change
from dryhouse.kitchen.records import Batch
from dryhouse.science.errors import WorldProblem
from dryhouse.words.messages import problem_sentence
from tests.faults.children import run, start
from tests.journal.journals import value
from tests.told import told

LONG = "a long evening at the dryer " * 4000


def test_a_save_that_finds_no_room_changes_nothing_and_the_next_one_works(tmp_path: Path) -> None:
    file = tmp_path / "journal.dryhouse"
    journal = open_journal(file, write=True)
    journal.write([Change(None, Batch("corn", id=1))])
    pages = value(journal.database, "PRAGMA page_count")
    journal.database.driver.execute(f"PRAGMA max_page_count = {pages + 3}")
    with told(WorldProblem, "full") as problem:
        journal.write([Change(None, Batch("pear", id=2)), Change(None, Batch("apple", notes=LONG, id=3))])
    assert "Nothing was changed" in problem_sentence(problem.value)
    assert list(journal.batch_ids(BatchQuery())) == [1]
    journal.database.driver.execute("PRAGMA max_page_count = 1000000")
    journal.write([Change(None, Batch("apple", notes=LONG, id=3))])
    journal.close()
    assert check(file) == []


FILLING = """
import resource, signal
signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
journal = open_journal(file, write=True)
journal.write([Change(None, Batch("corn", id=1))])
room = max(file.stat().st_size, file.with_name(file.name + "-wal").stat().st_size) + 200_000
resource.setrlimit(resource.RLIMIT_FSIZE, (room, room))
number = 1
try:
    while True:
        journal.write([Change(None, Batch("apple", notes="noted " * 500, id=number + 1))])
        number += 1
except WorldProblem as problem:
    say(number)
    say(problem_sentence(problem))
say(len(journal.where(Batch)))
try:
    back_up(file)
    say("a backup fitted")
except WorldProblem as problem:
    say(problem_sentence(problem))
say(len(list((file.parent / "backups").glob("*.dryhouse"))))
"""


def test_the_system_refusing_to_let_the_file_grow_loses_no_saved_entry(tmp_path: Path) -> None:
    file = tmp_path / "journal.dryhouse"
    saved, sentence, there, *_ = run(FILLING, file).splitlines()
    assert int(saved) > 1
    assert "full" in sentence
    assert saved == there
    assert check(file) == []
    journal = open_journal(file, write=True)
    assert len(journal.where(Batch)) == int(saved)
    journal.close()


STARTING = """
import resource, signal
signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
resource.setrlimit(resource.RLIMIT_FSIZE, (20_000, 20_000))
try:
    open_journal(file, write=True)
except WorldProblem as problem:
    say(problem_sentence(problem))
"""


def test_a_new_journal_without_room_says_so_and_can_be_made_later(tmp_path: Path) -> None:
    file = tmp_path / "journal.dryhouse"
    assert "full" in run(STARTING, file)
    journal = open_journal(file, write=True)
    journal.write([Change(None, Batch("corn", id=1))])
    journal.close()
    assert check(file) == []


WITHOUT_ROOM = """
import resource, signal
signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
resource.setrlimit(resource.RLIMIT_FSIZE, (0, 0))
reader = open_journal(file, write=False)
say(len(reader.where(Batch)))
reader.close()
window = open_journal(file, write=True)
say(len(window.where(Batch)))
try:
    window.write([Change(None, Batch("pear", id=9))])
except WorldProblem as problem:
    say(problem_sentence(problem))
window.close()
"""
KILLED = """
journal = open_journal(file, write=True)
journal.write([Change(None, Batch("corn", id=2))])
say("written")
import os, signal
os.kill(os.getpid(), signal.SIGKILL)
"""


@pytest.mark.parametrize("log", [False, True], ids=["closed in order", "with a log left by a kill"])
def test_a_disk_without_any_room_still_lets_her_read(tmp_path: Path, log: bool) -> None:
    file = tmp_path / "journal.dryhouse"
    journal = open_journal(file, write=True)
    journal.write([Change(None, Batch("corn", id=1))])
    journal.close()
    if log:
        killed = start(KILLED, file)
        killed.communicate()
    file.with_name(file.name + "-shm").unlink(missing_ok=True)
    there = "2" if log else "1"
    read, seen, refused = run(WITHOUT_ROOM, file).splitlines()
    assert (read, seen) == (there, there)
    assert "full" in refused
    assert check(file) == []
    journal = open_journal(file, write=True)
    journal.write([Change(None, Batch("apple", id=7))])
    assert len(journal.where(Batch)) == int(there) + 1
    journal.close()


def test_a_sample_that_finds_no_room_names_the_disk_it_looked_for_room_on(tmp_path: Path, monkeypatch) -> None:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))

    def full(_file: Path) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(sample, "build", full)
    with told(WorldProblem, str(tmp_path / "cache")):
        sample.fresh_copy()
