"""The tables keep what the records promise about each other."""

from __future__ import annotations

import pytest
from sqlalchemy import REAL, Table, UniqueConstraint

from dryhouse.journal.mapping import table_name
from dryhouse.journal.tables import metadata
from dryhouse.kitchen.records import RECORD_KINDS
from dryhouse.kitchen.records.links import LINKS, ONCE
from dryhouse.kitchen.records.shapes import shapes


def table_of(kind: type) -> Table:
    return metadata.tables[table_name(kind)]


def test_there_is_one_table_for_each_kind_of_record_and_no_other() -> None:
    assert set(metadata.tables) == {table_name(kind) for kind in RECORD_KINDS}


@pytest.mark.parametrize("kind", RECORD_KINDS)
def test_foreign_keys_are_the_links_between_records(kind: type) -> None:
    found = {key.parent.name: key.column.table.name for key in table_of(kind).foreign_keys}
    assert found == {name: table_name(target) for name, target in LINKS.get(kind, {}).items()}


@pytest.mark.parametrize("kind", RECORD_KINDS)
def test_every_foreign_key_is_indexed(kind: type) -> None:
    table = table_of(kind)
    leading = {next(iter(index.columns)).name for index in table.indexes if len(index.columns)}
    assert {key.parent.name for key in table.foreign_keys} <= leading


@pytest.mark.parametrize("kind", RECORD_KINDS)
def test_names_that_may_stand_once_are_unique(kind: type) -> None:
    unique = [c for c in table_of(kind).constraints if isinstance(c, UniqueConstraint)]
    assert [tuple(c.name for c in each.columns) for each in unique] == ([ONCE[kind]] if kind in ONCE else [])


@pytest.mark.parametrize("kind", RECORD_KINDS)
def test_only_what_may_be_missing_may_be_null(kind: type) -> None:
    table = table_of(kind)
    for shape in shapes(kind):
        for column in table.c:
            if column.name == shape.name or (shape.quantity and column.name.startswith(f"{shape.name}_")):
                assert column.nullable == shape.missing, column


def test_every_constraint_and_index_has_a_name() -> None:
    for table in metadata.tables.values():
        assert all(constraint.name for constraint in table.constraints)
        assert all(index.name for index in table.indexes)


def test_measured_values_are_real_numbers() -> None:
    for kind in RECORD_KINDS:
        for shape in shapes(kind):
            if shape.holds is float:
                assert isinstance(table_of(kind).c[shape.name].type, REAL)
