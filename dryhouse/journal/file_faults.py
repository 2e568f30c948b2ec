"""What SQLite itself finds wrong with a journal's file, in words."""

from __future__ import annotations

from dryhouse.journal.database import Database
from dryhouse.journal.sqlite.file import damage_in, orphans_in

AT_MOST = 20
"""Faults of one sort that are named; a journal with more is restored, not mended."""


def faults_of(database: Database) -> list[str]:
    """What SQLite finds wrong with the file itself and with what belongs to what."""
    faults = [f"The file is damaged: {said}." for said in damage_in(database.driver, AT_MOST)]
    for table, number, target in orphans_in(database.driver, AT_MOST):
        faults.append(f"{_title(table)} {number} belongs to a {_title(target).lower()} that is not there.")
    return faults


def _title(table: str) -> str:
    return table.replace("_", " ").capitalize()
