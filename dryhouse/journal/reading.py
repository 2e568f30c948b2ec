"""Asking for records: one by its number, or all of which some fields are known."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import cache
from typing import Any

from sqlalchemy import Connection, Select, bindparam, select

from dryhouse.journal.mapping import Mapped, mapped, stored, table_name
from dryhouse.journal.sqlite import queries
from dryhouse.journal.tables import TABLES
from dryhouse.kitchen.ports import R, Record
from dryhouse.kitchen.records.shapes import shapes

_LARGEST_NUMBER = 2**63 - 1
"""The largest number the file can hold."""
_AT_ONCE = 1000
"""How many values are asked for at once: no database takes any number of them."""


def one(connection: Connection, kind: type[R], id: int) -> R | None:
    """The record of that number; None where there is none."""
    if id > _LARGEST_NUMBER:
        return None
    found = every(connection, kind, {"id": id})
    return found[0] if found else None


def every(connection: Connection, kind: type[R], equals: Mapping[str, Any]) -> tuple[R, ...]:
    """Every record whose fields equal (or are in the given tuple of) these values, by number."""
    of = mapped(kind)
    question = _question(of, tuple((name, _how(wanted)) for name, wanted in equals.items()))
    found = [of.record(row) for some in _portions(equals) for row in connection.execute(question, some)]
    return tuple(sorted(found, key=_number) if _longest(equals) > _AT_ONCE else found)


def last_number(connection: Connection, kind: type[Record]) -> int:
    """The highest number a record of this kind has ever had; 0 where there was none yet."""
    return queries.last_number(connection, table_name(kind))


def _how(wanted: Any) -> str:
    if wanted is None:
        return "missing"
    return "among" if isinstance(wanted, tuple) else "equal"


@cache
def _question(of: Mapped[Any], asked: tuple[tuple[str, str], ...]) -> Select[Any]:
    """The question for records by these fields, its values left open."""
    columns = TABLES[of.kind].c
    question = select(*(columns[name] for name in of.columns)).order_by(columns.id)
    plain = {shape.name for shape in shapes(of.kind) if shape.quantity is None}
    for name, how in asked:
        if name not in plain:
            raise ValueError(f"records are not looked up by {name}: two weights are seldom the same")
        column = columns[name]
        if how == "missing":
            question = question.where(column.is_(None))
        elif how == "among":
            question = question.where(column.in_(bindparam(name, expanding=True)))
        else:
            question = question.where(column == bindparam(name))
    return question


def _longest(equals: Mapping[str, Any]) -> int:
    return max((len(wanted) for wanted in equals.values() if isinstance(wanted, tuple)), default=0)


def _portions(equals: Mapping[str, Any]) -> Iterator[dict[str, Any]]:
    """The values to fill in, the longest run of them a thousand at a time."""
    for name, wanted in equals.items():
        if isinstance(wanted, tuple) and len(wanted) > _AT_ONCE:
            alone = tuple(dict.fromkeys(wanted))
            for start in range(0, len(alone), _AT_ONCE):
                yield from _portions({**equals, name: alone[start : start + _AT_ONCE]})
            return
    yield {name: _plain(wanted) for name, wanted in equals.items() if wanted is not None}


def _plain(wanted: Any) -> Any:
    return [stored(value) for value in wanted] if isinstance(wanted, tuple) else stored(wanted)


def _number(record: Record) -> int:
    return record.id
