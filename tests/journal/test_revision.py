"""A new file, an old one brought up to date, and the tables themselves all have one shape."""

from __future__ import annotations

import shutil
import warnings
from collections.abc import Iterator
from pathlib import Path

import pytest
from sqlalchemy import Connection

from dryhouse.journal.connecting import in_memory
from dryhouse.journal.opening import open_journal
from dryhouse.journal.revision import APPLICATION_ID, HEAD, bring_up_to_date, create, is_empty, migrations_folder
from dryhouse.journal.tables import metadata
from dryhouse.kitchen.exchange import every_record, read_records


@pytest.fixture
def memory() -> Iterator[Connection]:
    """A connection to an empty database in memory."""
    connection = in_memory()
    yield connection
    connection.close()
    connection.engine.dispose()


other_memory = memory
OLD = Path(__file__).parents[1] / "data" / "old_journals"


def shape(connection: Connection) -> dict[str, object]:
    """Every table's columns, keys and indexes, and every trigger, whatever the order they were made in."""
    found: dict[str, object] = {}
    for kind, name in connection.exec_driver_sql("SELECT type, name FROM sqlite_master").all():
        if kind == "table":
            found[name] = [
                sorted(map(repr, connection.exec_driver_sql(f"PRAGMA {what}({name})")))
                for what in ("table_xinfo", "foreign_key_list")
            ]
        elif kind == "index":
            found[name] = connection.exec_driver_sql(f"PRAGMA index_xinfo({name})").all()
        else:
            found[name] = connection.exec_driver_sql(
                "SELECT sql FROM sqlite_master WHERE name = ?", (name,)
            ).scalar()
    return found


def test_a_new_file_has_the_same_shape_as_one_brought_up_by_every_migration(
    memory: Connection, other_memory: Connection
) -> None:
    made, migrated = memory, other_memory
    create(made)
    bring_up_to_date(migrated)
    assert shape(made) == shape(migrated)
    for connection in (made, migrated):
        assert connection.exec_driver_sql("PRAGMA application_id").scalar() == APPLICATION_ID
        assert connection.exec_driver_sql("SELECT version_num FROM alembic_version").scalars().all() == [HEAD]


def test_autogenerate_finds_nothing_left_to_migrate(memory: Connection) -> None:
    from alembic.autogenerate import compare_metadata
    from alembic.migration import MigrationContext

    connection = memory
    bring_up_to_date(connection)
    options = {"include_name": lambda name, kind, _: not (kind == "table" and name.startswith("batch_words"))}
    with warnings.catch_warnings():
        warnings.filterwarnings("ignore", message=".*expression-based index")
        assert compare_metadata(MigrationContext.configure(connection, opts=options), metadata) == []


def test_the_newest_revision_is_the_one_the_program_names() -> None:
    from alembic.config import Config
    from alembic.script import ScriptDirectory

    config = Config()
    config.set_main_option("script_location", str(migrations_folder()))
    assert ScriptDirectory.from_config(config).get_heads() == [HEAD]


def test_the_migrations_are_named_in_the_project_file() -> None:
    assert (migrations_folder() / "env.py").is_file()
    assert (migrations_folder() / "script.py.mako").is_file()


def test_making_twice_changes_nothing(memory: Connection) -> None:
    connection = memory
    assert is_empty(connection)
    create(connection)
    before = shape(connection)
    create(connection)
    assert shape(connection) == before
    assert not is_empty(connection)


@pytest.mark.parametrize("old", sorted(OLD.glob("*.dryhouse")), ids=lambda p: p.stem)
@pytest.mark.parametrize("write", [False, True])
def test_journals_of_every_former_revision_still_open_with_all_they_hold(
    old: Path, write: bool, tmp_path: Path
) -> None:
    copy = Path(shutil.copy(old, tmp_path))
    expected = read_records(old.with_suffix(".json"))
    journal = open_journal(copy, write=write)
    try:
        assert sorted(every_record(journal), key=repr) == sorted(expected, key=repr)
    finally:
        journal.close()


def test_a_journal_of_each_revision_is_kept() -> None:
    revisions = {f.name.split("_")[0] for f in (migrations_folder() / "versions").glob("[0-9]*.py")}
    assert {f.stem for f in OLD.glob("*.dryhouse")} == revisions
