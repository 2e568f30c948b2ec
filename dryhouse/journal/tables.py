"""The journal's tables: one for each kind of record, with the columns its fields ask for.

How values are kept in columns stands in `mapping`. Words that are not there are empty, everything else that is
not there is null. Numbers are never used again. Foreign keys are the links between records; they are checked when
a transaction ends and nothing cascades: an act names everything it removes, so that undo can bring it back. What is
written down here by hand is which columns are looked up quickly. How older files came to this shape is in
`migrations/`.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, datetime
from typing import Any

from sqlalchemy import (
    INTEGER,
    REAL,
    TEXT,
    BigInteger,
    Column,
    Double,
    ForeignKey,
    Index,
    MetaData,
    PrimaryKeyConstraint,
    String,
    Table,
    UniqueConstraint,
    text,
)
from sqlalchemy.types import TypeEngine

from dryhouse.journal.looked_up import LOOKED_UP
from dryhouse.journal.mapping import table_name
from dryhouse.journal.sqlite.queries import TABLE
from dryhouse.kitchen.records import RECORD_KINDS, Batch
from dryhouse.kitchen.records.links import LINKS, ONCE
from dryhouse.kitchen.records.shapes import Shape, shapes

metadata = MetaData(
    naming_convention={
        "ix": "ix_%(table_name)s_%(column_0_N_name)s",
        "uq": "uq_%(table_name)s_%(column_0_N_name)s",
        "fk": "fk_%(table_name)s_%(column_0_name)s",
        "pk": "pk_%(table_name)s",
    }
)

_ADDED_LATER = {"left_out": text("0"), "spare_days": text("0")}
"""A number, or a yes or no, that came to tables with rows in them: what it is in those."""

WORDS: TypeEngine[str] = TEXT()
WHOLE: TypeEngine[int] = BigInteger().with_variant(INTEGER(), "sqlite")
NUMBER: TypeEngine[float] = Double().with_variant(REAL(), "sqlite")
"""The widest types there are; SQLite has one of each and calls them otherwise."""

_HELD: dict[type[Any], TypeEngine[Any]] = {
    str: WORDS,
    int: WHOLE,
    float: NUMBER,
    bool: WHOLE,
    date: WORDS,
    datetime: WHOLE,
}


def columns_of(kind: type[Any]) -> Iterator[Column[Any]]:
    """A kind's columns, its number first."""
    yield Column("id", WHOLE, primary_key=True)
    for shape in shapes(kind):
        if shape.name != "id":
            yield from _columns(shape, LINKS.get(kind, {}).get(shape.name))


def _columns(shape: Shape, belongs_to: type[Any] | None) -> Iterator[Column[Any]]:
    if shape.quantity is not None:
        number, typed = shape.columns
        yield Column(number, NUMBER, nullable=shape.missing)
        yield Column(typed, WORDS, nullable=shape.missing)
        return
    key = [ForeignKey(f"{table_name(belongs_to)}.id", deferrable=True, initially="DEFERRED")] if belongs_to else []
    empty = "" if shape.holds is str and not shape.missing else _ADDED_LATER.get(shape.name)
    yield Column(shape.name, _HELD[shape.holds], *key, nullable=shape.missing, server_default=empty)


def _table(kind: type[Any]) -> Table:
    once = [UniqueConstraint(*ONCE[kind])] if kind in ONCE else []
    indexes = [Index(None, *columns) for columns in LOOKED_UP.get(kind, ())]
    return Table(table_name(kind), metadata, *columns_of(kind), *once, *indexes, **TABLE)


TABLES: dict[type[Any], Table] = {kind: _table(kind) for kind in RECORD_KINDS}
"""The table of every kind of record."""

batch = TABLES[Batch]
Index("ix_batch_filter", batch.c.started, batch.c.food, batch.c.dryer, batch.c.state)
Index("ix_batch_yield", text("dried_mass_g / prepared_mass_g"), _table=batch)

revision = Table(
    "alembic_version",
    MetaData(),
    Column("version_num", String(32), nullable=False),
    PrimaryKeyConstraint("version_num", name="alembic_version_pkc"),
)
"""Where Alembic keeps which migrations a file has been through."""
