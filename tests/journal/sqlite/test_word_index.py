"""The index of words: whether it says what the batches say, and how it is made anew."""

from __future__ import annotations

import pytest

from dryhouse.journal.database import Database
from dryhouse.journal.parts import missing
from dryhouse.journal.sqlite.word_index import TABLES, faults_in_index, make_anew, same_statement, triggers
from tests.journal.journals import ask


@pytest.fixture
def database(database: Database) -> Database:
    for number, food in enumerate(("corn", "pear", "apple"), 1):
        database.driver.execute("INSERT INTO batch (id, food, state) VALUES (?, ?, 'finished')", (number, food))
    return database


def found(database: Database, word: str) -> list[int]:
    return [row[0] for row in ask(database, "SELECT rowid FROM batch_words WHERE batch_words MATCH ?", (word,))]


def test_an_index_that_was_kept_true_has_no_fault(database: Database) -> None:
    assert not faults_in_index(database.driver)
    assert found(database, "pear") == [2]


@pytest.mark.parametrize(
    "change",
    [
        "INSERT INTO batch_words (batch_words) VALUES ('delete-all')",
        "DELETE FROM batch_words_data WHERE id > 10",
        "INSERT INTO batch_words (rowid, food) VALUES (9, 'squash')",
        "DROP TABLE batch_words_idx",
    ],
)
def test_an_index_that_says_otherwise_is_found_and_made_anew(database: Database, change: str) -> None:
    database.driver.execute(change)
    assert faults_in_index(database.driver)
    make_anew(database.driver)
    assert not faults_in_index(database.driver)
    assert missing(database) == []
    assert (found(database, "pear"), found(database, "squash")) == ([2], [])
    database.driver.execute("UPDATE batch SET food = 'plum' WHERE id = 2")
    assert (found(database, "pear"), found(database, "plum")) == ([], [2])


def test_the_triggers_are_told_by_their_statement_whatever_its_blanks() -> None:
    assert set(triggers()) == {"batch_words_came", "batch_words_went", "batch_words_changed"}
    came = triggers()["batch_words_came"]
    assert same_statement(came, came.replace("\n", "  \n "))
    assert not same_statement(came, came.replace("new.food", "old.food"))
    assert set(TABLES) >= {"batch_words", "batch_words_data"}
