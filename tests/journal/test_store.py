"""What every journal promises: one suite for the one in memory and the one in a file."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from threading import Thread

import pytest
from hypothesis import HealthCheck, given, settings

from dryhouse.kitchen.ports import BatchQuery, Change, Done, Journal
from dryhouse.kitchen.records import RECORD_KINDS, Batch, BatchEvent, Dryer, Lot, OwnFood, Preference, Weighing
from dryhouse.science.errors import WorldProblem
from dryhouse.science.quantities import Mass
from tests.journal.journals import BOTH, empty_journal
from tests.often import often
from tests.records import journals
from tests.told import told

NOON = datetime(2026, 8, 1, 12, tzinfo=UTC)
CORN = Batch("corn", prepared_mass=Mass(907.2, "2 lb"), started=NOON, id=1)


@pytest.fixture(params=BOTH)
def journal(request: pytest.FixtureRequest) -> Iterator[Journal]:
    with empty_journal(request.param) as made:
        yield made


def put(journal: Journal, *records: object) -> None:
    journal.write([Change(None, r) for r in records])  # type: ignore[arg-type]


@pytest.mark.parametrize("which", BOTH)
@given(listed=journals())
@settings(max_examples=often(12), deadline=None, suppress_health_check=[HealthCheck.too_slow])
def test_every_record_comes_back_as_it_was_written(which: str, listed: list) -> None:
    with empty_journal(which) as journal:
        put(journal, *listed)
        for record in listed:
            assert journal.get(type(record), record.id) == record
        for kind in RECORD_KINDS:
            ours = sorted((r for r in listed if type(r) is kind), key=lambda r: r.id)
            assert list(journal.where(kind)) == ours


@pytest.mark.parametrize("which", BOTH)
@given(listed=journals())
@settings(max_examples=often(8), deadline=None, suppress_health_check=[HealthCheck.too_slow])
def test_undoing_leaves_nothing_behind_and_doing_it_again_restores_all(which: str, listed: list) -> None:
    with empty_journal(which) as journal:
        done = Done("Put everything", tuple(Change(None, r) for r in listed))
        journal.write(done.changes)
        journal.write(done.undone().changes)
        assert all(journal.where(kind) == () for kind in RECORD_KINDS)
        journal.write(done.changes)
        assert all(journal.get(type(r), r.id) == r for r in listed)


def test_what_is_not_there_is_none(journal: Journal) -> None:
    assert journal.get(Batch, 1) is None
    assert journal.where(Batch, food="corn") == ()


def test_what_was_typed_comes_back_as_typed(journal: Journal) -> None:
    put(journal, CORN)
    found = journal.get(Batch, 1)
    assert found is not None
    assert found.prepared_mass == Mass(907.2, "2 lb")
    assert found.dried_mass is None


def test_times_keep_their_microseconds_and_their_zone(journal: Journal) -> None:
    at = datetime(2026, 11, 1, 1, 59, 59, 999_999, tzinfo=UTC)
    put(journal, CORN, Weighing(1, at, Mass(850.0), id=1))
    found = journal.get(Weighing, 1)
    assert found is not None
    assert found.at == at
    assert found.at.utcoffset() == timedelta(0)


def test_records_are_found_by_one_value_or_by_any_of_several(journal: Journal) -> None:
    put(journal, CORN, Batch("apple", id=2), Batch("corn", state="drying", id=3), Batch("pear", id=4))
    assert [b.id for b in journal.where(Batch, food="corn")] == [1, 3]
    assert [b.id for b in journal.where(Batch, food=("apple", "pear"))] == [2, 4]
    assert [b.id for b in journal.where(Batch, food="corn", state="drying")] == [3]
    assert [b.id for b in journal.where(Batch, started=NOON)] == [1]
    assert [b.id for b in journal.where(Batch, started=None)] == [2, 3, 4]
    assert journal.where(Batch, food=()) == ()


def test_a_number_is_never_used_again(journal: Journal) -> None:
    first = journal.next_id(Batch)
    put(journal, Batch("corn", id=first))
    journal.write([Change(Batch("corn", id=first), None)])
    assert journal.next_id(Batch) > first


def test_numbers_asked_for_before_writing_differ(journal: Journal) -> None:
    asked = [journal.next_id(Lot) for _ in range(5)]
    assert len(set(asked)) == 5
    put(journal, Batch("corn", id=40))
    assert journal.next_id(Batch) > 40


def test_a_record_without_a_number_is_our_own_mistake(journal: Journal) -> None:
    with pytest.raises(ValueError, match="number"):
        put(journal, Batch("corn"))


def test_an_edit_is_written_and_taken_back(journal: Journal) -> None:
    put(journal, CORN)
    edited = Batch("corn", dried_mass=Mass(198.0, "7 oz"), id=1)
    journal.write([Change(CORN, edited)])
    assert journal.get(Batch, 1) == edited
    journal.write([Change(edited, CORN)])
    assert journal.get(Batch, 1) == CORN


@pytest.mark.parametrize("after", [None, Batch("pear", id=1)])
def test_an_entry_that_changed_meanwhile_is_not_overwritten(journal: Journal, after: Batch | None) -> None:
    put(journal, CORN)
    with told(WorldProblem, "meanwhile"):
        journal.write([Change(Batch("apple", id=1), after)])
    assert journal.get(Batch, 1) == CORN


def test_a_number_that_is_taken_is_not_overwritten(journal: Journal) -> None:
    put(journal, CORN)
    with pytest.raises(WorldProblem):
        put(journal, Batch("pear", id=1))
    assert journal.get(Batch, 1) == CORN


def test_a_write_is_all_or_nothing(journal: Journal) -> None:
    put(journal, CORN)
    with pytest.raises(WorldProblem):
        journal.write([Change(None, Dryer("shelf dryer", 6, id=1)), Change(Batch("pear", id=9), None)])
    assert journal.where(Dryer) == ()
    put(journal, Dryer("shelf dryer", 6, id=1))


def test_what_an_act_that_was_broken_off_had_put_in_is_in_no_answer_afterwards(journal: Journal) -> None:
    put(journal, Dryer("shelf dryer", 6, id=1))

    def broken_off() -> None:
        with journal.alone():
            put(journal, CORN, Dryer("box dryer", 10, id=2))
            assert list(journal.batch_ids(BatchQuery())) == [1]
            assert list(journal.batch_ids(BatchQuery(foods=("corn",)))) == [1]
            assert len(journal.where(Dryer)) == 2
            raise KeyError

    with pytest.raises(KeyError):
        broken_off()
    assert list(journal.batch_ids(BatchQuery())) == []
    assert list(journal.batch_ids(BatchQuery(foods=("corn",)))) == []
    assert [dryer.id for dryer in journal.where(Dryer)] == [1]
    assert journal.get(Batch, 1) is None


def test_nothing_belongs_to_what_is_not_there(journal: Journal) -> None:
    with pytest.raises(WorldProblem):
        put(journal, Weighing(7, NOON, Mass(1.0), id=1))
    assert journal.where(Weighing) == ()


def test_what_others_belong_to_cannot_go_alone(journal: Journal) -> None:
    put(journal, CORN, BatchEvent(1, NOON, "paused", id=1))
    with pytest.raises(WorldProblem):
        journal.write([Change(CORN, None)])
    assert journal.get(Batch, 1) == CORN
    journal.write([Change(CORN, None), Change(BatchEvent(1, NOON, "paused", id=1), None)])
    assert journal.where(BatchEvent) == ()


def test_order_within_one_write_does_not_matter_for_what_belongs_together(journal: Journal) -> None:
    put(journal, BatchEvent(1, NOON, "paused", id=1), CORN)
    assert len(journal.where(BatchEvent, batch=1)) == 1


@pytest.mark.parametrize(
    ("first", "second"),
    [
        (Preference("units", "us", id=1), Preference("units", "metric", id=2)),
        (OwnFood("chili", "chili", "mixed", id=1), OwnFood("chili", "other chili", "mixed", id=2)),
    ],
)
def test_names_that_must_differ_do(journal: Journal, first: object, second: object) -> None:
    put(journal, first)
    with pytest.raises(WorldProblem):
        put(journal, second)


def test_threads_may_ask_at_once() -> None:
    with empty_journal("in a file") as journal:
        put(journal, CORN)
        wrong: list[object] = []

        def ask(lane: int) -> None:
            for turn in range(40):
                number = journal.next_id(Weighing)
                journal.write([Change(None, Weighing(1, NOON, Mass(float(turn)), note=str(lane), id=number))])
                if journal.get(Batch, 1) != CORN:
                    wrong.append(lane)

        lanes = [Thread(target=ask, args=(lane,)) for lane in range(4)]
        for lane in lanes:
            lane.start()
        for lane in lanes:
            lane.join()
        assert not wrong
        assert len(journal.where(Weighing, batch=1)) == 160


def test_getting_ready_changes_nothing_and_may_come_late() -> None:
    with empty_journal("in a file") as journal:
        put(journal, CORN)
        ready = Thread(target=journal.get_ready)
        ready.start()
        put(journal, Batch("pear", id=2))
        ready.join()
        assert len(journal.where(Batch)) == 2
        journal.close()
        journal.get_ready()


def test_a_closed_journal_says_so() -> None:
    with empty_journal("in a file") as journal:
        journal.close()
        with told(WorldProblem, "closed"):
            journal.get(Batch, 1)
