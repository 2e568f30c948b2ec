"""New records wait beside a journal and come into it together, or not at all: the same in memory and in a file."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path

import pytest

from dryhouse.journal.mapping import mapped
from dryhouse.journal.missing_journal import MissingJournal
from dryhouse.journal.opening import open_journal
from dryhouse.journal.sqlite.waiting_rows import WaitingRows
from dryhouse.journal.staging import Waiting
from dryhouse.kitchen.ports import BatchQuery, Change, Journal
from dryhouse.kitchen.records import Batch, Dryer, OwnFood, Weighing
from dryhouse.science.errors import WorldProblem
from dryhouse.science.quantities import Mass
from tests.journal.journals import BOTH, empty_journal

NOON = datetime(2026, 8, 1, 12, tzinfo=UTC)
BOX, CORN = Dryer("box dryer", 10, id=1), Batch("corn", dryer=1, notes="first", id=1)


@pytest.fixture(params=BOTH)
def journal(request: pytest.FixtureRequest) -> Iterator[Journal]:
    with empty_journal(request.param) as made:
        yield made


def test_what_waits_can_be_asked_for_and_is_not_in_the_journal_yet(journal: Journal) -> None:
    staging = journal.stage()
    staging.add(CORN)
    assert staging.get(Batch, 1) == CORN
    assert staging.get(Batch, 2) is staging.get(Dryer, 1) is None
    assert journal.get(Batch, 1) is None
    assert not journal.highest_id(Batch)
    staging.close()


def test_numbers_of_a_kind_never_recorded_stay_and_others_go_on_from_the_last(journal: Journal) -> None:
    journal.write([Change(None, BOX), Change(None, CORN), Change(CORN, None)])
    assert journal.highest_id(Batch) == CORN.id, "also of one that is gone"
    staging = journal.stage()
    staging.add(Dryer("shelf dryer", 6, id=1))
    staging.add(Batch("apple", dryer=1, id=1))
    staging.add(Batch("pear", dryer=-1, id=2))
    staging.add(Weighing(2, NOON, Mass(5.0, "5 g"), id=70))
    bases = journal.take_in(staging, lambda bases: [Change(BOX, replace(BOX, trays=bases[Batch] + 3))])
    staging.close()
    assert (bases[Batch], bases[Dryer], bases[Weighing]) == (1, 1, 0)
    assert journal.get(Batch, 2) == Batch("apple", dryer=2, id=2)
    assert journal.get(Batch, 3) == Batch("pear", dryer=1, id=3)
    assert journal.where(Weighing) == (Weighing(3, NOON, Mass(5.0, "5 g"), id=70),)
    assert journal.get(Dryer, 1) == replace(BOX, trays=4)
    assert list(journal.batch_ids(BatchQuery(sort="id", descending=False))) == [2, 3]
    assert journal.next_id(Weighing) == 71


def test_where_one_thing_cannot_be_nothing_is_done(journal: Journal) -> None:
    journal.write([Change(None, BOX), Change(None, OwnFood("mine", "mine", "vegetable", id=1))])
    for wrong in (Batch("apple", dryer=-9, id=5), OwnFood("mine", "twice", "vegetable", id=1)):
        staging = journal.stage()
        staging.add(Batch("corn", id=1))
        staging.add(wrong)
        with pytest.raises(WorldProblem):
            journal.take_in(staging, lambda _bases: [])
        staging.close()
        assert journal.where(Batch) == ()
        assert not journal.highest_id(Batch)
    staging = journal.stage()
    staging.add(CORN)
    with pytest.raises(WorldProblem):
        journal.take_in(staging, lambda _bases: [Change(replace(BOX, trays=3), BOX)])
    staging.close()
    assert journal.where(Batch) == ()


def test_more_than_are_held_at_once_all_come(journal: Journal) -> None:
    staging = journal.stage()
    for n in range(1, 2502):
        staging.add(Weighing(1, NOON, Mass(float(n)), id=n))
    staging.add(Batch("corn", id=1))
    journal.take_in(staging, lambda _bases: [])
    staging.close()
    assert [w.gross.si for w in journal.where(Weighing, batch=1)] == [float(n) for n in range(1, 2502)]


def test_what_waits_comes_within_an_act_that_has_begun_too(journal: Journal) -> None:
    staging = journal.stage()
    staging.add(BOX)
    staging.add(CORN)
    with journal.alone():
        journal.take_in(staging, lambda _bases: [])
    staging.close()
    assert journal.where(Dryer) == (BOX,)
    assert journal.where(Batch) == (CORN,)


def test_a_journal_that_is_not_there_can_be_looked_at_but_not_written(tmp_path: Path) -> None:
    missing = MissingJournal(tmp_path / "no.dryhouse")
    staging = missing.stage()
    assert isinstance(staging, Waiting)
    staging.add(CORN)
    assert not missing.highest_id(Batch)
    with missing.at_one_moment(), pytest.raises(WorldProblem):
        missing.take_in(staging, lambda _bases: [])
    staging.close()
    assert list(tmp_path.iterdir()) == []


def test_what_is_read_at_one_moment_does_not_see_what_another_program_writes(tmp_path: Path) -> None:
    file = tmp_path / "j.dryhouse"
    writer = open_journal(file, write=True)
    writer.write([Change(None, BOX), Change(None, CORN)])
    reader = open_journal(file, write=False)
    with reader.at_one_moment():
        assert len(reader.where(Batch)) == 1
        writer.write([Change(None, Batch("apple", id=2))])
        assert len(reader.where(Batch)) == 1
    assert len(reader.where(Batch)) == 2
    reader.close()
    writer.close()


def test_rows_that_wait_leave_no_file_behind(tmp_path: Path, monkeypatch) -> None:
    monkeypatch.setenv("TMPDIR", str(tmp_path))
    monkeypatch.setenv("SQLITE_TMPDIR", str(tmp_path))
    rows = WaitingRows()
    rows.put(Dryer, [BOX])
    assert rows.row(Dryer, 1) == tuple(mapped(Dryer).values(BOX))
    rows.close()
    assert list(tmp_path.iterdir()) == []
