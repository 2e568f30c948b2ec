"""What SQLite itself finds wrong with a journal's file."""

from __future__ import annotations

from pathlib import Path

from dryhouse.journal.database import Database, connect
from dryhouse.journal.parts import recognized
from dryhouse.journal.problems import as_world_problem
from dryhouse.journal.sqlite.file import damage_in, orphans_in
from dryhouse.science.errors import WorldProblem
from dryhouse.science.messages import Message, message
from dryhouse.science.messages import MessageKind as Kind

AT_MOST = 20
"""Faults of one sort that are named; a journal with more is restored, not mended."""


def faults_of(database: Database) -> list[Message]:
    """What SQLite finds wrong with the file itself and with what belongs to what."""
    faults = [message(Kind.FILE_DAMAGED, found=said) for said in damage_in(database.driver, AT_MOST)]
    for table, number, target in orphans_in(database.driver, AT_MOST):
        named = {"table": _plain(table).capitalize(), "target": _plain(target)}
        faults.append(message(Kind.BELONGS_TO_NOTHING, number=str(number), **named))
    return faults


def _plain(table: str) -> str:
    return table.replace("_", " ")


def is_sound(path: Path) -> bool:
    """Whether a file is a journal this program can read and in which SQLite, at a quick look, finds no damage."""
    try:
        with as_world_problem(path):
            database = connect(path, "ro")
            try:
                recognized(database, path)
                return not damage_in(database.driver, 1, quick=True)
            finally:
                database.close()
    except WorldProblem:
        return False
