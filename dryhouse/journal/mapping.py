"""Between a frozen record and its row: every kind by the same few rules, field by field."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from operator import itemgetter
from typing import Any, Generic

from sqlalchemy import Column, Select, Table, select

from dryhouse.journal.tables import TABLES
from dryhouse.kitchen.ports import R
from dryhouse.kitchen.records.shapes import shapes
from dryhouse.science.quantities import Quantity


@dataclass(frozen=True, slots=True, eq=False)
class Mapped(Generic[R]):
    """One kind of record and the table it is kept in."""

    kind: type[R]
    table: Table
    columns: tuple[Column[Any], ...]
    """In the order in which `record` reads them."""
    _fields: itemgetter[Any]
    """For each field its column, of a quantity the first of two."""
    _quantities: tuple[tuple[int, int, type[Quantity]], ...]
    """Each quantity's place among the fields, its first column, and its kind."""

    @property
    def select(self) -> Select[Any]:
        """Every record, in rows that `record` reads."""
        return select(*self.columns)

    def row(self, record: R) -> dict[str, Any]:
        """The values of a record's row."""
        values: dict[str, Any] = {}
        for shape in shapes(self.kind):
            value = getattr(record, shape.name)
            if shape.quantity is None:
                values[shape.name] = value
            else:
                number, typed = shape.columns
                values[number] = None if value is None else value.si
                values[typed] = None if value is None else value.typed
        return values

    def record(self, row: Sequence[Any]) -> R:
        """The record a row stands for."""
        values = list(self._fields(row))
        for place, column, quantity in self._quantities:
            if values[place] is not None:
                values[place] = quantity(row[column], row[column + 1])
        return self.kind(*values)


_MAPPED: dict[type[Any], Mapped[Any]] = {}


def mapped(kind: type[R]) -> Mapped[R]:
    """The mapping of a kind of record, worked out once."""
    if kind not in _MAPPED:
        _MAPPED[kind] = _map(kind)
    return _MAPPED[kind]


def _map(kind: type[R]) -> Mapped[R]:
    names: list[str] = []
    first: list[int] = []
    quantities: list[tuple[int, int, type[Quantity]]] = []
    for place, shape in enumerate(shapes(kind)):
        first.append(len(names))
        if shape.quantity is not None:
            quantities.append((place, len(names), shape.quantity))
        names += shape.columns
    table = TABLES[kind]
    columns = tuple(table.c[name] for name in names)
    return Mapped(kind, table, columns, itemgetter(*first), tuple(quantities))
