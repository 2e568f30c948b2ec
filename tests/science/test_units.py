"""The units of a kitchen by their definitions, and figures brought from one to another."""

from __future__ import annotations

import pytest

from dryhouse.science.units import (
    DIMENSIONS,
    METRIC_UNITS,
    SIZES,
    both_scales,
    both_scales_exactly,
    convert,
    cups,
    figure_in,
    to_celsius,
    to_fahrenheit,
    written_as,
)
from dryhouse.science.values import Figure
from tests.rows import every_row

CUBIC_INCH_ML = 16.387064


@every_row(
    ("unit", "dimension", "stored"),
    [
        ("g", "mass", 1), ("kg", "mass", 1000), ("mg", "mass", 0.001),
        ("lb", "mass", 453.59237), ("oz", "mass", 453.59237 / 16),
        ("ml", "volume", 1), ("cl", "volume", 10), ("dl", "volume", 100), ("l", "volume", 1000),
        ("gal", "volume", 231 * CUBIC_INCH_ML), ("qt", "volume", 231 * CUBIC_INCH_ML / 4),
        ("pt", "volume", 231 * CUBIC_INCH_ML / 8), ("cup", "volume", 231 * CUBIC_INCH_ML / 16),
        ("fl oz", "volume", 231 * CUBIC_INCH_ML / 128), ("tbsp", "volume", 231 * CUBIC_INCH_ML / 256),
        ("tsp", "volume", 231 * CUBIC_INCH_ML / 768),
        ("s", "time", 1), ("min", "time", 60), ("h", "time", 3600), ("day", "time", 24 * 3600),
        ("mm", "length", 1), ("cm", "length", 10), ("m", "length", 1000), ("in", "length", 25.4),
        ("ft", "length", 12 * 25.4),
        ("cm2", "area", 1), ("m2", "area", 10_000), ("sq in", "area", 2.54**2), ("sq ft", "area", (12 * 2.54) ** 2),
    ],
)  # fmt: skip
def test_each_unit_has_the_size_it_is_defined_by(unit, dimension, stored):
    assert SIZES[unit] == pytest.approx(stored, rel=1e-12)
    assert DIMENSIONS[unit] == dimension


def test_there_are_no_other_units_and_the_metric_ones_are_named():
    assert len(SIZES) == len(DIMENSIONS) == 29
    assert {"g", "kg", "mg", "ml", "cl", "dl", "l"} == METRIC_UNITS


def test_one_unit_is_told_in_another_of_its_kind_and_of_no_other():
    assert convert(2.0, "lb", "oz") == pytest.approx(32.0)
    assert convert(90.0, "min", "h") == pytest.approx(1.5)
    assert cups(473.176473) == pytest.approx(2.0)
    with pytest.raises(ValueError, match="do not measure the same"):
        convert(1.0, "lb", "cup")


def test_a_figure_changes_its_unit_with_its_interval():
    told = figure_in(Figure(32.0, "oz", 16.0, 48.0), "lb")
    assert (told.value, told.low, told.high, told.unit) == (pytest.approx(2.0), pytest.approx(1.0), 3.0, "lb")
    bare = figure_in(Figure(32.0, "oz"), "lb")
    assert (bare.low, bare.high) == (None, None)
    same = Figure(32.0, "oz", 16.0, 48.0)
    assert figure_in(same, "oz") is same


def test_a_temperature_is_said_in_both_scales():
    assert (to_fahrenheit(100.0), to_celsius(212.0), to_fahrenheit(-40.0)) == (212.0, 100.0, -40.0)
    assert both_scales(21.1) == "70 °F (21 °C)"
    assert both_scales(21.1, celsius_first=True) == "21 °C (70 °F)"
    assert both_scales_exactly(71.1) == "160 °F (71.1 °C)"
    assert both_scales_exactly(-18.0) == "−0.4 °F (−18 °C)"


def test_every_spelling_means_its_unit_within_its_kind():
    assert written_as(["time"])["m"].name == "min"
    assert written_as(["length"])["m"].name == "m"
    assert written_as(["volume"])["c"].name == "cup"
    assert "cup" not in written_as(["mass", "time"])
