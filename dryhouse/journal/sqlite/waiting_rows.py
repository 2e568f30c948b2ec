"""Rows that wait beside a journal, in SQL of our own: millions of them, in a file that SQLite keeps for itself and
removes when it is closed.

A measurement asks for it: through SQLAlchemy two million rows take a minute longer
(`tests/benchmarks/exchange_speed.py`).
"""

from __future__ import annotations

import sqlite3
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Any

from dryhouse.journal.mapping import mapped
from dryhouse.kitchen.records import RECORD_KINDS
from dryhouse.kitchen.records.links import LINKS

_AT_ONCE = 2000


class WaitingRows:
    """One table a kind, without indexes. Not for two threads at once."""

    def __init__(self) -> None:
        self._driver = sqlite3.connect("", isolation_level=None, check_same_thread=False)
        self._driver.execute("PRAGMA synchronous = OFF")
        self._driver.execute("PRAGMA journal_mode = OFF")
        for kind in RECORD_KINDS:
            columns = _listed(c for c in mapped(kind).columns if c != "id")
            self._driver.execute(f"CREATE TABLE {mapped(kind).table} (id INTEGER PRIMARY KEY, {columns})")
        self._driver.execute("BEGIN")

    def put(self, kind: type[Any], rows: Iterable[Sequence[Any]]) -> None:
        """More rows, their columns in the order of the mapping."""
        self._driver.executemany(_insert(kind), rows)

    def row(self, kind: type[Any], id: int) -> Sequence[Any] | None:
        """The row of this number."""
        of = mapped(kind)
        found: Sequence[Any] | None = self._driver.execute(
            f"SELECT {_listed(of.columns)} FROM {of.table} WHERE id = ?", (id,)
        ).fetchone()
        return found

    def move(self, kind: type[Any], into: sqlite3.Connection, bases: Mapping[type, int]) -> None:
        """Put a kind's rows into a journal, with the numbers they will have there."""
        of, links = mapped(kind), LINKS.get(kind, {})
        asked, values = [], []
        for column in of.columns:
            if column == "id":
                asked.append("id + ?")
                values.append(bases[kind])
            elif column in links:
                asked.append(f'CASE WHEN "{column}" < 0 THEN -"{column}" ELSE "{column}" + ? END')
                values.append(bases[links[column]])
            else:
                asked.append(f'"{column}"')
        rows = self._driver.execute(f"SELECT {', '.join(asked)} FROM {of.table} ORDER BY id", values)
        for some in _portions(rows):
            into.executemany(_insert(kind), some)

    def close(self) -> None:
        """All of it is gone."""
        self._driver.close()


def _insert(kind: type[Any]) -> str:
    of = mapped(kind)
    return f"INSERT INTO {of.table} ({_listed(of.columns)}) VALUES ({', '.join('?' * len(of.columns))})"


def _listed(columns: Iterable[str]) -> str:
    return ", ".join(f'"{column}"' for column in columns)


def _portions(rows: sqlite3.Cursor) -> Iterator[list[Any]]:
    while some := rows.fetchmany(_AT_ONCE):
        yield some
