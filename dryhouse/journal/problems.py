"""What the world did, said in a sentence: every fault of file, disk or lock passes through here."""

from __future__ import annotations

import errno
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from dryhouse.journal.sqlite.faults import Fault, fault_of, name_of
from dryhouse.science.errors import WorldProblem

NOTHING_CHANGED = "Nothing was changed."

_OF_NUMBER = {
    errno.ENOSPC: Fault.FULL,
    errno.EFBIG: Fault.FULL,
    errno.EACCES: Fault.READ_ONLY,
    errno.EPERM: Fault.READ_ONLY,
    errno.EROFS: Fault.READ_ONLY,
}


def sentence_for(error: BaseException, path: Path) -> str:
    """What happened to the file, and that nothing was lost."""
    fault = fault_of(error) or _OF_NUMBER.get(getattr(error, "errno", 0), Fault.OTHER)
    if fault is Fault.NO_DATABASE:
        return foreign(path)
    if fault is Fault.DAMAGED:
        return damaged(path)
    said = _SENTENCES.get(fault, "“{path}” could not be used ({error}).")
    return f"{said.format(path=path, name=name_of(error), error=getattr(error, 'orig', error))} {NOTHING_CHANGED}"


_BUSY = "Another program is using “{path}” just now; try again when it has finished."
_SAME_NUMBER = "The journal already has an entry of that number."
_SENTENCES = {
    Fault.FULL: "The disk that holds “{path}” is full; make room and try again.",
    Fault.READ_ONLY: "“{path}” can only be read; change its permissions or copy it elsewhere.",
    Fault.BUSY: _BUSY,
    Fault.LOCKED: _BUSY,
    Fault.BELONGS: "Other records still belong to what would go, or what they belong to is not there.",
    Fault.SAME_NAME: "The journal already has one of that name.",
    Fault.SAME_NUMBER: _SAME_NUMBER,
    Fault.SAME_ROW: _SAME_NUMBER,
    Fault.NO_WAY_IN: "“{path}” cannot be opened: the folder or the file does not let this program in.",
    Fault.DISK: "The disk that holds “{path}” failed or is full ({name}).",
}


def damaged(path: Path) -> str:
    """The file is ours, but part of it cannot be read."""
    return f"“{path}” is damaged and was left as it is; restore a copy from the folder “{path.parent / 'backups'}”."


def foreign(path: Path) -> str:
    """The file is no journal of ours."""
    return f"“{path}” is not a Dryhouse journal, or its beginning is damaged; it was left as it is."


@contextmanager
def as_world_problem(path: Path, *, files: bool = True) -> Iterator[None]:
    """Turns what the database raises, and unless told otherwise the file system too, into a `WorldProblem`."""
    try:
        yield
    except Exception as error:
        fault = fault_of(error)
        if fault is Fault.OURS or (fault is None and not (files and isinstance(error, OSError))):
            raise
        raise WorldProblem(sentence_for(error, path)) from error
