"""Between a frozen record and its row: every kind by the same few rules, field by field.

Which columns a kind has follows from its fields (`kitchen/records/shapes.py`); a test holds that they are those of
`tables.py`.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from operator import itemgetter
from typing import Any, Generic

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
    """One kind of record, and the table and columns it is kept in."""

    kind: type[R]
    table: str
    columns: tuple[str, ...]
    """In the order in which `record` reads them."""
    listed: str
    """The same, as SQL names them in a SELECT."""
    _pick: Callable[[Sequence[Any]], tuple[Any, ...]]
    _readers: tuple[tuple[int, int, Callable[..., Any]], ...]
    """For each field that is not kept as it is: its place among the fields, its column, and what reads it."""

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
        values = list(self._pick(row))
        for place, column, read in self._readers:
            if values[place] is not None:
                values[place] = read(row[column], row[column + 1]) if isinstance(read, type) else read(row[column])
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
    columns: list[str] = []
    first: list[int] = []
    readers: list[tuple[int, int, Callable[..., Any]]] = []
    for place, shape in enumerate(shapes(kind)):
        first.append(len(columns))
        if shape.quantity is not None:
            readers.append((place, len(columns), shape.quantity))
            columns += (f"{shape.name}_{SUFFIXES[shape.quantity]}", f"{shape.name}_typed")
            continue
        if shape.holds in _READ:
            readers.append((place, len(columns), _READ[shape.holds]))
        columns.append(shape.name)
    listed = ", ".join(f'"{column}"' for column in columns)
    return Mapped(kind, table_name(kind), tuple(columns), listed, itemgetter(*first), tuple(readers))
