"""Between a frozen record and its row: every kind by the same few rules, field by field."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from typing import Any, Generic

from sqlalchemy import Column, Table

from dryhouse.journal.tables import metadata
from dryhouse.kitchen.ports import R
from dryhouse.kitchen.records.shapes import SUFFIXES, Shape, shapes

_EPOCH = datetime(1970, 1, 1, tzinfo=UTC)
_MICROSECOND = timedelta(microseconds=1)


def to_micros(moment: datetime) -> int:
    """Microseconds since 1970 in UTC. A moment that does not know its zone is our own mistake."""
    if moment.tzinfo is None:
        raise ValueError(f"{moment} does not say in which zone it is")
    return (moment - _EPOCH) // _MICROSECOND


def from_micros(micros: int) -> datetime:
    """The moment, exactly, in UTC."""
    return _EPOCH + timedelta(microseconds=micros)


@dataclass(frozen=True, slots=True)
class Mapped(Generic[R]):
    """One kind of record and its table."""

    kind: type[R]
    table: Table
    columns: tuple[Column[Any], ...]
    """In the order in which `record` reads them."""
    _readers: tuple[tuple[Callable[..., Any] | None, int], ...]

    def row(self, record: R) -> dict[str, Any]:
        """The record as the values of its row."""
        values: dict[str, Any] = {}
        for shape in shapes(self.kind):
            value = getattr(record, shape.name)
            if shape.quantity is not None:
                values[f"{shape.name}_{SUFFIXES[shape.quantity]}"] = None if value is None else value.si
                values[f"{shape.name}_typed"] = None if value is None else value.typed
            else:
                values[shape.name] = _stored(shape, value)
        return values

    def record(self, row: Sequence[Any]) -> R:
        """The record a row stands for."""
        values = []
        for read, place in self._readers:
            value = row[place]
            if read is None or value is None:
                values.append(value)
            elif isinstance(read, type):
                values.append(read(value, row[place + 1]))
            else:
                values.append(read(value))
        return self.kind(*values)


def _stored(shape: Shape, value: Any) -> Any:
    if value is None:
        return None
    if shape.holds is datetime:
        return to_micros(value)
    if shape.holds is date:
        return value.isoformat()
    return shape.holds(value)


_READ: dict[type, Callable[[Any], Any]] = {
    datetime: from_micros,
    date: lambda text: date.fromisoformat(text),
    bool: lambda number: bool(number),
}


def table_name(kind: type[Any]) -> str:
    """`BatchEvent` is kept in `batch_event`."""
    return re.sub(r"(?<!^)(?=[A-Z])", "_", kind.__name__).lower()


_MAPPED: dict[type[Any], Mapped[Any]] = {}


def mapped(kind: type[R]) -> Mapped[R]:
    """The mapping of a kind of record, worked out once."""
    if kind not in _MAPPED:
        _MAPPED[kind] = _map(kind)
    return _MAPPED[kind]


def _map(kind: type[R]) -> Mapped[R]:
    table = metadata.tables[table_name(kind)]
    columns: list[Column[Any]] = []
    readers: list[tuple[Callable[..., Any] | None, int]] = []
    for shape in shapes(kind):
        if shape.quantity is not None:
            readers.append((shape.quantity, len(columns)))
            columns.append(table.c[f"{shape.name}_{SUFFIXES[shape.quantity]}"])
            columns.append(table.c[f"{shape.name}_typed"])
        else:
            readers.append((_READ.get(shape.holds), len(columns)))
            columns.append(table.c[shape.name])
    return Mapped(kind, table, tuple(columns), tuple(readers))
