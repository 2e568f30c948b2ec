"""Rows that wait beside a journal, in SQL of our own: millions of them, in a temporary file that goes with them.

A measurement asks for it: through SQLAlchemy two million rows take a minute longer, and moved a row at a time
twenty seconds (`tests/benchmarks/exchange_speed.py`).
"""

from __future__ import annotations

import os
import sqlite3
import tempfile
from collections.abc import Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from dryhouse.journal.mapping import mapped
from dryhouse.kitchen.records import RECORD_KINDS
from dryhouse.kitchen.records.links import LINKS

_BESIDE = "waiting"


class WaitingRows:
    """One table a kind, without indexes. Not for two threads at once."""

    def __init__(self) -> None:
        handle, name = tempfile.mkstemp(prefix="dryhouse-", suffix=".waiting")
        os.close(handle)
        self._file, self._is_beside = Path(name), False
        self._driver = sqlite3.connect(name, isolation_level=None, check_same_thread=False)
        self._driver.execute("PRAGMA synchronous = OFF")
        self._driver.execute("PRAGMA journal_mode = OFF")
        for kind in RECORD_KINDS:
            columns = _listed(c for c in mapped(kind).columns if c != "id")
            self._driver.execute(f"CREATE TABLE {mapped(kind).table} (id INTEGER PRIMARY KEY, {columns})")
        self._driver.execute("BEGIN")
        self._selects = {kind: _select(kind) for kind in RECORD_KINDS}

    def put(self, kind: type[Any], records: Sequence[Any]) -> None:
        """More records. Columns in which none of them holds anything are left out: SQLite's binding asks at length
        how nothing is to be written."""
        columns, rows = mapped(kind).rows(records)
        self._driver.executemany(_insert(kind, columns), rows)

    def row(self, kind: type[Any], id: int) -> Sequence[Any] | None:
        """The row of this number."""
        found: Sequence[Any] | None = self._driver.execute(self._selects[kind], (id,)).fetchone()
        return found

    @contextmanager
    def beside(self, journal: sqlite3.Connection) -> Iterator[None]:
        """Inside, the journal's own connection reads what waits, in a tenth of the time. Where a transaction was
        begun before, SQLite does not let it, and every row is handed over."""
        if journal.in_transaction:
            yield
            return
        self._driver.execute("COMMIT")
        journal.execute(f"ATTACH ? AS {_BESIDE}", (str(self._file),))
        self._is_beside = True
        try:
            yield
        finally:
            self._is_beside = False
            journal.execute(f"DETACH {_BESIDE}")
            self._driver.execute("BEGIN")

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
        rows = f"SELECT {', '.join(asked)} FROM {_BESIDE if self._is_beside else 'main'}.{of.table} ORDER BY id"
        if self._is_beside:
            into.execute(f"INSERT INTO main.{of.table} ({_listed(of.columns)}) {rows}", values)
        else:
            into.executemany(_insert(kind, of.columns), self._driver.execute(rows, values))

    def close(self) -> None:
        """All of it is gone. Closing twice does no harm."""
        self._driver.close()
        self._file.unlink(missing_ok=True)


def _select(kind: type[Any]) -> str:
    of = mapped(kind)
    return f"SELECT {_listed(of.columns)} FROM {of.table} WHERE id = ?"


def _insert(kind: type[Any], columns: Sequence[str]) -> str:
    return f"INSERT INTO {mapped(kind).table} ({_listed(columns)}) VALUES ({', '.join('?' * len(columns))})"


def _listed(columns: Iterable[str]) -> str:
    return ", ".join(f'"{column}"' for column in columns)
