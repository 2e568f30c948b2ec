"""Single rows and parts of a file, taken in hand whatever is in them."""

from __future__ import annotations

import pytest

from dryhouse.journal.database import Database
from dryhouse.journal.parts import missing, strange
from dryhouse.journal.sqlite import mends
from dryhouse.journal.sqlite.file import enforce_foreign_keys
from dryhouse.kitchen.records import Batch, Lot


@pytest.fixture
def database(database: Database) -> Database:
    enforce_foreign_keys(database.driver, False)
    database.driver.execute("INSERT INTO batch (id, food, state) VALUES (1, 'corn', 'finished')")
    database.driver.execute(
        "INSERT INTO lot (id, food, packed_on, batch, sealed) VALUES (4, 'corn', '2026-08-02', 1, 1)"
    )
    return database


def test_a_row_is_read_loosened_and_taken_out(database: Database) -> None:
    found = mends.row(database.driver, Batch, 1)
    assert found is not None
    assert (found["id"], found["food"], found["started"]) == (1, "corn", None)
    assert mends.numbers_where(database.driver, Lot, "batch", 1) == [4]
    assert mends.orphans(database.driver, Lot, "batch", Batch) == []
    mends.remove(database.driver, Batch, 1)
    assert mends.row(database.driver, Batch, 1) is None
    assert mends.orphans(database.driver, Lot, "batch", Batch) == [4]
    mends.empty(database.driver, Lot, "batch", 4)
    assert mends.orphans(database.driver, Lot, "batch", Batch) == []


def test_a_strange_part_is_taken_out_by_its_name_whatever_is_in_it(database: Database) -> None:
    database.driver.execute('CREATE VIEW "a ""view; " AS SELECT 1')
    (part,) = strange(database)
    mends.take_out(database.driver, part)
    assert strange(database) == []
    mends.compare_indexes(database.driver)
    mends.without_word_index(database.driver)
    assert {part.what for part in missing(database)} == {"trigger"}


@pytest.mark.parametrize(
    ("damage", "one_row"),
    [
        ("NULL value in batch.food", True),
        ("non-REAL value in batch.prepared_mass_g", True),
        ("CHECK constraint failed in batch", True),
        ("*** in database main ***", False),
        ("row 3 missing from index ix_batch_started", False),
    ],
)
def test_damage_of_one_row_is_told_from_damage_of_the_file(damage: str, one_row: bool) -> None:
    assert mends.is_of_one_row(damage) is one_row
