"""Boiling points between published points, and the time they cost."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dryhouse.handbook.boiling import boiling_tables
from dryhouse.science.boiling import BoilingTable, boiling_point, times_as_long
from dryhouse.science.errors import InputProblem
from tests.told import told
from tests.workings import read

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


def test_a_table_speaks_from_its_lowest_to_its_highest_point() -> None:
    table = BoilingTable("bent", "read", ((0.0, 100.0), (1000.0, 96.0), (2000.0, 94.0)))
    heights = (-1.0, 0.0, 500.0, 1000.0, 1500.0, 2000.0, 2000.1)
    assert [table.at(height) for height in heights] == [None, 100.0, 98.0, 96.0, 95.0, 94.0, None]


def test_another_table_is_told_where_a_tenth_of_a_degree_shows_it() -> None:
    others = [BoilingTable("close", "read", ((0.0, 100.0), (1000.0, at))) for at in (96.04, 96.06)]
    assert [len(boiling_point(1000.0, (TABLES[0], other)).workings) for other in others] == [1, 2]
    assert read(boiling_point(1000.0, TABLES).workings) == (
        "At 1000 m water boils at 96 °C   [cool]\nAnother table says 98 °C; the cooler figure is used"
    )


def test_the_refusal_names_the_height_of_the_tallest_table() -> None:
    low = BoilingTable("low", "read", ((0.0, 100.0), (500.0, 98.0)))
    with told(InputProblem, "above 3281 ft"):
        boiling_point(1000.1, (TABLES[0], low))
