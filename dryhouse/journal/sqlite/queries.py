"""What SQLite's own words answer best: words in batches, numbers by the ten thousand, numbers once used."""

from __future__ import annotations

from typing import Any

from sqlalchemy import Connection, Select, TextClause, bindparam, column, func, select, table, text

from dryhouse.journal.sqlite.word_index import WORDS

TABLE: dict[str, Any] = {"sqlite_autoincrement": True, "sqlite_strict": True}
"""Options of every table: a number is never used again, and a column takes only what it is for."""

_WORDS = table("batch_words", column("rowid"))
_SEQUENCE = table("sqlite_sequence", column("name"), column("seq"))


def make_word_index(connection: Connection) -> None:
    """The index of words, in a file whose tables have just been made."""
    for statement in WORDS:
        connection.exec_driver_sql(statement)


def batches_with_word(beginning: str) -> Select[Any]:
    """The numbers of the batches one of whose own words begins like this: letters and digits only."""
    return select(_WORDS.c.rowid.label("id")).where(_matches(beginning))


def _matches(beginning: str) -> TextClause:
    return text("batch_words MATCH :beginning").bindparams(bindparam("beginning", f'"{beginning}"*', unique=True))


def as_text(connection: Connection, numbers: Select[Any]) -> str:
    """All the numbers in the column `id` of an answer, in its order, as `[1,2,3]`.

    One long text instead of a row each: a hundred thousand numbers take 13 ms in place of 60
    (`tests/benchmarks/journal_queries.py`).
    """
    return str(connection.scalar(select(func.json_group_array(numbers.subquery().c.id))))


def last_number(connection: Connection, kept_in: str) -> int:
    """The highest number a row of this table has ever had; 0 where there was none yet."""
    return connection.scalar(select(_SEQUENCE.c.seq).where(_SEQUENCE.c.name == kept_in)) or 0
