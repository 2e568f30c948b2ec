"""Records to rows and back: nothing lost, nothing added."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta, timezone

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dryhouse.journal.mapping import from_micros, mapped, table_name, to_micros
from dryhouse.journal.tables import metadata
from dryhouse.kitchen.records import RECORD_KINDS, BatchEvent, Lot
from dryhouse.science.quantities import Mass
from tests.records import PLAIN, records


@pytest.mark.parametrize("kind", RECORD_KINDS)
@given(data=st.data())
def test_a_record_is_the_same_after_its_row(kind: type, data: st.DataObject) -> None:
    record = data.draw(records(kind))
    row = mapped(kind).row(record)
    assert mapped(kind).record([row[column] for column in mapped(kind).columns]) == record


@pytest.mark.parametrize("kind", RECORD_KINDS)
def test_the_columns_read_are_those_of_the_table(kind: type) -> None:
    of = mapped(kind)
    assert sorted(of.columns) == sorted(column.name for column in metadata.tables[of.table].c)


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
    from datetime import date

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
