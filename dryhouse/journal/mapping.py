"""Between a frozen record and its row: every kind by the same few rules, field by field.

A quantity is two columns, the value in its stored unit and what was typed; everything else is one. Moments are
whole microseconds since 1970 in UTC, days are ISO text, yes and no are 1 and 0.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from operator import itemgetter
from typing import Any, Generic

from dryhouse.kitchen.ports import R
from dryhouse.kitchen.records.shapes import shapes

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


def stored(value: Any) -> Any:
    """A plain value of a field as it is kept in its column."""
    if isinstance(value, datetime):
        return to_micros(value)
    if isinstance(value, date):
        return value.isoformat()
    return int(value) if isinstance(value, bool) else value


class Unreadable(Exception):
    """A row that no record was ever kept as: the file is damaged."""


@dataclass(frozen=True, slots=True, eq=False)
class Mapped(Generic[R]):
    """One kind of record, and the table and columns it is kept in."""

    kind: type[R]
    table: str
    columns: tuple[str, ...]
    """In the order in which `record` reads them."""
    _fields: Callable[[Sequence[Any]], tuple[Any, ...]]
    """For each field its column, of a quantity the first of two."""
    _readers: tuple[tuple[int, int, Callable[..., Any]], ...]
    """For each field that is not kept as it is: its place among the fields, its column, and what reads it."""

    def row(self, record: R) -> dict[str, Any]:
        """The record as the values of its row."""
        values: dict[str, Any] = {}
        for shape in shapes(self.kind):
            value = getattr(record, shape.name)
            if shape.quantity is None:
                values[shape.name] = stored(value)
            else:
                number, typed = shape.columns
                values[number] = None if value is None else value.si
                values[typed] = None if value is None else value.typed
        return values

    def record(self, row: Sequence[Any]) -> R:
        """The record a row stands for. Raises Unreadable."""
        values = list(self._fields(row))
        try:
            for place, column, read in self._readers:
                if values[place] is not None:
                    two = isinstance(read, type)
                    values[place] = read(row[column], row[column + 1]) if two else read(row[column])
            return self.kind(*values)
        except (ValueError, OverflowError, TypeError) as error:
            raise Unreadable(f"{self.kind.__name__}: {error}") from error


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
    columns: list[str] = []
    first: list[int] = []
    readers: list[tuple[int, int, Callable[..., Any]]] = []
    for place, shape in enumerate(shapes(kind)):
        first.append(len(columns))
        read = shape.quantity or _READ.get(shape.holds)
        if read is not None:
            readers.append((place, len(columns), read))
        columns += shape.columns
    return Mapped(kind, table_name(kind), tuple(columns), itemgetter(*first), tuple(readers))
