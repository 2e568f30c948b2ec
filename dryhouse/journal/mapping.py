"""Between a frozen record and its row: every kind by the same few rules, field by field.

A quantity is two columns, the value in its stored unit and what was typed; everything else is one. Moments are
whole microseconds since 1970 in UTC, days are ISO text, yes and no are 1 and 0.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from itertools import repeat
from operator import attrgetter, is_not, itemgetter
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


_WRITE: dict[type, Callable[[Any], Any]] = {datetime: to_micros, date: lambda day: day.isoformat(), bool: int}
"""How what is not kept as it is is written."""


def stored(value: Any) -> Any:
    """A plain value of a field as it is kept in its column."""
    write = _WRITE.get(type(value))
    return value if write is None else write(value)


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
    holds: tuple[tuple[type, ...], ...]
    """For each column what it may hold, as Python reads it."""
    _numbers: Callable[[Sequence[Any]], Sequence[Any]]
    """What stands in the columns of numbers with decimals."""
    _held: Callable[[R], Sequence[Any]]
    """What the fields of a record hold, in their order."""
    _writers: tuple[tuple[int, Callable[[Any], Any] | None], ...]
    """For each field that is not kept as it is, the last first: its place, and what writes it; a quantity, which is
    two columns, has nothing that does."""

    def values(self, record: R) -> list[Any]:
        """What stands in the columns, in their order."""
        found = list(self._held(record))
        for place, write in self._writers:
            value = found[place]
            if write is None:
                found[place : place + 1] = (None, None) if value is None else (value.si, value.typed)
            elif value is not None:
                found[place] = write(value)
        return found

    def row(self, record: R) -> dict[str, Any]:
        """The record as the values of its row."""
        return dict(zip(self.columns, self.values(record), strict=True))

    def rows(self, records: Sequence[R]) -> tuple[tuple[str, ...], Iterable[Sequence[Any]]]:
        """The columns in which any of these records holds something, and a row of them for each."""
        names: list[str] = []
        columns: list[Iterable[Any]] = []
        for held, shape in zip(zip(*map(self._held, records), strict=True), shapes(self.kind), strict=True):
            if not any(map(is_not, held, repeat(None))):
                continue
            names += shape.columns
            if shape.quantity is not None:
                columns.append([None if value is None else value.si for value in held])
                columns.append([None if value is None else value.typed for value in held])
            elif (write := _WRITE.get(shape.holds)) is not None:
                columns.append([None if value is None else write(value) for value in held])
            else:
                columns.append(held)
        return tuple(names), zip(*columns, strict=True)

    def record(self, row: Sequence[Any], *, bounded: bool = True) -> R:
        """The record a row stands for. Raises Unreadable where no record was ever kept like this; numbers too large
        for any kitchen are let pass where it is not to be `bounded`."""
        values = list(self._fields(row))
        try:
            if not all(map(isinstance, row, self.holds)):
                raise TypeError("a column holds what it cannot")
            numbers = [number for number in self._numbers(row) if number is not None]
            if bounded and numbers and not -_LARGEST <= min(numbers) <= max(numbers) <= _LARGEST:
                raise ValueError("a number that no kitchen has")
            for place, column, read in self._readers:
                if values[place] is not None:
                    if isinstance(read, type):
                        if row[column + 1] is None:
                            raise ValueError("a quantity without what was typed")
                        values[place] = read(row[column], row[column + 1])
                    else:
                        values[place] = read(row[column])
            return self.kind(*values)
        except (ValueError, OverflowError, TypeError) as error:
            raise Unreadable(f"{self.kind.__name__}: {error}") from error


_LARGEST = 1e12
"""No weight, volume, warmth or length of a kitchen comes near it; the arithmetic holds well beyond."""
_MOMENTS = (to_micros(datetime(1000, 1, 1, tzinfo=UTC)), to_micros(datetime(9000, 1, 1, tzinfo=UTC)))
"""Moments in these years have a day before and a life after them in every time zone."""


def _moment(micros: int) -> datetime:
    if not _MOMENTS[0] <= micros <= _MOMENTS[1]:
        raise ValueError(f"{micros} microseconds since 1970 are no moment of a kitchen")
    return from_micros(micros)


_READ: dict[type, Callable[[Any], Any]] = {
    datetime: _moment,
    date: lambda text: date.fromisoformat(text),
    bool: lambda number: bool(number),
}


_KEPT: dict[type, type] = {str: str, int: int, float: float, bool: int, date: str, datetime: int}
"""What each kind of plain value is kept as."""


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
    holds: list[tuple[type, ...]] = []
    for place, shape in enumerate(shapes(kind)):
        first.append(len(columns))
        read = shape.quantity or _READ.get(shape.holds)
        if read is not None:
            readers.append((place, len(columns), read))
        columns += shape.columns
        kept = (float, str) if shape.quantity else (_KEPT[shape.holds],)
        holds += [(each, type(None)) if shape.missing else (each,) for each in kept]
    picked = [n for n, held in enumerate(holds) if float in held]
    numbers: Callable[[Sequence[Any]], Sequence[Any]] = itemgetter(*picked, *picked[:1]) if picked else lambda _: ()
    writers = [
        (place, None if shape.quantity is not None else _WRITE[shape.holds])
        for place, shape in enumerate(shapes(kind))
        if shape.quantity is not None or shape.holds in _READ
    ]
    names = [shape.name for shape in shapes(kind)]
    held: Callable[[R], Sequence[Any]] = attrgetter(*names)
    read_by = (itemgetter(*first), tuple(readers), tuple(holds), numbers)
    return Mapped(kind, table_name(kind), tuple(columns), *read_by, held, tuple(reversed(writers)))
