"""Writing the changes of an act."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby
from typing import Any

from sqlalchemy import Connection, bindparam

from dryhouse.journal.database import Database
from dryhouse.journal.mapping import mapped
from dryhouse.journal.reading import one
from dryhouse.journal.tables import TABLES
from dryhouse.kitchen.ports import Change
from dryhouse.science.errors import WorldProblem
from dryhouse.science.messages import MessageKind as Kind
from dryhouse.science.messages import message


def write(database: Database, changes: Sequence[Change]) -> None:
    """All of the changes, or none, in one transaction."""
    with database.transaction() as connection:
        for (kind, how), group in groupby(changes, key=lambda c: (type(c.record), _how(c))):
            alike = list(group)
            if any(change.record.id <= 0 for change in alike):
                raise ValueError(f"a {kind.__name__} has no number yet")
            if how != "came":
                _refuse_overtaken(connection, alike)
            _write_alike(connection, kind, how, alike)


def _how(change: Change) -> str:
    if change.before is None:
        return "came"
    return "went" if change.after is None else "changed"


def _refuse_overtaken(connection: Connection, changes: Sequence[Change]) -> None:
    for change in changes:
        if one(connection, type(change.record), change.record.id) != change.before:
            raise WorldProblem(message(Kind.OVERTAKEN))


def _write_alike(connection: Connection, kind: type[Any], how: str, changes: Sequence[Change]) -> None:
    of = mapped(kind)
    table = TABLES[kind]
    rows = [of.row(change.record) for change in changes]
    this = table.c.id == bindparam("number")
    if how == "came":
        connection.execute(table.insert(), rows)
    elif how == "went":
        connection.execute(table.delete().where(this), [{"number": row["id"]} for row in rows])
    else:
        connection.execute(table.update().where(this), [{**row, "number": row["id"]} for row in rows])
