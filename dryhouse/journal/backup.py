"""Copies of the journal: in the folder `backups` beside it, each a whole file, thinned as they grow older."""

from __future__ import annotations

import os
import re
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from datetime import UTC, datetime
from pathlib import Path

from dryhouse.journal import thinning
from dryhouse.journal.backup_names import backups_of, beside, folder_of, made_at, stamp
from dryhouse.journal.database import Database, connect
from dryhouse.journal.file_faults import faults_of, is_sound
from dryhouse.journal.network_drives import network_drive
from dryhouse.journal.parts import recognized
from dryhouse.journal.problems import as_world_problem, damaged
from dryhouse.journal.sqlite.file import ENDINGS, copy_over, copy_whole, damage_in, has_log, is_empty
from dryhouse.science.errors import WorldProblem
from dryhouse.science.messages import MessageKind as Kind
from dryhouse.science.messages import message

KEEP = 10
"""How many of the newest backups are kept whatever their age; older ones are thinned (`thinning`)."""

_A_DAY = 20 * 3600
"""Somewhat less than 24 hours, so that a daily evening at the dryer always counts as another day."""

_TIDYING = 60.0
"""Seconds in which a file is still tidied after its backup was made: nothing new is in it."""


def _folder(path: Path) -> Path:
    folder = folder_of(path)
    folder.mkdir(exist_ok=True)
    return folder


def back_up(path: Path, keep: int = KEEP, *, spare: Path | None = None) -> Path:
    """A copy of the journal as it is now; it may be open elsewhere meanwhile. `spare` is no backup to throw away.

    Raises WorldProblem, and makes and throws away nothing, where the journal is not whole.
    """
    path = path.resolve()
    if not path.exists():
        raise WorldProblem(message(Kind.NOTHING_TO_BACK_UP, path=str(path)))
    with as_world_problem(path):
        database = connect(path, "ro")
        try:
            recognized(database, path)
            return back_up_open(database, path, keep, spare=spare)
        finally:
            database.close()


def back_up_open(database: Database, path: Path, keep: int = KEEP, *, spare: Path | None = None) -> Path:
    """The same of a journal that is open here. Older backups go only once the new one has been found whole.

    Raises WorldProblem.
    """
    made = _folder(path) / f"{path.stem}-{stamp()}Z{path.suffix}"
    for left in beside(path, r"\.\d*\.?part.*"):
        if not _is_being_written(left):
            left.unlink(missing_ok=True)
    copy_whole(database.driver, made)
    if not is_sound(made):
        made.unlink()
        raise WorldProblem(damaged(path))
    there = {made_at(backup): backup for backup in backups_of(path)}
    for moment in there.keys() - thinning.kept(there, datetime.now(UTC), keep):
        if spare is None or there[moment].resolve() != spare.resolve():
            there[moment].unlink(missing_ok=True)
    return made


def copy_to(path: Path, into: Path) -> None:
    """A whole copy of the journal where the person wants it, and no backup. A file that is there gives way at the
    end. Raises WorldProblem where the journal is not whole, or where what is there may be open."""
    path, into = path.resolve(), into.resolve()
    if any(into.with_name(into.name + ending).exists() for ending in ENDINGS):
        raise WorldProblem(message(Kind.MAY_BE_OPEN, path=str(into)))
    with as_world_problem(path):
        database = connect(path, "ro")
        try:
            recognized(database, path)
            if damage_in(database.driver, 1, quick=True):
                raise WorldProblem(damaged(path))
            with as_world_problem(into):
                copy_whole(database.driver, into)
        finally:
            database.close()


def _is_being_written(part: Path) -> bool:
    """Whether the program that is named in an unfinished copy's name still runs. Windows deletes no open file."""
    writer = re.search(r"\.(\d+)\.part", part.name)
    if writer is None or os.name == "nt":
        return False
    try:
        os.kill(int(writer[1]), 0)
    except ProcessLookupError:
        return False
    except (OSError, OverflowError):
        return True
    return True


def emptied(path: Path) -> bool:
    """Whether there is no journal, or nothing in it, and yet there are backups: it was lost, or half copied."""
    path = path.resolve()
    with as_world_problem(path):
        if path.exists() and path.stat().st_size > _LARGEST_EMPTY:
            return False
        if not backups_of(path):
            return False
        if not path.exists() or path.stat().st_size == 0:
            return not has_log(path)
        database = connect(path, "ro")
        try:
            return is_empty(database.driver)
        finally:
            database.close()


