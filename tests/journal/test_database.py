"""One open database: transactions are whole, and closing twice does no harm."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator

import pytest

from dryhouse.journal.database import Database, in_memory
from tests.journal.journals import ask, value


@pytest.fixture
def database() -> Iterator[Database]:
    made = in_memory()
    made.driver.execute("CREATE TABLE tray (id INTEGER PRIMARY KEY, dryer INTEGER REFERENCES tray (id))")
    yield made
    made.close()


def test_what_is_done_in_a_transaction_stays(database):
    with database.transaction() as alchemy:
        alchemy.exec_driver_sql("INSERT INTO tray VALUES (1, NULL)")
    assert ask(database, "SELECT id FROM tray") == [(1,)]
    assert not database.driver.in_transaction


@pytest.mark.parametrize("wrong", [KeyboardInterrupt, RuntimeError])
def test_what_breaks_off_leaves_nothing_and_the_next_one_works(database, wrong):
    def half_way() -> None:
        with database.transaction() as alchemy:
            alchemy.exec_driver_sql("INSERT INTO tray VALUES (1, NULL)")
            raise wrong

    with pytest.raises(wrong):
        half_way()
    assert value(database, "SELECT count(*) FROM tray") == 0
    with database.transaction() as alchemy:
        alchemy.exec_driver_sql("INSERT INTO tray VALUES (2, NULL)")
    assert value(database, "SELECT id FROM tray") == 2


def test_what_belongs_to_nothing_is_refused(database):
    with pytest.raises(Exception, match="FOREIGN KEY"), database.transaction() as alchemy:
        alchemy.exec_driver_sql("INSERT INTO tray VALUES (1, 99)")
    assert ask(database, "SELECT * FROM tray") == []


def test_closing_twice_does_no_harm_and_asking_afterwards_does():
    database = in_memory()
    database.get_ready()
    database.close()
    database.close()
    assert database.closed
    with pytest.raises(sqlite3.ProgrammingError):
        ask(database, "SELECT 1")
