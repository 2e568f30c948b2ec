"""The tables worked out of the records. That they are what the migrations lead to is held in `test_revision.py`."""

from __future__ import annotations

from sqlalchemy import UniqueConstraint
from sqlalchemy.dialects import postgresql, sqlite
from sqlalchemy.schema import CreateTable

from dryhouse.journal.tables import TABLES, metadata
from dryhouse.kitchen.records import RECORD_KINDS, LotDraw, OwnFigure
from tests.rows import every_row


def test_a_record_s_fields_become_columns_that_may_be_missing_where_they_may() -> None:
    columns = [
        (
            column.name,
            column.type.compile(sqlite.dialect()),
            column.nullable,
            [str(key.column) for key in column.foreign_keys],
            column.server_default is not None,
        )
        for column in TABLES[LotDraw].c
    ]
    assert columns == [
        ("id", "INTEGER", False, [], False),
        ("lot", "INTEGER", False, ["lot.id"], False),
        ("on", "TEXT", False, [], False),
        ("purpose", "TEXT", False, [], True),
        ("mass_g", "REAL", True, [], False),
        ("mass_typed", "TEXT", True, [], False),
        ("meal", "INTEGER", True, ["meal.id"], False),
        ("note", "TEXT", False, [], True),
        ("at", "INTEGER", True, [], False),
    ]


def test_every_record_is_known_by_its_number() -> None:
    assert set(TABLES) == set(RECORD_KINDS)
    assert {tuple(column.name for column in table.primary_key) for table in TABLES.values()} == {("id",)}


def test_names_that_may_stand_once_are_unique() -> None:
    unique = [c for c in TABLES[OwnFigure].constraints if isinstance(c, UniqueConstraint)]
    assert [tuple(c.name for c in each.columns) for each in unique] == [("food", "name")]


def test_every_foreign_key_is_indexed() -> None:
    for table in metadata.tables.values():
        leading = {next(iter(index.columns)).name for index in table.indexes if len(index.columns)}
        assert {key.parent.name for key in table.foreign_keys} <= leading, table.name


def test_every_constraint_and_index_has_a_name() -> None:
    for table in metadata.tables.values():
        assert all(constraint.name for constraint in table.constraints)
        assert all(index.name for index in table.indexes)


@every_row("kind", RECORD_KINDS)
def test_another_database_could_hold_the_tables(kind: type) -> None:
    made = str(CreateTable(TABLES[kind]).compile(dialect=postgresql.dialect()))
    assert "STRICT" not in made
    assert "INTEGER" not in made, "moments do not fit into 32 bits"
    assert "REAL" not in made, "measured values need all their digits"