_LARGEST_EMPTY = 8192
"""Bytes of a file that holds no table yet, and of its beginning where its log was not copied with it."""


def back_up_daily(database: Database, path: Path) -> None:
    """A backup when a session that wrote ends, once a day. One that does not fit stops nobody from leaving."""
    with suppress(WorldProblem), as_world_problem(path):
        ages = [time.time() - backup.stat().st_mtime for backup in backups_of(path)]
        if not any(0 <= age < _A_DAY for age in ages):
            back_up_open(database, path)


def back_up_if_due(path: Path) -> Path | None:
    """A backup of a journal that was written to since the last one, at most once a day; None where none is due.

    Raises WorldProblem where one is due and cannot be made.
    """
    path = path.resolve()
    with as_world_problem(path):
        made = [backup.stat().st_mtime for backup in backups_of(path)]
        logs = (path.with_name(path.name + ending) for ending in ENDINGS if ending != "-shm")
        written = max((file.stat().st_mtime for file in (path, *logs) if file.exists()), default=0.0)
        now = time.time()
        if not written or any(0 <= now - at < _A_DAY or written - _TIDYING <= at <= now for at in made):
            return None
        return back_up(path)


def restore(backup: Path, path: Path) -> Path | None:
    """Put a backup in the journal's place, in one transaction; answers where the former one was kept.

    The backup is checked whole before anything is touched. A former journal too damaged to copy is set
    aside under its own name in `backups`. Raises WorldProblem.
    """
    if not backup.is_file():
        raise WorldProblem(message(Kind.NO_BACKUP, backup=str(backup)))
    if path.exists() and backup.resolve() == path.resolve():
        raise WorldProblem(message(Kind.BACKUP_IS_JOURNAL, backup=str(backup)))
    path = path.resolve()
    if drive := network_drive(path.parent):
        raise WorldProblem(message(Kind.ON_A_NETWORK_DRIVE, path=str(path), drive=drive))
    with _as_backup(backup):
        source = connect(backup, "ro")
    try:
        with _as_backup(backup):
            recognized(source, backup)
            if faults := faults_of(source):
                raise WorldProblem(message(Kind.BACKUP_NOT_WHOLE, because=faults[0], backup=str(backup)))
        with as_world_problem(path):
            path.parent.mkdir(parents=True, exist_ok=True)
            return _put(source, backup, path)
    finally:
        source.close()


@contextmanager
def _as_backup(backup: Path) -> Iterator[None]:
    """As of any file; a backup that is damaged has none of its own to go back to."""
    try:
        with as_world_problem(backup):
            yield
    except WorldProblem as problem:
        if isinstance(problem.said, str) or problem.said.kind not in (Kind.DAMAGED, Kind.DAMAGED_ALONE):
            raise
        raise WorldProblem(message(Kind.BACKUP_DAMAGED, backup=str(backup))) from problem


def _put(source: Database, backup: Path, path: Path) -> Path | None:
    former = _keep_former(path, backup)
    (copy_over if path.exists() else copy_whole)(source.driver, path)
    if not is_sound(path):
        raise WorldProblem(message(Kind.RESTORED_NOT_WHOLE, backup=str(backup), path=str(path)))
    return former


def _keep_former(path: Path, spare: Path) -> Path | None:
    """Back up the present journal; what cannot be read is moved aside as it is, a log without its file too."""
    if path.exists():
        if path.stat().st_size == 0 and not has_log(path):
            return None
        with suppress(WorldProblem):
            return back_up(path, spare=spare)
    return _set_aside(path)


def _set_aside(path: Path) -> Path | None:
    """Move the file and what SQLite keeps beside it among the backups; answers the first that was moved."""
    aside = _folder(path) / f"{path.stem}-damaged-{stamp()}{path.suffix}"
    moved = None
    for ending in ("", *ENDINGS):
        beside = path.with_name(path.name + ending)
        if beside.exists():
            kept = aside.with_name(aside.name + ending)
            os.replace(beside, kept)
            moved = moved or kept
    return moved
