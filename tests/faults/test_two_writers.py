"""Two windows on one journal: the second is told, the first goes on, readers come and go."""

from __future__ import annotations

from pathlib import Path

from dryhouse.journal.opening import open_journal
from dryhouse.kitchen.ports import Change
from dryhouse.kitchen.records import Batch
from dryhouse.science.errors import WorldProblem
from tests.faults.children import kill_after, run, start
from tests.told import told

HOLDING = """
journal = open_journal(file, write=True)
say("open")
import time
time.sleep(600)
"""
READING = """
journal = open_journal(file, write=False)
say(len(journal.where(Batch)))
journal.close()
"""
SECOND = """
try:
    open_journal(file, write=True)
except WorldProblem as problem:
    say(problem_sentence(problem))
"""


def test_the_second_window_is_told_which_file_and_that_nothing_changed(tmp_path: Path) -> None:
    file = tmp_path / "journal.dryhouse"
    first = open_journal(file, write=True)
    sentence = run(SECOND, file)
    assert str(file) in sentence
    assert "already open in another window" in sentence
    assert "Nothing was changed" in sentence
    first.write([Change(None, Batch("corn", id=1))])
    assert run(READING, file).strip() == "1"
    first.close()
    assert run(SECOND, file) == ""


def test_a_window_in_the_same_program_is_told_as_well(tmp_path: Path) -> None:
    file = tmp_path / "journal.dryhouse"
    first = open_journal(file, write=True)
    with told(WorldProblem, "another window"):
        open_journal(file, write=True)
    first.write([Change(None, Batch("corn", id=1))])
    first.close()


def test_a_window_that_was_killed_does_not_keep_the_journal_locked(tmp_path: Path) -> None:
    file = tmp_path / "journal.dryhouse"
    holding = start(HOLDING, file)
    assert holding.stdout is not None
    assert holding.stdout.readline() == "open\n"
    with told(WorldProblem, "another window"):
        open_journal(file, write=True)
    kill_after(holding, 0)
    open_journal(file, write=True).close()
