"""What SQLite finds wrong with a file is said in words."""

import sqlite3
from contextlib import closing

import pytest

from dryhouse.journal.check import check
from dryhouse.journal.database import connect
from dryhouse.journal.file_faults import faults_of
from dryhouse.journal.sample import fresh_copy
from tests.told import in_words


@pytest.fixture
def file(tmp_path):
    import shutil

    return shutil.copyfile(fresh_copy(), tmp_path / "journal.dryhouse")


def changed(file, *statements):
    with closing(sqlite3.connect(file)) as database:
        for statement in statements:
            database.execute(statement)
        database.commit()


def test_a_whole_file_has_no_fault(file):
    database = connect(file, "ro")
    assert faults_of(database) == []
    database.close()


def test_a_record_that_belongs_to_nothing_is_named(file):
    changed(file, "DELETE FROM place WHERE id = 1")
    database = connect(file, "ro")
    assert any(said.endswith("belongs to a place that is not there.") for said in in_words(faults_of(database)))
    database.close()


@pytest.mark.parametrize(
    ("statement", "said"),
    [
        ("DROP TABLE batch_words", "batch_words is missing"),
        ("DROP INDEX ix_batch_filter", "ix_batch_filter is missing"),
        ("ALTER TABLE lot_check DROP COLUMN note", "lot_check.note is missing"),
        ("DROP TABLE weighing", "weighing is missing"),
        ("CREATE TRIGGER sly AFTER INSERT ON place BEGIN DELETE FROM weighing; END", "“sly” in the file"),
    ],
)
def test_a_part_that_is_gone_or_strange_is_named(file, statement, said):
    changed(file, statement)
    assert any(said in fault for fault in in_words(check(file)))


@pytest.mark.parametrize(
    ("statement", "said"),
    [
        ("UPDATE lot SET packed_on = '32 Foo' WHERE id = 3", "Lot 3 holds something that cannot be read"),
        ("UPDATE batch SET started = 9e18 WHERE id = 7", "Batch 7 holds something that cannot be read"),
        ("UPDATE batch SET prepared_mass_g = 9e999 WHERE id = 7", "Batch 7: “Weight loaded” is"),
        ("UPDATE weighing SET gross_g = 9e999 WHERE id = 9", "Weighing 9: “Scale reading” is no number"),
        ("UPDATE place_temperature SET temperature_c = 1e300 WHERE id = 2", "Temperature 2: "),
        ("UPDATE batch SET precook_method = 'sun' WHERE id = 7", "Batch 7: “How it was cooked” is “sun”"),
        ("UPDATE lot SET food = 'apple' WHERE id = (SELECT min(id) FROM lot WHERE food = 'corn')", "holds apple"),
        ("UPDATE batch SET prepared_mass_g = 5 WHERE id = 7", "was typed"),
    ],
)
def test_a_record_the_program_would_stumble_over_is_named(file, statement, said):
    changed(file, statement)
    assert any(said in fault for fault in in_words(check(file))), in_words(check(file))


def test_a_lot_of_another_food_than_its_batch_is_named_once(file):
    changed(file, "UPDATE lot SET food = 'apple' WHERE id = (SELECT min(id) FROM lot WHERE food = 'corn')")
    (fault,) = [said for said in in_words(check(file)) if "holds apple" in said]
    assert fault.startswith("Lot ")
    assert fault.count("Lot ") == 1
