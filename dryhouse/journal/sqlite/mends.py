"""Single rows and parts of a file taken in hand, whatever is in them: for mending alone."""

from __future__ import annotations

import re
import sqlite3
from typing import Any

from dryhouse.journal.mapping import mapped
from dryhouse.journal.sqlite.file import Part
from dryhouse.journal.sqlite.word_index import triggers

_OF_A_ROW = re.compile(r"(NULL|non-\w+)_?\s?value\b|CHECK\b")


def is_of_one_row(damage: str) -> bool:
    """Whether what SQLite found is at fault in one row and not in the file."""
    return _OF_A_ROW.match(damage) is not None


def take_out(driver: sqlite3.Connection, part: Part) -> None:
    """Drop a trigger, a view, or a column."""
    if part.what == "column":
        table, _, column = part.name.partition(".")
        driver.execute(f'ALTER TABLE "{table}" DROP COLUMN "{column}"')
        return
    what = part.what.rpartition(" ")[2].upper()
    name = part.name.replace('"', '""')
    driver.execute(f'DROP {what} "{name}"')


def without_word_index(driver: sqlite3.Connection) -> None:
    """Until it is made anew nothing is kept true of it: its triggers would stumble over what cannot be read."""
    for name in triggers():
        driver.execute(f"DROP TRIGGER IF EXISTS {name}")


def compare_indexes(driver: sqlite3.Connection) -> None:
    """Make every index from its table."""
    driver.execute("REINDEX")


def row(driver: sqlite3.Connection, kind: type[Any], id: int) -> dict[str, Any] | None:
    """A row as it stands, by the names of its columns."""
    of = mapped(kind)
    columns = ", ".join(f'"{column}"' for column in of.columns)
    found = driver.execute(f"SELECT {columns} FROM {of.table} WHERE id = ?", (id,)).fetchone()
    return None if found is None else dict(zip(of.columns, found, strict=True))


def remove(driver: sqlite3.Connection, kind: type[Any], id: int) -> None:
    """Take a row out."""
    driver.execute(f"DELETE FROM {mapped(kind).table} WHERE id = ?", (id,))


def empty(driver: sqlite3.Connection, kind: type[Any], column: str, id: int) -> None:
    """Let a row say nothing in this column."""
    driver.execute(f'UPDATE {mapped(kind).table} SET "{column}" = NULL WHERE id = ?', (id,))


def numbers_where(driver: sqlite3.Connection, kind: type[Any], column: str, equals: int) -> list[int]:
    """The numbers of the rows with this in a column."""
    found = driver.execute(f'SELECT id FROM {mapped(kind).table} WHERE "{column}" = ?', (equals,))
    return [number for (number,) in found]


def orphans(driver: sqlite3.Connection, kind: type[Any], column: str, owner: type[Any]) -> list[int]:
    """The numbers of the rows whose owner in this column is not there."""
    found = driver.execute(
        f'SELECT id FROM {mapped(kind).table} WHERE "{column}" IS NOT NULL '
        f'AND "{column}" NOT IN (SELECT id FROM {mapped(owner).table})'
    )
    return [number for (number,) in found]
