"""The backups of a journal by their names: the journal's own name, the moment in UTC, and nothing else."""

from __future__ import annotations

import re
from datetime import UTC, datetime
from pathlib import Path

_MOMENT = r"\d{4}-\d\d-\d\dT\d{6}\.\d{6}"
_WRITTEN = "%Y-%m-%dT%H%M%S.%f"


def folder_of(path: Path) -> Path:
    """Where the backups of a journal lie."""
    return path.parent / "backups"


def backups_of(path: Path) -> list[Path]:
    """The backups of this journal and of no other, newest first."""
    return beside(path, "")


def beside(path: Path, ending: str) -> list[Path]:
    """What lies in the folder of backups under this journal's name, a moment and this ending (a pattern), newest
    first."""
    folder = folder_of(path)
    ours = re.compile(f"{re.escape(path.stem)}-{_MOMENT}Z{re.escape(path.suffix)}{ending}")
    found = folder.iterdir() if folder.is_dir() else ()
    return sorted((file for file in found if ours.fullmatch(file.name)), reverse=True)


def made_at(backup: Path) -> datetime:
    """The moment in a backup's name, in UTC."""
    found = re.findall(_MOMENT, backup.name)
    return datetime.strptime(found[-1], _WRITTEN).replace(tzinfo=UTC)


def stamp() -> str:
    """This moment, as it stands in the name of a backup."""
    return datetime.now(UTC).strftime(_WRITTEN)
