"""What a journal's file is made of, against what this program makes it of: found before anything in it is run.

Worked out of the records, without SQLAlchemy: a window is not kept waiting for it.
"""

from __future__ import annotations

from functools import cache
from pathlib import Path

from dryhouse.journal.database import Database
from dryhouse.journal.looked_up import index_names
from dryhouse.journal.mapping import mapped, table_name
from dryhouse.journal.problems import damaged
from dryhouse.journal.revision import HEAD, revision_of
from dryhouse.journal.sqlite import word_index
from dryhouse.journal.sqlite.file import STRANGE, Part, parts_in
from dryhouse.kitchen.records import RECORD_KINDS
from dryhouse.science.errors import WorldProblem
from dryhouse.science.messages import MessageKind as Kind
from dryhouse.science.messages import message

_SQLITE = {str: "TEXT", int: "INTEGER", float: "REAL"}
"""What SQLite calls a column that holds this."""
_ALEMBIC = {Part("table", "alembic_version"), Part("column", "alembic_version.version_num", "VARCHAR(32)")}


@cache
def expected() -> frozenset[Part]:
    """Every table, column, index and trigger of a journal of the newest shape."""
    columns = {
        Part("column", f"{table_name(kind)}.{name}", _SQLITE[held[0]])
        for kind in RECORD_KINDS
        for name, held in zip(mapped(kind).columns, mapped(kind).holds, strict=True)
    }
    columns |= {
        Part("column", f"{table}.{name}", holds)
        for table, held in word_index.COLUMNS.items()
        for name, holds in held.items()
    }
    tables = {*map(table_name, RECORD_KINDS), *word_index.TABLES}
    named = {Part("table", name) for name in tables} | {Part("index", name) for name in index_names()}
    return frozenset(_ALEMBIC | columns | named | {Part("trigger", name) for name in word_index.triggers()})


def missing(database: Database) -> list[Part]:
    """What should be there and is not."""
    return sorted(expected() - parts_in(database.driver))


def strange(database: Database) -> list[Part]:
    """Triggers and views that this program did not make, whatever they are called."""
    return sorted(part for part in parts_in(database.driver) if part.what in STRANGE)


def recognized(database: Database, path: Path) -> str:
    """The revision of a journal that holds what this program made, and nothing that could act on its own.

    Raises WorldProblem for any other file.
    """
    found, there = revision_of(database, path), parts_in(database.driver)
    for part in sorted(there):
        if part.what in STRANGE:
            raise WorldProblem(message(Kind.STRANGE_FILE, path=str(path), name=part.name))
    if found == HEAD and expected() - there:
        raise WorldProblem(damaged(path))
    return found


def left_over(database: Database) -> list[Part]:
    """Columns of our tables that this program does not fill. They do no harm, and it leaves none behind."""
    known = {part.name for part in expected() if part.what == "column"}
    tables = {name.partition(".")[0] for name in known}
    there = (part for part in parts_in(database.driver) if part.what == "column" and part.name not in known)
    return sorted(part for part in there if part.name.partition(".")[0] in tables)


def refuse_incomplete(database: Database, path: Path) -> None:
    """Raises WorldProblem where a file of the newest shape lacks a part of it."""
    if missing(database):
        raise WorldProblem(damaged(path))
