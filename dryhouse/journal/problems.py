"""What the world did, as a message: every fault of file, disk or lock passes through here."""

from __future__ import annotations

import errno
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from dryhouse.journal.backup_names import backups_of, folder_of
from dryhouse.journal.sqlite.faults import Fault, fault_of, name_of
from dryhouse.science.errors import WorldProblem
from dryhouse.science.messages import Message, message
from dryhouse.science.messages import MessageKind as Kind

_OF_NUMBER = {
    errno.ENOSPC: Fault.FULL,
    errno.EFBIG: Fault.FULL,
    errno.EACCES: Fault.READ_ONLY,
    errno.EPERM: Fault.READ_ONLY,
    errno.EROFS: Fault.READ_ONLY,
}
_KINDS = {
    Fault.FULL: Kind.DISK_FULL,
    Fault.READ_ONLY: Kind.ONLY_READ,
    Fault.BUSY: Kind.BUSY,
    Fault.LOCKED: Kind.BUSY,
    Fault.BELONGS: Kind.STILL_BELONGS,
    Fault.SAME_NAME: Kind.SAME_NAME,
    Fault.SAME_NUMBER: Kind.SAME_NUMBER,
    Fault.SAME_ROW: Kind.SAME_NUMBER,
    Fault.NO_WAY_IN: Kind.NO_WAY_IN,
    Fault.DISK: Kind.DISK_FAILED,
}


def message_for(error: BaseException, path: Path) -> Message:
    """What happened to the file."""
    fault = fault_of(error) or _OF_NUMBER.get(getattr(error, "errno", 0), Fault.OTHER)
    if fault is Fault.NO_DATABASE:
        return foreign(path)
    if fault is Fault.DAMAGED:
        return damaged(path)
    kind = _KINDS.get(fault, Kind.COULD_NOT_BE_USED)
    return message(kind, path=str(path), name=name_of(error), error=str(getattr(error, "orig", error)))


def damaged(path: Path) -> Message:
    """The file is ours, but part of it cannot be read: to be restored, where there is a backup of it."""
    if not backups_of(path):
        return message(Kind.DAMAGED_ALONE, path=str(path))
    return message(Kind.DAMAGED, path=str(path), backups=str(folder_of(path)))


def foreign(path: Path) -> Message:
    """The file is no journal of ours."""
    return message(Kind.FOREIGN, path=str(path))


@contextmanager
def as_world_problem(path: Path, *, files: bool = True) -> Iterator[None]:
    """Turns what the database raises, and unless told otherwise the file system too, into a `WorldProblem`."""
    try:
        yield
    except Exception as error:
        fault = fault_of(error)
        if fault is Fault.OURS or (fault is None and not (files and isinstance(error, OSError))):
            raise
        raise WorldProblem(message_for(error, path)) from error
