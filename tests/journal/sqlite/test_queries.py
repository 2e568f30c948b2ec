"""What SQLite's own words answer: the index of words, long lists of numbers, and numbers once used."""

from __future__ import annotations

import pytest
from sqlalchemy import select

from dryhouse.journal.database import Database
from dryhouse.journal.sqlite.queries import as_text, batches_with_word, last_number
from dryhouse.journal.tables import TABLES
from dryhouse.journal.writing import write
from dryhouse.kitchen.ports import Change
from dryhouse.kitchen.records import Batch

CORN = Batch("corn", notes="A muggy night by the lake", id=3)
PEAR = Batch("pear", title="Überreif", id=8)


RECORDS = (CORN, PEAR)


@pytest.mark.parametrize(
    ("beginning", "found"), [("mug", [3]), ("lake", [3]), ("uber", [8]), ("ake", []), ("corn", [3])]
)
def test_batches_are_found_by_how_a_word_of_theirs_begins(database: Database, beginning: str, found: list) -> None:
    assert list(database.connection.scalars(batches_with_word(beginning))) == found


def test_the_index_follows_what_is_changed_and_removed(database: Database) -> None:
    write(database, [Change(CORN, Batch("corn", notes="clear", id=3)), Change(PEAR, None)])
    assert list(database.connection.scalars(batches_with_word("muggy"))) == []
    assert list(database.connection.scalars(batches_with_word("clear"))) == [3]
    assert list(database.connection.scalars(batches_with_word("uber"))) == []


def test_numbers_come_in_the_order_asked_for(database: Database) -> None:
    batch = TABLES[Batch].c
    numbers = select(batch.id).order_by(batch.food.desc())
    assert as_text(database.connection, numbers) == "[8,3]"
    assert as_text(database.connection, numbers.where(batch.food == "plum")) == "[]"


def test_a_number_once_used_stays_used(database: Database) -> None:
    write(database, [Change(PEAR, None)])
    assert last_number(database.connection, "batch") == 8
    assert last_number(database.connection, "lot") == 0
