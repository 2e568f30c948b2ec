"""Copies of the journal: in the folder `backups` beside it, the newest ones kept, each a whole file."""

from __future__ import annotations

import os
import re
import time
from contextlib import suppress
from datetime import UTC, datetime
from pathlib import Path

from dryhouse.journal.database import Database, connect
from dryhouse.journal.file_faults import faults_of, is_sound
from dryhouse.journal.parts import recognized
from dryhouse.journal.problems import as_world_problem, damaged
from dryhouse.journal.sqlite.file import ENDINGS, copy_over, copy_whole, has_log
from dryhouse.science.errors import WorldProblem
from dryhouse.science.messages import MessageKind as Kind
from dryhouse.science.messages import message

KEEP = 10
"""How many backups of one journal are kept; older ones go when a new one is whole."""

_A_DAY = 20 * 3600
"""Somewhat less than 24 hours, so that a daily evening at the dryer always counts as another day."""

_MOMENT = r"\d{4}-\d\d-\d\dT\d{6}\.\d{6}"


def backups_of(path: Path) -> list[Path]:
    """The backups of this journal and of no other, newest first."""
    return _beside(path, "")


def _beside(path: Path, ending: str) -> list[Path]:
    """What lies in the folder of backups under this journal's name, a moment and nothing else; newest first."""
    folder = path.parent / "backups"
    ours = re.compile(f"{re.escape(path.stem)}-{_MOMENT}Z{re.escape(path.suffix)}{ending}")
    found = folder.iterdir() if folder.is_dir() else ()
    return sorted((file for file in found if ours.fullmatch(file.name)), reverse=True)


def _folder(path: Path) -> Path:
    folder = path.parent / "backups"
    folder.mkdir(exist_ok=True)
    return folder


def _now() -> str:
    return f"{datetime.now(UTC):%Y-%m-%dT%H%M%S.%f}"


def back_up(path: Path, keep: int = KEEP, *, spare: Path | None = None) -> Path:
    """A copy of the journal as it is now; it may be open elsewhere meanwhile. `spare` is no backup to throw away.

    Raises WorldProblem, and makes and throws away nothing, where the journal is not whole.
    """
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
    """The same of a journal that is open here. Older backups go only once the new one has been found whole."""
    made = _folder(path) / f"{path.stem}-{_now()}Z{path.suffix}"
    for left in _beside(path, r"\.part.*"):
        left.unlink(missing_ok=True)
    copy_whole(database.driver, made)
    if not is_sound(made):
        made.unlink()
        raise WorldProblem(damaged(path))
    for old in backups_of(path)[keep:]:
        if spare is None or not old.samefile(spare):
            old.unlink()
    return made


def back_up_daily(database: Database, path: Path) -> None:
    """A backup when a session that wrote ends, once a day. One that does not fit stops nobody from leaving."""
    with suppress(WorldProblem), as_world_problem(path):
        ages = [time.time() - backup.stat().st_mtime for backup in backups_of(path)]
        if not any(0 <= age < _A_DAY for age in ages):
            back_up_open(database, path)


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
    with as_world_problem(backup):
        source = connect(backup, "ro")
    try:
        with as_world_problem(backup):
            recognized(source, backup)
            if faults := faults_of(source):
                raise WorldProblem(message(Kind.BACKUP_NOT_WHOLE, because=faults[0], backup=str(backup)))
        with as_world_problem(path):
            path.parent.mkdir(parents=True, exist_ok=True)
            return _put(source, backup, path)
    finally:
        source.close()


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
    aside = _folder(path) / f"{path.stem}-damaged-{_now()}{path.suffix}"
    moved = None
    for ending in ("", *ENDINGS):
        beside = path.with_name(path.name + ending)
        if beside.exists():
            kept = aside.with_name(aside.name + ending)
            os.replace(beside, kept)
            moved = moved or kept
    return moved
