"""Records to rows and back: nothing lost, nothing added."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta, timezone

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from dryhouse.journal.database import Database, in_memory
from dryhouse.journal.mapping import Unreadable, from_micros, mapped, table_name, to_micros
from dryhouse.journal.reading import one
from dryhouse.journal.revision import create
from dryhouse.journal.sqlite.file import enforce_foreign_keys
from dryhouse.journal.tables import TABLES
from dryhouse.kitchen.records import RECORD_KINDS, BatchEvent, Lot
from dryhouse.science.quantities import Mass
from tests.records import PLAIN, records
from tests.rows import every_row


@pytest.fixture(scope="module")
def unbound() -> Iterator[Database]:
    """A journal in memory that does not ask whether what a record belongs to is there."""
    database = in_memory()
    create(database)
    enforce_foreign_keys(database.driver, False)
    yield database
    database.close()


@pytest.mark.parametrize("kind", RECORD_KINDS)
@given(data=st.data())
@settings(deadline=None)
def test_a_record_is_the_same_after_it_was_kept(unbound: Database, kind: type, data: st.DataObject) -> None:
    record = replace(data.draw(records(kind)), id=1)
    of = mapped(kind)
    with unbound.transaction() as connection:
        connection.execute(TABLES[kind].delete())
        connection.execute(TABLES[kind].insert(), of.row(record))
    assert one(unbound.connection, kind, 1) == record


@given(data=st.data())
@settings(deadline=None)
def test_rows_of_many_records_hold_what_the_row_of_each_does(data: st.DataObject) -> None:
    kind = data.draw(st.sampled_from(RECORD_KINDS))
    many = data.draw(st.lists(records(kind), min_size=1, max_size=4))
    columns, rows = mapped(kind).rows(many)
    nothing = dict.fromkeys(mapped(kind).columns)
    assert [{**nothing, **dict(zip(columns, row, strict=True))} for row in rows] == [
        mapped(kind).row(record) for record in many
    ]


@given(PLAIN[datetime])
def test_moments_survive_to_the_microsecond(moment: datetime) -> None:
    assert from_micros(to_micros(moment)) == moment


def test_a_moment_elsewhere_is_kept_as_the_same_instant_in_utc() -> None:
    there = datetime(2026, 8, 22, 7, 30, tzinfo=timezone(timedelta(hours=-5)))
    assert from_micros(to_micros(there)) == datetime(2026, 8, 22, 12, 30, tzinfo=UTC)


def test_a_moment_without_a_zone_is_our_own_mistake() -> None:
    with pytest.raises(ValueError, match="zone"):
        to_micros(datetime(2026, 8, 22, 7, 30, tzinfo=UTC).replace(tzinfo=None))


def test_a_quantity_is_its_value_and_what_was_typed() -> None:
    row = mapped(Lot).row(Lot("corn", date(2026, 8, 1), mass=Mass(198.4, "7 oz"), id=3))
    assert (row["mass_g"], row["mass_typed"], row["volume_ml"], row["packed_on"]) == (
        198.4,
        "7 oz",
        None,
        "2026-08-01",
    )
    assert row["sealed"] == 1


def test_tables_are_named_after_the_kinds() -> None:
    assert table_name(BatchEvent) == "batch_event"


JAR = Lot("corn", date(2026, 8, 1), mass=Mass(198.4, "7 oz"), id=3)


def changed(kind: type, record: object, **cells: object) -> list[object]:
    """The row of a record, with something else in some columns."""
    return list({**mapped(kind).row(record), **cells}.values())


def test_a_number_that_no_kitchen_has_is_unreadable_unless_it_is_asked_for() -> None:
    of = mapped(Lot)
    for grams in (-1e12, 1e12):
        assert of.record(changed(Lot, JAR, mass_g=grams)).mass.si == grams
    for grams in (-1.1e12, 1.1e12):
        with pytest.raises(Unreadable, match="Lot: a number that no kitchen has"):
            of.record(changed(Lot, JAR, mass_g=grams))
        assert of.record(changed(Lot, JAR, mass_g=grams), bounded=False).mass.si == grams
    for volume in (1e13, -1e13):
        with pytest.raises(Unreadable, match="no kitchen has"):
            of.record(changed(Lot, JAR, volume_ml=volume, volume_typed="much"))


@every_row(
    ("cells", "said"),
    [
        ({"food": None}, "Lot: a column holds what it cannot"),
        ({"food": 7}, "Lot: a column holds what it cannot"),
        ({"mass_g": "7 oz"}, "Lot: a column holds what it cannot"),
        ({"mass_typed": None}, "Lot: a quantity without what was typed"),
        ({"packed_on": "yesterday"}, "Lot: Invalid isoformat string: 'yesterday'"),
    ],
)
def test_a_row_that_was_never_a_record_is_unreadable(cells: dict[str, object], said: str) -> None:
    with pytest.raises(Unreadable, match=said):
        mapped(Lot).record(changed(Lot, JAR, **cells))


def test_a_moment_before_the_year_1000_or_after_9000_is_none_of_a_kitchen() -> None:
    first, last = (to_micros(datetime(year, 1, 1, tzinfo=UTC)) for year in (1000, 9000))
    turned = BatchEvent(1, from_micros(0), "trays turned", id=1)
    for micros in (first, last):
        assert mapped(BatchEvent).record(changed(BatchEvent, turned, at=micros)).at == from_micros(micros)
    for micros in (first - 1, last + 1, 10**30):
        with pytest.raises(Unreadable, match="are no moment of a kitchen"):
            mapped(BatchEvent).record(changed(BatchEvent, turned, at=micros))


def test_yes_and_no_come_back_as_they_were_and_what_nobody_answered_as_nothing() -> None:
    said = [mapped(Lot).record(changed(Lot, JAR, sealed=1, in_oil=oil)).in_oil for oil in (None, 0, 1)]
    assert said == [None, False, True]
    assert mapped(Lot).record(changed(Lot, JAR, sealed=0)).sealed is False
    assert mapped(Lot).record(changed(Lot, JAR)) == JAR
