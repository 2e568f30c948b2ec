"""Copies of the journal: in the folder `backups` beside it, the newest ones kept, each a whole file."""

from __future__ import annotations

import os
import time
from contextlib import suppress
from datetime import UTC, datetime
from pathlib import Path

from dryhouse.journal.database import Database, become_writer, connect
from dryhouse.journal.file_faults import faults_of
from dryhouse.journal.problems import NOTHING_CHANGED, world
from dryhouse.journal.revision import revision_of
from dryhouse.journal.sqlite.file import copy_over, copy_whole
from dryhouse.science.errors import WorldProblem

KEEP = 10
"""How many backups of one journal are kept; older ones go when a new one is whole."""

_A_DAY = 20 * 3600
"""Somewhat less than 24 hours, so that a daily evening at the dryer always counts as another day."""


def backups_of(path: Path) -> list[Path]:
    """The backups of this journal, newest first."""
    return sorted((path.parent / "backups").glob(f"{path.stem}-*Z{path.suffix}"), reverse=True)


def back_up(path: Path, keep: int = KEEP) -> Path:
    """A copy of the journal as it is now; it may be open elsewhere meanwhile. Raises WorldProblem."""
    if not path.exists():
        raise WorldProblem(f"There is no journal at “{path}” yet, so there is nothing to back up.")
    with world(path):
        database = connect(path, "ro")
        try:
            revision_of(database, path)
            return back_up_open(database, path, keep)
        finally:
            database.close()


def back_up_open(database: Database, path: Path, keep: int = KEEP) -> Path:
    """The same of an open one."""
    folder = path.parent / "backups"
    folder.mkdir(exist_ok=True)
    for left in folder.glob(f"{path.stem}-*.part*"):
        left.unlink()
    made = folder / f"{path.stem}-{datetime.now(UTC):%Y-%m-%dT%H%M%S.%f}Z{path.suffix}"
    copy_whole(database.driver, made)
    for old in backups_of(path)[keep:]:
        old.unlink()
    return made


def back_up_daily(database: Database, path: Path) -> None:
    """A backup when a session that wrote ends, once a day. One that does not fit stops nobody from leaving."""
    newest = max((backup.stat().st_mtime for backup in backups_of(path)), default=0.0)
    if time.time() - newest < _A_DAY:
        return
    with suppress(WorldProblem), world(path):
        back_up_open(database, path)


def restore(backup: Path, path: Path) -> Path | None:
    """Put a backup in the journal's place, in one transaction; answers where the former one was kept.

    The backup is checked whole before anything is touched. A former journal too damaged to copy is set
    aside under its own name in `backups`. Raises WorldProblem.
    """
    if not backup.is_file():
        raise WorldProblem(f"There is no file “{backup}” to restore. {NOTHING_CHANGED}")
    if path.exists() and backup.resolve() == path.resolve():
        raise WorldProblem(f"“{backup}” is the journal itself; name a backup of it. {NOTHING_CHANGED}")
    with world(backup):
        source = connect(backup, "ro")
    try:
        with world(backup):
            revision_of(source, backup)
            if faults := faults_of(source):
                raise WorldProblem(f"“{backup}” is not whole ({faults[0]}) {NOTHING_CHANGED}")
        with world(path):
            path.parent.mkdir(parents=True, exist_ok=True)
            release = become_writer(path)
            try:
                return _put(source, path)
            finally:
                release()
    finally:
        source.close()


def _put(source: Database, path: Path) -> Path | None:
    former = _keep_former(path)
    (copy_over if path.exists() else copy_whole)(source.driver, path)
    return former


def _keep_former(path: Path) -> Path | None:
    """Back up the present journal; one that cannot be read is moved aside as it is."""
    if not path.exists() or path.stat().st_size == 0:
        return None
    try:
        return back_up(path)
    except WorldProblem:
        folder = path.parent / "backups"
        folder.mkdir(exist_ok=True)
        aside = folder / f"{path.stem}-damaged-{datetime.now(UTC):%Y-%m-%dT%H%M%S.%f}{path.suffix}"
        for ending in ("-wal", "-shm"):
            beside = path.with_name(path.name + ending)
            if beside.exists():
                os.replace(beside, aside.with_name(aside.name + ending))
        os.replace(path, aside)
        return aside
