"""A new file, an old one brought up to date, and the tables themselves all have one shape."""

from __future__ import annotations

import shutil
import warnings
from collections.abc import Iterator
from pathlib import Path

import pytest

from dryhouse.journal.database import Database, in_memory
from dryhouse.journal.opening import open_journal
from dryhouse.journal.revision import HEAD, bring_up_to_date, create, migrations_folder
from dryhouse.journal.sqlite.file import APPLICATION_ID, is_empty
from dryhouse.journal.tables import metadata
from dryhouse.kitchen.exchange import every_record, read_records
from tests.journal.journals import ask, value


@pytest.fixture
def memory() -> Iterator[Database]:
    """An empty database in memory."""
    database = in_memory()
    yield database
    database.close()


other_memory = memory
OLD = Path(__file__).parents[1] / "data" / "old_journals"


def shape(database: Database) -> dict[str, object]:
    """Every table's columns, keys and indexes, and every trigger, whatever the order they were made in."""
    found: dict[str, object] = {}
    for kind, name in ask(database, "SELECT type, name FROM sqlite_master"):
        if kind == "table":
            found[name] = [
                sorted(repr(line[1:]) for line in ask(database, f"PRAGMA {what}({name})"))
                for what in ("table_xinfo", "foreign_key_list")
            ]
        elif kind == "index":
            found[name] = [(line[0], *line[2:]) for line in ask(database, f"PRAGMA index_xinfo({name})")]
        else:
            found[name] = value(database, "SELECT sql FROM sqlite_master WHERE name = ?", (name,))
    return found


def test_a_new_file_has_the_same_shape_as_one_brought_up_by_every_migration(
    memory: Database, other_memory: Database
) -> None:
    made, migrated = memory, other_memory
    create(made)
    bring_up_to_date(migrated)
    assert shape(made) == shape(migrated)
    for database in (made, migrated):
        assert value(database, "PRAGMA application_id") == APPLICATION_ID
        assert ask(database, "SELECT version_num FROM alembic_version") == [(HEAD,)]


def test_autogenerate_finds_nothing_left_to_migrate(memory: Database) -> None:
    from alembic.autogenerate import compare_metadata
    from alembic.migration import MigrationContext

    bring_up_to_date(memory)
    options = {"include_name": lambda name, kind, _: not (kind == "table" and name.startswith("batch_words"))}
    with memory.transaction() as connection, warnings.catch_warnings():
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


def test_making_twice_changes_nothing(memory: Database) -> None:
    assert is_empty(memory.driver)
    create(memory)
    before = shape(memory)
    create(memory)
    assert shape(memory) == before
    assert not is_empty(memory.driver)


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


def test_revisions_are_numbered_each_after_the_one_before() -> None:
    """A migration that Alembic named by itself would be none: only numbers are looked for, and the highest is the
    newest."""
    files = sorted(file.name for file in (migrations_folder() / "versions").glob("*.py"))
    assert [name[:5] for name in files] == [f"{n:04}_" for n in range(1, len(files) + 1)]
    assert files[-1].startswith(HEAD)
    former = "None"
    for name in files:
        step = (migrations_folder() / "versions" / name).read_text(encoding="utf-8")
        assert f'\nrevision = "{name[:4]}"\ndown_revision = {former}\n' in step
        former = f'"{name[:4]}"'
