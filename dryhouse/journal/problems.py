"""What the world did, said in a sentence: every fault of file, disk or lock passes through here."""

from __future__ import annotations

import errno
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from sqlite3 import Error as SqliteError

from dryhouse.science.errors import WorldProblem

NOTHING_CHANGED = "Nothing was changed."


def sentence_for(error: BaseException, path: Path) -> str:
    """What happened to the file, and that nothing was lost."""
    name = str(getattr(error, "sqlite_errorname", "") or "")
    number = getattr(error, "errno", None)
    if name.startswith("SQLITE_FULL") or number in (errno.ENOSPC, errno.EFBIG):
        return f"The disk that holds “{path}” is full; make room and try again. {NOTHING_CHANGED}"
    if name.startswith("SQLITE_READONLY") or number in (errno.EACCES, errno.EPERM, errno.EROFS):
        return f"“{path}” can only be read; change its permissions or copy it elsewhere. {NOTHING_CHANGED}"
    if name.startswith(("SQLITE_BUSY", "SQLITE_LOCKED")):
        return f"Another program is using “{path}” just now; try again when it has finished. {NOTHING_CHANGED}"
    if name.startswith("SQLITE_NOTADB"):
        return foreign(path)
    if name.startswith("SQLITE_CORRUPT"):
        return damaged(path)
    if name.startswith("SQLITE_CONSTRAINT_FOREIGNKEY"):
        return (
            f"Other records still belong to what would go, or what they belong to is not there. {NOTHING_CHANGED}"
        )
    if name.startswith("SQLITE_CONSTRAINT_UNIQUE"):
        return f"The journal already has one of that name. {NOTHING_CHANGED}"
    if name.startswith(("SQLITE_CONSTRAINT_PRIMARYKEY", "SQLITE_CONSTRAINT_ROWID")):
        return f"The journal already has an entry of that number. {NOTHING_CHANGED}"
    if name.startswith("SQLITE_CANTOPEN"):
        return f"“{path}” cannot be opened: the folder or the file does not let this program in. {NOTHING_CHANGED}"
    if name.startswith("SQLITE_IOERR"):
        return f"The disk that holds “{path}” failed or is full ({name}). {NOTHING_CHANGED}"
    return f"“{path}” could not be used ({error}). {NOTHING_CHANGED}"


def damaged(path: Path) -> str:
    """The file is ours, but part of it cannot be read."""
    return (
        f"“{path}” is damaged and was left as it is; "
        f"“dryhouse restore” brings back a copy from the folder “{path.parent / 'backups'}”."
    )


def foreign(path: Path) -> str:
    """The file is no journal of ours."""
    return f"“{path}” is not a Dryhouse journal, or its beginning is damaged; it was left as it is."


@contextmanager
def world(path: Path, *, files: bool = True) -> Iterator[None]:
    """Turns what SQLite raises, and unless told otherwise the file system too, into a `WorldProblem`.

    SQLAlchemy wraps an error of SQLite's in one of its own, and keeps it there as `orig`.
    """
    try:
        yield
    except Exception as error:
        cause = getattr(error, "orig", None) or error
        if isinstance(cause, SqliteError):
            ours = getattr(cause, "sqlite_errorname", "") in _OUR_MISTAKES
        else:
            ours = not (files and isinstance(cause, OSError))
        if ours:
            raise
        raise WorldProblem(sentence_for(cause, path)) from error


_OUR_MISTAKES = frozenset(
    {"SQLITE_ERROR", "SQLITE_MISUSE", "SQLITE_RANGE", "SQLITE_CONSTRAINT_NOTNULL", "SQLITE_CONSTRAINT_DATATYPE"}
)
