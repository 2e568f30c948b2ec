"""Writing the changes of an act: all of them, in order, or none."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, datetime

import pytest

from dryhouse.journal.database import Database, in_memory
from dryhouse.journal.reading import every, one
from dryhouse.journal.revision import create
from dryhouse.journal.writing import write
from dryhouse.kitchen.ports import Change
from dryhouse.kitchen.records import Batch, Dryer, Weighing
from dryhouse.science.errors import WorldProblem
from dryhouse.science.quantities import Mass
from tests.told import told

NOON = datetime(2026, 8, 1, 12, tzinfo=UTC)
CORN, PEAR = Batch("corn", id=1), Batch("pear", id=2)


@pytest.fixture
def database() -> Iterator[Database]:
    made = in_memory()
    create(made)
    write(made, [Change(None, CORN)])
    yield made
    made.close()


def test_records_come_change_and_go_in_one_write(database):
    again = Batch("corn", title="second try", id=1)
    write(
        database,
        [Change(None, PEAR), Change(CORN, again), Change(PEAR, None), Change(None, Dryer("box", 10, id=4))],
    )
    assert every(database.connection, Batch, {}) == (again,)
    assert one(database.connection, Dryer, 4) == Dryer("box", 10, id=4)


@pytest.mark.parametrize(
    "last",
    [
        Change(Batch("corn", title="overtaken", id=1), None),
        Change(Batch("corn", title="overtaken", id=1), Batch("corn", title="mine", id=1)),
        Change(Batch("plum", id=7), Batch("plum", title="gone", id=7)),
    ],
    ids=["removed", "edited", "gone"],
)
def test_what_was_overtaken_is_refused_and_nothing_before_it_stays(database, last):
    with told(WorldProblem, "meanwhile"):
        write(database, [Change(None, PEAR), last])
    assert every(database.connection, Batch, {}) == (CORN,)


def test_a_record_without_a_number_stops_the_whole_write(database):
    with pytest.raises(ValueError, match="no number"):
        write(database, [Change(None, PEAR), Change(None, Weighing(1, NOON, Mass(1.0)))])
    assert every(database.connection, Batch, {}) == (CORN,)


def test_after_a_refusal_the_next_write_goes_through(database):
    with pytest.raises(WorldProblem):
        write(database, [Change(PEAR, None)])
    write(database, [Change(None, PEAR)])
    assert every(database.connection, Batch, {}) == (CORN, PEAR)


def test_nothing_to_write_writes_nothing(database):
    write(database, [])
    assert every(database.connection, Batch, {}) == (CORN,)
