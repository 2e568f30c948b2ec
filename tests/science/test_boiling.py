"""Boiling points between published points, and the time they cost."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dryhouse.handbook.boiling import boiling_tables
from dryhouse.science.boiling import BoilingTable, boiling_point, times_as_long
from dryhouse.science.errors import InputProblem
from tests.told import told

TABLES = (
    BoilingTable("cool", "read", ((0.0, 100.0), (1000.0, 96.0))),
    BoilingTable("warm", "read", ((0.0, 100.0), (1000.0, 98.0))),
)


def test_the_cooler_table_rules_and_the_other_is_named() -> None:
    found = boiling_point(500.0, TABLES)
    assert found.value == pytest.approx(98.0)
    assert (found.low, found.high) == (pytest.approx(98.0), pytest.approx(99.0))
    assert found.basis[0].source == "cool"


def test_where_the_tables_agree_there_is_one_boiling_point_and_no_range() -> None:
    found = boiling_point(0.0, TABLES)
    assert (found.value, found.low, found.high) == (100.0, None, None)


def test_below_the_sea_it_boils_as_at_the_sea() -> None:
    assert boiling_point(-20.0, TABLES).value == 100.0


def test_beyond_every_table_no_number_is_made_up() -> None:
    with told(InputProblem, "lower altitude"):
        boiling_point(1000.1, TABLES)


def test_twice_as_long_for_every_ten_degrees() -> None:
    assert times_as_long(90.0, 2.0) == pytest.approx(2.0)
    assert times_as_long(100.0, 2.0) == 1.0
    assert times_as_long(101.0, 2.0) == 1.0


@given(st.floats(0, 4572), st.floats(0, 4572))
def test_higher_never_boils_hotter_nor_cooks_faster(a: float, b: float) -> None:
    low, high = sorted((a, b))
    down, up = boiling_point(low, boiling_tables()).value, boiling_point(high, boiling_tables()).value
    assert up <= down + 0.35  # tables join and end at different heights, by rounding up to 0.6 °F apart
    assert times_as_long(up, 2.0) >= times_as_long(down, 2.0) / 1.03
