"""Which batches fulfil a condition, each by itself; `test_batches.py` has them together."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

from dryhouse.journal.database import Database
from dryhouse.journal.searching import numbers_filtered, numbers_with_words
from dryhouse.kitchen.ports import BatchQuery
from dryhouse.kitchen.records import Batch, Dryer

NOON = datetime(2026, 8, 1, 12, tzinfo=UTC)
RECORDS = (
    Dryer("shelf dryer", 6, id=1),
    Batch("corn", dryer=1, started=NOON, id=1),
    Batch("apple", state="planned", notes="corny", started=NOON + timedelta(hours=1), id=2),
    Batch("apple", dryer=1, id=3),
)


def test_each_condition_is_answered_by_itself_and_no_condition_by_nothing(database: Database) -> None:
    query = BatchQuery(foods=("apple",), states=("planned",), dryer=1, since=NOON, until=NOON + timedelta(hours=1))
    found = [sorted(numbers.tolist()) for numbers in numbers_filtered(database.connection, query)]
    assert found == [[2, 3], [2], [1, 3], [1]], "foods, states, dryer, and both ends of the time"
    assert numbers_filtered(database.connection, BatchQuery(text="corn")) == []


def test_each_word_is_looked_for_in_the_batch_its_food_and_its_dryer(database: Database) -> None:
    found = [set(numbers.tolist()) for numbers in numbers_with_words(database.connection, "corn shelf plum")]
    assert found == [{1, 2}, {1, 3}, set()]
