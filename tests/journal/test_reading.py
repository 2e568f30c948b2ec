"""Asking for records: which are found, in what order, and what is not asked."""

from __future__ import annotations

from datetime import UTC, date, datetime

import pytest

from dryhouse.journal import reading
from dryhouse.journal.database import in_memory
from dryhouse.journal.reading import every, last_number, one
from dryhouse.journal.revision import create
from dryhouse.journal.writing import write
from dryhouse.kitchen.ports import Change
from dryhouse.kitchen.records import Batch, Lot
from dryhouse.science.quantities import Mass

NOON = datetime(2026, 8, 1, 12, tzinfo=UTC)
RECORDS = (
    Batch("corn", started=NOON, prepared_mass=Mass(907.2, "2 lb"), id=3),
    Batch("apple", state="drying", started=NOON, id=1),
    Batch("o'brien; --", id=2),
    Lot("corn", date(2026, 8, 2), batch=3, sealed=False, id=1),
    Lot("corn", date(2026, 8, 3), id=2),
)


def test_a_record_comes_back_whole_by_its_number(database):
    assert one(database.connection, Batch, 3) == RECORDS[0]
    assert one(database.connection, Batch, 4) is None


def test_a_number_too_large_for_any_file_is_simply_not_there(database):
    assert one(database.connection, Batch, 10**30) is None


@pytest.mark.parametrize(
    ("kind", "equals", "found"),
    [
        (Batch, {}, [1, 2, 3]),
        (Batch, {"food": "corn"}, [3]),
        (Batch, {"food": ("apple", "corn")}, [1, 3]),
        (Batch, {"food": ()}, []),
        (Batch, {"food": "o'brien; --"}, [2]),
        (Batch, {"started": NOON, "state": "drying"}, [1]),
        (Batch, {"started": (NOON,)}, [1, 3]),
        (Batch, {"started": None}, [2]),
        (Lot, {"packed_on": date(2026, 8, 2)}, [1]),
        (Lot, {"packed_on": (date(2026, 8, 2), date(2026, 8, 3))}, [1, 2]),
        (Lot, {"sealed": False}, [1]),
        (Lot, {"batch": None}, [2]),
    ],
)
def test_records_are_found_by_their_fields_in_the_order_of_their_numbers(database, kind, equals, found):
    assert [record.id for record in every(database.connection, kind, equals)] == found


def test_any_number_of_values_can_be_asked_for_and_each_record_comes_once(database, monkeypatch):
    monkeypatch.setattr(reading, "_AT_ONCE", 2)
    numbers = (3, 2, 9, 1, 3, 7)
    foods = ("corn", "apple", "plum", "pear")
    assert [batch.id for batch in every(database.connection, Batch, {"id": numbers})] == [1, 2, 3]
    both = every(database.connection, Batch, {"id": numbers, "food": foods, "started": NOON})
    assert [batch.id for batch in both] == [1, 3]


def test_records_are_not_looked_up_by_weight(database):
    with pytest.raises(ValueError, match="seldom the same"):
        every(database.connection, Batch, {"prepared_mass": Mass(907.2)})


def test_the_last_number_is_the_highest_there_ever_was(database):
    assert last_number(database.connection, Batch) == 3
    write(database, [Change(RECORDS[3], None), Change(RECORDS[0], None)])
    assert last_number(database.connection, Batch) == 3
    fresh = in_memory()
    create(fresh)
    assert last_number(fresh.connection, Batch) == 0
    fresh.close()
