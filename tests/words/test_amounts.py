"""Numbers in arithmetic: one unit for each kind of quantity, in the system the person reads."""

import math

from dryhouse.science.display import METRIC, Style
from dryhouse.words.amounts import figures, own, worked
from tests.rows import every_row


@every_row(
    ("value", "unit", "us", "metric"),
    [
        (1133.98, "g", "40 oz", "1134 g"),
        (2.0, "lb", "32 oz", "907.2 g"),
        (236.588, "ml", "1 cup", "236.6 ml"),
        (750.0, "ml", "3.17 cups", "750 ml"),
        (0.36, "g/ml", "3.004 oz/cup", "0.36 g/ml"),
        (3.65, "ml/g", "0.4374 cup/oz", "3.65 ml/g"),
        (3.5, "kcal/g", "99.22 kcal/oz", "3.5 kcal/g"),
        (5.0, "kg/m2", "16.39 oz/sq ft", "0.5 g/cm²"),
        (929.0304, "cm2", "1 sq ft", "929 cm²"),
        (203.2, "mm", "8 in", "20.32 cm"),
        (1524.0, "m", "5000 ft", "1524 m"),
        (57.0, "degC", "134.6 °F", "57 °C"),
        (10.0, "K", "18 °F", "10 °C"),
        (86.0, "%", "86 %", "86 %"),
        (76.05, "% wet basis", "76.05 %", "76.05 %"),
        (1.0, "day", "1 day", "1 day"),
        (182.625, "day", "182.6 days", "182.6 days"),
        (9.5, "h", "9.5 h", "9.5 h"),
        (2300.0, "mg", "2300 mg", "2300 mg"),
        (0.42, "aw", "0.42", "0.42"),
        (3.0, "", "3", "3"),
    ],
)
def test_a_number_in_arithmetic_stands_in_the_units_the_person_reads(value, unit, us, metric):
    assert (worked(value, unit, Style()), worked(value, unit, Style(METRIC))) == (us, metric)


def test_a_decimal_comma_is_kept_and_small_numbers_keep_their_digits():
    assert worked(15.625, "%", Style(METRIC, decimal_comma=True)) == "15,62 %"
    assert figures(0.0012345, Style()) == "0.001234"
    assert figures(-0.25, Style()) == "−0.25"
    assert figures(0.0, Style()) == "0"
    assert (figures(math.inf, Style()), figures(-math.inf, Style())) == ("∞", "−∞")


def test_digits_end_at_the_unit_and_at_the_eighth_decimal():
    assert [figures(value, Style()) for value in (123456.7, 1000.4, 999.96, 1.23456e-6)] == [
        "123457", "1000", "1000", "0.00000123",
    ]  # fmt: skip


def test_a_nutrient_keeps_the_unit_its_label_gives_it_in():
    assert own(12.5, "g", Style()) == "12.5 g"
