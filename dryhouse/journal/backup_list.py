"""The backups of a journal as they are offered: when each was made, how much is in it, whether it is whole."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from dryhouse.journal.backup_names import backups_of, made_at
from dryhouse.journal.check import can_be_restored
from dryhouse.journal.database import connect
from dryhouse.journal.problems import as_world_problem
from dryhouse.journal.sqlite.file import count_in
from dryhouse.kitchen.ports import KeptCopy
from dryhouse.kitchen.records import Batch
from dryhouse.science.errors import WorldProblem


def listed(path: Path) -> Iterator[KeptCopy]:
    """Each backup of this journal, newest first; every one is opened and looked through, which takes its time."""
    for backup in backups_of(path.resolve()):
        yield looked_at(backup)


def newest_whole(path: Path) -> Path | None:
    """The newest backup of this journal that is of any help; None where there is none."""
    return next(filter(can_be_restored, backups_of(path.resolve())), None)


def any_with_batches(path: Path) -> bool:
    """Whether a backup of this journal holds a batch; the newest is looked at first."""
    return any(map(_batches, backups_of(path.resolve())))


def looked_at(backup: Path) -> KeptCopy:
    """One backup, looked through."""
    whole = can_be_restored(backup)
    return KeptCopy(backup, made_at(backup), _batches(backup) if whole else None, whole)


def _batches(backup: Path) -> int | None:
    from dryhouse.journal.mapping import table_name

    try:
        with as_world_problem(backup):
            database = connect(backup, "ro")
            try:
                return count_in(database.driver, table_name(Batch))
            finally:
                database.close()
    except WorldProblem:
        return None
