"""Which shape a journal file has: made new, recognised, or brought up to date.

A new file is made from the tables directly and marked with the newest revision; a test keeps both ways the
same. The tables are imported where a file is made, Alembic where one is older than the program.
"""

from __future__ import annotations

from pathlib import Path

from dryhouse.journal.database import Database
from dryhouse.journal.problems import NOTHING_CHANGED, damaged, foreign
from dryhouse.science.errors import WorldProblem

HEAD = "0002"
"""The newest revision, the one this program reads and writes."""

APPLICATION_ID = 0x44727948
"""Marks a SQLite file as a journal of ours: `DryH`."""


def migrations_folder() -> Path:
    """Where the migrations are: inside an installed package, or beside it in a checkout."""
    package = Path(__file__).resolve().parent.parent
    inside = package / "_migrations"
    return inside if inside.is_dir() else package.parent / "migrations"


def create(database: Database) -> None:
    """All tables in an empty file, in one transaction: a file is a whole journal, or still empty."""
    from dryhouse.journal.tables import WORDS, metadata

    with database.transaction() as alchemy:
        if not is_empty(database):
            return
        metadata.create_all(alchemy)
        for statement in WORDS:
            database.do(statement)
        database.do(
            "CREATE TABLE alembic_version (version_num VARCHAR(32) NOT NULL, "
            "CONSTRAINT alembic_version_pkc PRIMARY KEY (version_num))"
        )
        database.do(f"INSERT INTO alembic_version VALUES ('{HEAD}')")
        database.do(f"PRAGMA application_id = {APPLICATION_ID}")


def is_empty(database: Database) -> bool:
    """Whether nothing was ever put into the file."""
    marked = database.value("PRAGMA application_id")
    return marked in (0, APPLICATION_ID) and not database.ask("SELECT 1 FROM sqlite_master LIMIT 1")


def revision_of(database: Database, path: Path) -> str:
    """The revision of a journal of ours. Raises WorldProblem for any other file, and for a newer one."""
    if database.value("PRAGMA application_id") != APPLICATION_ID:
        raise WorldProblem(foreign(path))
    kept = database.ask("SELECT 1 FROM sqlite_master WHERE name = 'alembic_version'")
    found = database.value("SELECT version_num FROM alembic_version") if kept else None
    if found is None:
        raise WorldProblem(damaged(path))
    revision = str(found)
    if revision != HEAD and revision not in _older():
        raise WorldProblem(
            f"“{path}” was written by a newer version of this program (revision {revision}; this one "
            f"knows {HEAD}). Open it with that version, or update this one. {NOTHING_CHANGED}"
        )
    return revision


def _older() -> set[str]:
    """Revisions that can be brought up to date, by the names of the migration files."""
    return {file.name.split("_")[0] for file in (migrations_folder() / "versions").glob("[0-9]*.py")}


def bring_up_to_date(database: Database) -> None:
    """Run the missing migrations, all in one transaction: the file is as it was, or of the newest shape."""
    from alembic import command
    from alembic.config import Config

    database.do("PRAGMA foreign_keys = OFF")
    try:
        with database.transaction() as alchemy:
            config = Config()
            config.set_main_option("script_location", str(migrations_folder()).replace("%", "%%"))
            config.attributes["connection"] = alchemy
            command.upgrade(config, "head")
            database.do(f"PRAGMA application_id = {APPLICATION_ID}")
    finally:
        database.do("PRAGMA foreign_keys = ON")
