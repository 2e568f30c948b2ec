"""Which shape a journal file has: made new, recognised, or brought up to date.

A new file is made from the tables directly and marked with the newest revision; a test keeps both ways the
same. Alembic is imported where a file is older than the program.
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from dryhouse.journal.database import Database
from dryhouse.journal.mapping import Unreadable
from dryhouse.journal.problems import damaged, foreign
from dryhouse.journal.sqlite import file
from dryhouse.science.errors import WorldProblem
from dryhouse.science.messages import MessageKind as Kind
from dryhouse.science.messages import message


def migrations_folder() -> Path:
    """Where the migrations are: inside an installed package, or beside it in a checkout."""
    package = Path(__file__).resolve().parent.parent
    inside = package / "_migrations"
    return inside if inside.is_dir() else package.parent / "migrations"


def revisions() -> set[str]:
    """Every revision there has been, by the names of the migration files."""
    return {file.name.split("_")[0] for file in (migrations_folder() / "versions").glob("[0-9]*.py")}


HEAD = max(revisions())
"""The newest revision, the one this program reads and writes."""


def create(database: Database) -> None:
    """All tables in an empty file, in one transaction: a file is a whole journal, or still empty."""
    from dryhouse.journal.sqlite.queries import make_word_index
    from dryhouse.journal.tables import metadata, revision

    with database.transaction() as connection:
        if not file.is_empty(database.driver):
            return
        metadata.create_all(connection)
        make_word_index(connection)
        revision.create(connection)
        connection.execute(revision.insert(), {"version_num": HEAD})
        file.mark_as_ours(database.driver)


def revision_of(database: Database, path: Path) -> str:
    """The revision of a journal of ours. Raises WorldProblem for any other file, and for a newer one."""
    if not file.is_ours(database.driver):
        raise WorldProblem(foreign(path))
    found = file.revision_kept(database.driver)
    if found is None:
        raise WorldProblem(damaged(path))
    if found != HEAD and found not in revisions():
        raise WorldProblem(message(Kind.NEWER_VERSION, path=str(path), found=found, known=HEAD))
    return found


def bring_up_to_date(database: Database, look: Callable[[], None] = lambda: None) -> None:
    """Run the missing migrations, all in one transaction: the file is as it was, or of the newest shape.

    `look` is asked at the end, and raises where what came out is not to be kept.
    """
    from alembic import command
    from alembic.config import Config

    file.enforce_foreign_keys(database.driver, False)
    try:
        with database.transaction() as connection:
            config = Config()
            config.set_main_option("script_location", str(migrations_folder()).replace("%", "%%"))
            config.attributes["connection"] = connection
            try:
                command.upgrade(config, "head")
            except (ValueError, TypeError, OverflowError) as error:
                raise Unreadable(f"while it was brought up to date: {error}") from error
            file.mark_as_ours(database.driver)
            look()
    finally:
        file.enforce_foreign_keys(database.driver, True)
