"""Asking for records: one by its number, or all of which some fields are known."""

from __future__ import annotations

import json
from collections.abc import Mapping
from datetime import date, datetime
from typing import Any

from dryhouse.journal.database import Database
from dryhouse.journal.mapping import mapped, table_name, to_micros
from dryhouse.kitchen.ports import R, Record
from dryhouse.kitchen.records.shapes import shapes

_LARGEST_NUMBER = 2**63 - 1
"""The largest number the file can hold."""


def one(database: Database, kind: type[R], id: int) -> R | None:
    """The record of that number; None where there is none."""
    if id > _LARGEST_NUMBER:
        return None
    of = mapped(kind)
    rows = database.ask(f"SELECT {of.listed} FROM {of.table} WHERE id = ?", (id,))
    return of.record(rows[0]) if rows else None


def every(database: Database, kind: type[R], equals: Mapping[str, Any]) -> tuple[R, ...]:
    """Every record whose fields equal (or are in the given tuple of) these values, by number."""
    of = mapped(kind)
    holds = {shape.name: shape for shape in shapes(kind)}
    conditions, values = [], []
    for name, wanted in equals.items():
        if holds[name].quantity is not None:
            raise ValueError(f"records are not looked up by {name}: two weights are seldom the same")
        if wanted is None:
            conditions.append(f'"{name}" IS NULL')
        elif isinstance(wanted, tuple):
            conditions.append(f'"{name}" IN (SELECT value FROM json_each(?))')
            values.append(json.dumps([_plain(value) for value in wanted]))
        else:
            conditions.append(f'"{name}" = ?')
            values.append(_plain(wanted))
    where = f"WHERE {' AND '.join(conditions)}" if conditions else ""
    rows = database.ask(f"SELECT {of.listed} FROM {of.table} {where} ORDER BY id", values)
    return tuple(map(of.record, rows))


def last_number(database: Database, kind: type[Record]) -> int:
    """The highest number a record of this kind has ever had; 0 where there was none yet."""
    return database.value("SELECT seq FROM sqlite_sequence WHERE name = ?", (table_name(kind),)) or 0


def _plain(value: Any) -> Any:
    if isinstance(value, datetime):
        return to_micros(value)
    if isinstance(value, date):
        return value.isoformat()
    return int(value) if isinstance(value, bool) else value
