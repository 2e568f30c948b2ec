"""Which shape a journal file has: made new, recognised, or brought up to date.

Alembic is only imported where a file is older than the program. A new file is made from the tables
directly and marked with the newest revision; a test keeps both ways the same.
"""

from __future__ import annotations

from pathlib import Path

from sqlalchemy import Connection

from dryhouse.journal.problems import NOTHING_CHANGED, damaged, foreign
from dryhouse.journal.tables import WORDS, metadata
from dryhouse.science.errors import WorldProblem

HEAD = "0001"
"""The newest revision, the one this program reads and writes."""

APPLICATION_ID = 0x44727948
"""Marks a SQLite file as a journal of ours: `DryH`."""


def migrations_folder() -> Path:
    """Where the migrations are: inside an installed package, or beside it in a checkout."""
    package = Path(__file__).resolve().parent.parent
    inside = package / "_migrations"
    return inside if inside.is_dir() else package.parent / "migrations"


def create(connection: Connection) -> None:
    """All tables in an empty file, in one transaction: a file is a whole journal, or still empty."""
    connection.exec_driver_sql("BEGIN IMMEDIATE")
    if not is_empty(connection):
        connection.exec_driver_sql("ROLLBACK")
        return
    metadata.create_all(connection)
    for statement in WORDS:
        connection.exec_driver_sql(statement)
    connection.exec_driver_sql(
        "CREATE TABLE alembic_version (version_num VARCHAR(32) NOT NULL, "
        "CONSTRAINT alembic_version_pkc PRIMARY KEY (version_num))"
    )
    connection.exec_driver_sql("INSERT INTO alembic_version VALUES (?)", (HEAD,))
    connection.exec_driver_sql(f"PRAGMA application_id = {APPLICATION_ID}")
    connection.exec_driver_sql("COMMIT")


def is_empty(connection: Connection) -> bool:
    """Whether nothing was ever put into the file."""
    marked = connection.exec_driver_sql("PRAGMA application_id").scalar_one()
    return marked in (0, APPLICATION_ID) and not connection.exec_driver_sql("SELECT 1 FROM sqlite_master").first()


def revision_of(connection: Connection, path: Path) -> str:
    """The revision of a journal of ours. Raises WorldProblem for any other file, and for a newer one."""
    if connection.exec_driver_sql("PRAGMA application_id").scalar_one() != APPLICATION_ID:
        raise WorldProblem(foreign(path))
    kept = connection.exec_driver_sql("SELECT 1 FROM sqlite_master WHERE name = 'alembic_version'").first()
    found = connection.exec_driver_sql("SELECT version_num FROM alembic_version").scalar() if kept else None
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


def bring_up_to_date(connection: Connection) -> None:
    """Run the missing migrations, all in one transaction: the file is as it was, or of the newest shape."""
    from alembic import command
    from alembic.config import Config

    connection.exec_driver_sql("PRAGMA foreign_keys = OFF")
    connection.exec_driver_sql("BEGIN IMMEDIATE")
    try:
        config = Config()
        config.set_main_option("script_location", str(migrations_folder()).replace("%", "%%"))
        config.attributes["connection"] = connection
        command.upgrade(config, "head")
        connection.exec_driver_sql(f"PRAGMA application_id = {APPLICATION_ID}")
        connection.exec_driver_sql("COMMIT")
    except BaseException:
        driver = connection.connection.driver_connection
        if driver is not None and driver.in_transaction:
            driver.rollback()
        raise
    finally:
        connection.exec_driver_sql("PRAGMA foreign_keys = ON")
