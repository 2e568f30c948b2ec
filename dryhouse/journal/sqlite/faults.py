"""Which of the things that can happen to a file an error of SQLite's is."""

from __future__ import annotations

import re
from enum import Enum
from sqlite3 import Error

from dryhouse.journal.mapping import Unreadable


class Fault(Enum):
    """What happened. `OURS` is a mistake of the program and no fault of the world."""

    FULL = "SQLITE_FULL"
    READ_ONLY = "SQLITE_READONLY"
    BUSY = "SQLITE_BUSY"
    LOCKED = "SQLITE_LOCKED"
    NO_DATABASE = "SQLITE_NOTADB"
    DAMAGED = "SQLITE_CORRUPT"
    BELONGS = "SQLITE_CONSTRAINT_FOREIGNKEY"
    SAME_NAME = "SQLITE_CONSTRAINT_UNIQUE"
    SAME_NUMBER = "SQLITE_CONSTRAINT_PRIMARYKEY"
    SAME_ROW = "SQLITE_CONSTRAINT_ROWID"
    NO_WAY_IN = "SQLITE_CANTOPEN"
    DISK = "SQLITE_IOERR"
    OURS = "SQLITE_ERROR"
    OTHER = ""


_DAMAGED = re.compile(
    r"no such (table|column|index)|vtable constructor failed|Could not decode|duplicate column name|"
    r"invalid fts5 file format|(table|index|trigger) .* already exists"
)
"""What SQLite says where something every journal has is missing, where a file is not of the shape it says it is, or
a text is none: these have no names."""
_OURS = ("SQLITE_MISUSE", "SQLITE_RANGE", "SQLITE_CONSTRAINT_NOTNULL", "SQLITE_CONSTRAINT_DATATYPE")


def fault_of(error: BaseException) -> Fault | None:
    """What the error says of the file; None where it says nothing of it.

    SQLAlchemy wraps an error of SQLite's in one of its own, and keeps it there as `orig`.
    """
    cause = getattr(error, "orig", None) or error
    if isinstance(cause, Unreadable | UnicodeDecodeError):
        return Fault.DAMAGED
    if not isinstance(cause, Error):
        return None
    name = name_of(error)
    if _DAMAGED.match(str(cause)):
        return Fault.DAMAGED
    if name == Fault.OURS.value or name in _OURS:
        return Fault.OURS
    return next((f for f in Fault if f is not Fault.OURS and name.startswith(f.value)), Fault.OTHER)


def name_of(error: BaseException) -> str:
    """The error as SQLite calls it; empty where it has no name."""
    return str(getattr(getattr(error, "orig", None) or error, "sqlite_errorname", "") or "")
