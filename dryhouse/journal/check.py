"""Whether a journal is whole: SQLite's own checks, then what our records promise each other."""

from __future__ import annotations

from pathlib import Path

from sqlalchemy import text

from dryhouse.journal.database import Database, connect
from dryhouse.journal.problems import world
from dryhouse.journal.revision import revision_of
from dryhouse.journal.sqlite.file import damage_in, orphans_in
from dryhouse.science.errors import WorldProblem

_PROMISES = (
    (
        "SELECT id FROM batch WHERE ended < started",
        "Batch {0} ends before it starts.",
    ),
    (
        "SELECT id FROM batch WHERE state NOT IN ('planned', 'drying', 'finished')",
        "Batch {0} is in no state that is known.",
    ),
    (
        "SELECT id FROM batch WHERE trim(food) = ''",
        "Batch {0} names no food.",
    ),
    (
        "SELECT id, batch FROM weighing WHERE tare_g > gross_g",
        "Weighing {0} of batch {1} has a tare heavier than its reading.",
    ),
    (
        "SELECT w.id, w.batch FROM weighing w JOIN batch b ON b.id = w.batch WHERE w.at < b.started - 86400000000",
        "Weighing {0} is more than a day before its batch {1} started.",
    ),
    (
        "SELECT id FROM lot WHERE conditioned_to < conditioned_from",
        "Lot {0} stopped conditioning before it began.",
    ),
    (
        "SELECT d.lot, l.food FROM lot_draw d JOIN lot l ON l.id = d.lot WHERE l.mass_g IS NOT NULL "
        "GROUP BY d.lot HAVING sum(d.mass_g) > l.mass_g * 1.02 + 1",
        "Lot {0} ({1}) has given more than it weighed.",
    ),
    (
        "SELECT id, name FROM trip WHERE ends_on < starts_on",
        "Trip {0} ({1}) ends before it begins.",
    ),
)
_AT_MOST = 20


def check(path: Path) -> list[str]:
    """Everything that is wrong with the journal, a sentence each; nothing where it is whole. Only reads."""
    if not path.exists():
        raise WorldProblem(f"There is no journal at “{path}” yet, so there is nothing to check.")
    with world(path):
        database = connect(path, "ro")
        try:
            revision_of(database, path)
            return faults_of(database) or broken_promises(database)
        finally:
            database.close()


def faults_of(database: Database) -> list[str]:
    """What SQLite finds wrong with the file itself and with what belongs to what."""
    faults = [f"The file is damaged: {said}." for said in damage_in(database.driver, _AT_MOST)]
    for table, number, target in orphans_in(database.driver, _AT_MOST):
        faults.append(f"{_title(table)} {number} belongs to a {_title(target).lower()} that is not there.")
    return faults


def broken_promises(database: Database) -> list[str]:
    """Records that contradict themselves or each other."""
    found = []
    for query, sentence in _PROMISES:
        for row in database.connection.execute(text(query)).fetchmany(_AT_MOST):
            found.append(sentence.format(*row))
    return found


def _title(table: str) -> str:
    return table.replace("_", " ").capitalize()
