"""The index of words in batches: what makes it, what keeps it true, and how it is made anew."""

from __future__ import annotations

import sqlite3

WORDS = (
    """CREATE VIRTUAL TABLE batch_words USING fts5(
    food, title, form, pretreatment, notes,
    content='batch', content_rowid='id', columnsize=0, detail=none,
    tokenize='unicode61 remove_diacritics 2', prefix='1 2 3'
)""",
    """CREATE TRIGGER batch_words_came AFTER INSERT ON batch BEGIN
    INSERT INTO batch_words (rowid, food, title, form, pretreatment, notes)
    VALUES (new.id, new.food, new.title, new.form, new.pretreatment, new.notes);
END""",
    """CREATE TRIGGER batch_words_went AFTER DELETE ON batch BEGIN
    INSERT INTO batch_words (batch_words, rowid, food, title, form, pretreatment, notes)
    VALUES ('delete', old.id, old.food, old.title, old.form, old.pretreatment, old.notes);
END""",
    """CREATE TRIGGER batch_words_changed AFTER UPDATE OF food, title, form, pretreatment, notes ON batch BEGIN
    INSERT INTO batch_words (batch_words, rowid, food, title, form, pretreatment, notes)
    VALUES ('delete', old.id, old.food, old.title, old.form, old.pretreatment, old.notes);
    INSERT INTO batch_words (rowid, food, title, form, pretreatment, notes)
    VALUES (new.id, new.food, new.title, new.form, new.pretreatment, new.notes);
END""",
)
"""The index of words in batches, and what keeps it true. SQLite writes it; no record lives in it."""

TABLES = ("batch_words", "batch_words_config", "batch_words_data", "batch_words_idx")
"""The tables SQLite keeps it in."""
COLUMNS = {
    "batch_words_config": {"k": "", "v": ""},
    "batch_words_data": {"id": "INTEGER", "block": "BLOB"},
    "batch_words_idx": {"segid": "", "term": "", "pgno": ""},
}
"""Their columns, and what SQLite says they hold."""


_PARTS = (
    "CREATE TABLE IF NOT EXISTS batch_words_data (id INTEGER PRIMARY KEY, block BLOB)",
    "CREATE TABLE IF NOT EXISTS batch_words_idx (segid, term, pgno, PRIMARY KEY (segid, term)) WITHOUT ROWID",
    "CREATE TABLE IF NOT EXISTS batch_words_config (k PRIMARY KEY, v) WITHOUT ROWID",
    "INSERT OR IGNORE INTO batch_words_config VALUES ('version', 4)",
    "INSERT OR IGNORE INTO batch_words_data VALUES (1, x''), (10, x'00000000000000')",
)
"""Those tables as far as they are missing, with what an empty index has in them: without them SQLite cannot even
drop it."""


def triggers() -> dict[str, str]:
    """Each trigger that keeps the index true, and the statement that made it."""
    made = [statement for statement in WORDS if statement.startswith("CREATE TRIGGER")]
    return {statement.split()[2]: statement for statement in made}


def same_statement(one: str, other: str) -> bool:
    """Whether two statements differ in nothing but blanks."""
    return one.split() == other.split()


def faults_in_index(driver: sqlite3.Connection) -> bool:
    """Whether the index says otherwise than the batches. Writes nothing, but needs a connection that may write."""
    try:
        driver.execute("INSERT INTO batch_words (batch_words, rank) VALUES ('integrity-check', 1)")
    except sqlite3.DatabaseError:
        return True
    return False


def _read_as_made(driver: sqlite3.Connection) -> None:
    """Put right what SQLite keeps of how the index was made: it cannot drop what it cannot read."""
    driver.execute("PRAGMA writable_schema = ON")
    driver.execute("UPDATE sqlite_master SET sql = ? WHERE name = ? AND sql <> ?", (WORDS[0], TABLES[0], WORDS[0]))
    driver.execute("PRAGMA writable_schema = RESET")


def make_anew(driver: sqlite3.Connection) -> None:
    """Drop what there is of the index and make it from the batches."""
    for name in triggers():
        driver.execute(f"DROP TRIGGER IF EXISTS {name}")
    for statement in _PARTS:
        driver.execute(statement)
    _read_as_made(driver)
    driver.execute("DROP TABLE IF EXISTS batch_words")
    for name in TABLES:
        driver.execute(f"DROP TABLE IF EXISTS {name}")
    for statement in WORDS:
        driver.execute(statement)
    driver.execute("INSERT INTO batch_words (batch_words) VALUES ('rebuild')")
