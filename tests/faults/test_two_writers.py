"""Several windows and commands on one journal: each sees what the others save, and none takes another's place."""

from __future__ import annotations

from pathlib import Path

import pytest

from dryhouse.journal.check import check
from dryhouse.journal.opening import open_journal
from dryhouse.kitchen.ports import Change
from dryhouse.kitchen.records import Batch
from dryhouse.science.errors import WorldProblem
from tests.faults.children import kill_after, run, start
from tests.told import told


@pytest.fixture
def file(tmp_path: Path) -> Path:
    return tmp_path / "journal.dryhouse"


LOGGING = """
from dryhouse.handbook.reader import handbook
from dryhouse.kitchen.batches.log import BatchDraft, log_batch
from dryhouse.kitchen.kitchen import Kitchen
journal = open_journal(file, write=True)
kitchen = Kitchen(journal, handbook())
say("open")
for turn in range(int(sys.argv[2])):
    say(kitchen.do(log_batch, BatchDraft(Batch("corn", notes=sys.argv[3]))).record.id)
journal.close()
"""


def test_four_programs_that_log_at_once_lose_nothing_and_give_no_number_twice(file: Path) -> None:
    children = [start(LOGGING, file, 25, lane) for lane in range(4)]
    said = [child.communicate() for child in children]
    assert [child.returncode for child in children] == [0] * 4, said
    numbers = [[int(word) for word in out.split()[1:]] for out, _ in said]
    assert sorted(number for lane in numbers for number in lane) == list(range(1, 101))
    journal = open_journal(file, write=False)
    for lane, mine in enumerate(numbers):
        assert {journal.get(Batch, number).notes for number in mine} == {str(lane)}
    journal.close()
    assert check(file) == []


def test_what_a_command_saves_is_there_at_once_in_a_window_that_is_open(file: Path) -> None:
    window = open_journal(file, write=True)
    window.write([Change(None, Batch("pear", id=1))])
    before = window.version()
    run(LOGGING, file, 2, "beside")
    assert window.version() != before
    assert [batch.food for batch in window.where(Batch)] == ["pear", "corn", "corn"]
    window.write([Change(None, Batch("apple", id=window.next_id(Batch)))])
    window.close()
    assert check(file) == []


def test_an_undo_does_not_take_back_what_another_program_has_changed_since(file: Path) -> None:
    window, other = open_journal(file, write=True), open_journal(file, write=True)
    logged = Batch("corn", id=1)
    window.write([Change(None, logged)])
    other.write([Change(logged, Batch("corn", notes="crisp", id=1))])
    with told(WorldProblem, "changed or removed meanwhile"):
        window.write([Change(logged, None)])
    assert window.get(Batch, 1) == Batch("corn", notes="crisp", id=1)
    window.close()
    other.close()


HOLDING = """
journal = open_journal(file, write=True)
with journal.alone():
    journal.write([Change(None, Batch("pear", id=7))])
    say("written")
    import time
    time.sleep(600)
"""


def test_a_program_killed_in_the_middle_of_an_act_keeps_nobody_out_and_leaves_nothing_of_it(file: Path) -> None:
    holding = start(HOLDING, file)
    assert holding.stdout.readline() == "written\n"
    other = open_journal(file, write=True)
    assert other.where(Batch) == ()
    other.database.driver.execute("PRAGMA busy_timeout = 50")
    with told(WorldProblem, "Another program is using"):
        other.write([Change(None, Batch("corn", id=1))])
    kill_after(holding, 0)
    other.write([Change(None, Batch("corn", id=1))])
    assert [batch.food for batch in other.where(Batch)] == ["corn"]
    other.close()


@pytest.mark.parametrize("then", ["gone", "another one"])
def test_nothing_is_saved_into_a_file_that_was_put_away(file: Path, then: str) -> None:
    journal = open_journal(file, write=True)
    journal.write([Change(None, Batch("corn", id=1))])
    file.rename(file.with_name("kept.dryhouse"))
    if then == "another one":
        with told(WorldProblem, "which belongs to it"):
            open_journal(file, write=True)
        open_journal(file.with_name("other.dryhouse"), write=True).close()
        file.with_name("other.dryhouse").rename(file)
    with told(WorldProblem, "moved, deleted or replaced while it was open here"):
        journal.write([Change(None, Batch("pear", id=2))])
    journal.close()
