"""Numbers are shown in the person's own system, and read back as what they were."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dryhouse.science.display import METRIC, Style, calories, counted, duration, fraction, household
from dryhouse.science.quantities import Area, Duration, Length, Mass, Temperature, Volume, parse
from dryhouse.science.values import Figure
from tests.rows import every_row

US, SI = Style(), Style(METRIC)


@every_row(
    ("grams", "us", "metric"),
    [
        (198.446662, "7 oz", "198 g"),
        (992.2333, "2 lb 3 oz", "992 g"),
        (453.59237, "1 lb", "454 g"),
        (1250, "2 lb 12.1 oz", "1.25 kg"),
    ],
)
def test_masses(grams, us, metric):
    assert US.mass(grams) == us
    assert SI.mass(grams) == metric


@every_row(
    ("ml", "us"),
    [
        (59.147, "¼ cup"),
        (354.88, "1½ cups"),
        (78.86, "⅓ cup"),
        (591.47, "2½ cups"),
        (0.44 * 236.588, "7 tbsp"),
        (1.05 * 236.588, "1 cup"),
        (1.95 * 236.588, "2 cups"),
        (6.96 * 236.588, "7 cups"),
        (0.84 * 236.588, "⅞ cup"),
        (0.58 * 236.588, "⅝ cup"),
        (8 * 236.588, "2 quarts"),
        (15.7 * 236.588, "4 quarts"),
        (130.2 * 236.588, "33 quarts"),
        (0.2, "less than ⅛ tsp"),
        (44.36, "3 tbsp"),
        (4.93, "1 tsp"),
    ],
)
def test_volumes_are_shown_as_a_cook_measures_them(ml, us):
    assert US.volume(ml) == us


def test_temperatures_times_and_commas():
    assert US.temperature(57.2222) == "135 °F"
    assert SI.temperature(57.2222) == "57 °C"
    assert SI.temperature(-18) == "−18 °C"
    assert duration(30600) == "8 h 30 min"
    assert Style(METRIC, decimal_comma=True).mass(1250) == "1,25 kg"


@given(st.floats(1, 50_000), st.sampled_from([US, SI]))
def test_what_is_shown_can_be_typed_again_and_means_the_same(grams, style):
    assert parse(style.mass(grams), Mass).si == pytest.approx(grams, rel=0.05)


@every_row(
    ("grams", "us", "metric"),
    [
        (2681.4, "5 lb 14½ oz", "2.68 kg"),
        (434.0, "15½ oz", "430 g"),
        (453.0, "1 lb", "450 g"),
        (64.2, "2½ oz", "64.2 g"),
        (99.6, "3½ oz", "99.6 g"),
        (100.0, "3½ oz", "100 g"),
        (104.0, "3½ oz", "100 g"),
        (28.3495, "1 oz", "28.3 g"),
        (28.4, "1 oz", "28.4 g"),
        (2268.0, "5 lb", "2.27 kg"),
        (20.0, "0.71 oz", "20 g"),
    ],
)
def test_a_load_is_said_to_half_an_ounce_or_ten_grams(grams, us, metric):
    assert (US.load(grams), SI.load(grams)) == (us, metric)


def test_what_is_to_be_bought_is_no_less_than_what_is_needed():
    assert US.load(119.07, math.ceil) == "4½ oz", "4.2 oz"
    assert (SI.load(120.0, math.ceil), SI.load(120.1, math.ceil)) == ("120 g", "130 g")


def test_water_that_is_roughly_known_is_said_in_tens_of_milliliters():
    water = Figure(917.3, "ml", low=763.2, high=1068.0)
    assert (SI.figure(water), SI.interval(water)) == ("920 ml", "760 ml to 1.07 l")
    assert SI.figure(Figure(917.3, "ml")) == "917 ml"
    assert US.figure(Figure(86.4, "kcal")) == "90 kcal"
    said = ("0", "5", "50", "50", "60", "580", "1220")
    assert [calories(v) for v in (2.4, 3.0, 48.0, 50.0, 55.1, 582.0, 1216.0)] == list(said)


def test_a_figure_is_shown_with_its_interval():
    figure = Figure(198.4, "g", low=170.1, high=226.8)
    assert US.figure(figure) == "7 oz"
    assert US.interval(figure) == "6 oz to 8 oz"
    assert US.interval(Figure(1, "g")) == ""


def test_every_unit_is_said_as_it_is_spoken():
    said = {
        (1.2, "day"): "1 day", (3.4, "day"): "3 days", (0.4, "day"): "0 days", (45.0, "day"): "45 days",
        (76.0, "day"): "2½ months", (91.3, "day"): "3 months", (97.4, "day"): "3 months",
        (182.6, "day"): "6 months", (200.0, "day"): "7 months",
        (274.0, "day"): "9 months", (365.25, "day"): "12 months", (548.0, "day"): "18 months",
        (740.0, "day"): "2 years", (3650.0, "day"): "10 years",
        (350.0, "kcal"): "350 kcal",
        (12.34, "kcal"): "12.3 kcal", (1.234, "kcal"): "1.23 kcal", (2.5, "h"): "2 h 30 min",
        (57.2222, "degC"): "135 °F", (99.96, "m"): "100 m", (0.42, ""): "0.42",
    }  # fmt: skip
    assert {key: US.amount(*key) for key in said} == said


def test_a_nutrient_is_given_in_grams_in_every_system_as_on_every_label():
    protein = Figure(12.34, "g", low=10.0, high=15.0, as_is=True)
    for style in (US, Style(METRIC)):
        assert style.figure(protein) == "12.3 g"
        assert style.interval(protein) == "10 g to 15 g"
    assert Style(METRIC, decimal_comma=True).figure(protein) == "12,3 g"


BORDERS = {
    ("mass", US): {28.349523125 * ounces: said for ounces, said in (
        (0.185, "0.185 oz"), (0.2, "0.2 oz"), (0.994, "0.99 oz"), (1.0, "1 oz"), (1.04, "1 oz"), (1.26, "1.3 oz"),
        (15.94, "15.9 oz"), (15.96, "1 lb"), (35.12, "2 lb 3.1 oz"))},
    ("mass", SI): {99.94: "99.9 g", 100.4: "100 g", 999.4: "999 g", 999.6: "1 kg", 1234.0: "1.23 kg",
                   20_000.0: "20 kg"},
    ("volume", SI): {350.4: "350 ml", 999.4: "999 ml", 999.6: "1 l", 1234.0: "1.23 l", 20_000.0: "20 l"},
    ("volume", US): {0.0: "0 tsp", 0.3: "less than ⅛ tsp", 4.7: "1 tsp", 14.1: "1 tbsp", 59.0: "¼ cup",
                     118.4: "½ cup", 1862.0: "7¾ cups", 1864.0: "2 quarts"},
    ("length", SI): {6.35: "6.3 mm", 9999.4: "9999.4 mm", 10_000.0: "10 m", 20_400.0: "20 m",
                     2_000_000.0: "2000 m"},
    ("length", US): {6.35: "¼ in", 25.4: "1 in", 304.8: "12 in", 3047.0: "119.96 in", 3048.0: "10 ft",
                     3048.5: "10 ft", 3200.0: "10 ft", 304_800.0: "1000 ft"},
    ("area", SI): {1114.8: "1115 cm²", 0.4: "0 cm²"},
    ("area", US): {1114.8: "1.2 sq ft", 929_030.4: "1000 sq ft", 1150.0: "1.24 sq ft"},
    ("percent", SI): {86.54: "86.5 %"},
    ("temperature", SI): {57.4: "57 °C"},
    ("temperature", US): {57.4: "135 °F"},
}  # fmt: skip


def test_the_finest_digit_turns_at_its_border():
    """28.349523125 g are an ounce, 304.8 mm a foot, 929.0304 cm² a square foot."""
    for (measure, style), wanted in BORDERS.items():
        assert {value: getattr(style, measure)(value) for value in wanted} == wanted, measure


def test_what_has_no_measure_of_its_own_has_three_digits_and_time_its_own_words():
    said = {
        (0.0, "kcal"): "0 kcal", (9.994, "kcal"): "9.99 kcal", (10.0, "kcal"): "10 kcal",
        (10.04, "kcal"): "10 kcal", (10.46, "kcal"): "10.5 kcal", (99.94, "kcal"): "99.9 kcal",
        (100.0, "kcal"): "100 kcal", (100.4, "kcal"): "100 kcal", (-100.4, "kcal"): "−100 kcal",
        (59.4, "day"): "59 days", (59.6, "day"): "2 months", (174.9, "day"): "5½ months",
        (175.1, "day"): "6 months", (715.0, "day"): "23 months", (715.28125, "day"): "2 years",
        (90.0, "s"): "2 min", (59.49, "min"): "59 min", (59.51, "min"): "1 h", (47.99, "h"): "47 h 59 min",
        (48.0, "h"): "2 days", (49.0, "h"): "2 days 1 h", (-61.0, "min"): "−1 h 1 min",
        (-5.0, "min"): "−5 min", (-0.2, "min"): "0 min",
        (86.54, "%"): "86.5 %", (2.0, "kg"): "4 lb 6.5 oz", (3.0, "lb"): "3 lb", (0.5, "lb"): "8 oz",
        (2.0, "l"): "2 quarts", (3.0, "tbsp"): "3 tbsp", (2.0, "tsp"): "2 tsp", (2.0, "fl oz"): "¼ cup",
        (1.0, "pt"): "2 cups", (3.0, "qt"): "3 quarts",
    }  # fmt: skip
    assert {key: US.amount(*key) for key in said} == said


def test_what_is_known_no_closer_is_said_no_closer():
    share, hours = Figure(15.63, "%", low=14.6, high=16.6), Figure(2.6, "h", low=2.1, high=3.1)
    assert (US.figure(share), US.interval(share)) == ("16 %", "15 % to 17 %")
    assert US.figure(Figure(15.63, "%", low=14.6, high=16.5)) == "15.6 %"
    assert (US.figure(hours), US.interval(hours)) == ("2 h 30 min", "2 h to 3 h")
    assert US.figure(Figure(2.6, "h", low=2.2, high=3.1)) == "2 h 36 min"
    assert US.figure(Figure(20.1, "h", low=19.0, high=22.0)) == "20 h"
    assert US.figure(Figure(156.0, "min", low=126.0, high=186.0)) == "2 h 30 min"
    assert [US.figure(Figure(2.6, "h", low=low)) for low in (None, 1.0)] == ["2 h 36 min"] * 2
    assert [US.figure(Figure(15.63, "%", low=14.0, high=high)) for high in (15.99, 16.0)] == ["15.6 %", "16 %"]
    assert [SI.figure(Figure(917.3, "ml", low=907.0, high=high)) for high in (926.0, 927.0)] == ["917 ml", "920 ml"]
    assert SI.figure(Figure(0.9173, "l", low=0.907, high=0.93)) == "920 ml"
    assert [US.figure(Figure(grams, "g", as_is=True)) for grams in (99.94, 100.4)] == ["99.9 g", "100 g"]


def test_a_quantity_is_shown_by_its_kind():
    kinds = (Mass(198.4), Volume(591.47), Temperature(57.2222), Length(6.35), Area(1114.8), Duration(30600.0), None)
    assert [US.show(kind) for kind in kinds] == [
        "7 oz", "2½ cups", "135 °F", "¼ in", "1.2 sq ft", "8 h 30 min", "—",
    ]  # fmt: skip
    assert [SI.show(kind, "") for kind in kinds] == [
        "198 g", "591 ml", "57 °C", "6.3 mm", "1115 cm²", "8 h 30 min", "",
    ]  # fmt: skip


def test_a_value_is_said_by_the_nearest_kitchen_fraction_or_by_its_decimals():
    said = {
        0.0: "0", 0.02: "0", 0.06: "0.06", 0.13: "⅛", 0.25: "¼", 0.38: "⅜", 0.5: "½",
        0.62: "⅝", 0.67: "⅔", 0.75: "¾", 0.88: "⅞", 0.94: "0.94", 0.98: "1", 1.0: "1", 1.98: "2", 2.02: "2",
        2.05: "2.05", 2.51: "2½", 2.45: "2.45",
    }  # fmt: skip
    assert {value: fraction(value, US) for value in said} == said
    near = {
        0.09: "0.09", 0.1: "⅛", 0.15: "⅛", 0.16: "0.16", 0.21: "0.21", 0.225: "¼", 0.275: "¼", 0.29: "0.29",
        0.31: "⅓", 0.35: "⅓", 0.36: "⅜", 0.4: "⅜", 0.41: "0.41", 0.46: "0.46", 0.475: "½", 0.525: "½", 0.54: "0.54",
        0.59: "0.59", 0.6: "⅝", 0.64: "⅝", 0.65: "⅔", 0.69: "⅔", 0.71: "0.71", 0.725: "¾", 0.775: "¾", 0.79: "0.79",
        0.84: "0.84", 0.85: "⅞", 0.9: "⅞", 0.91: "0.91",
    }  # fmt: skip
    assert {value: fraction(value, US) for value in near} == near, "three hundredths aside it is no longer near"
    assert fraction(2.05, Style(METRIC, decimal_comma=True)) == "2,05"


def test_water_is_said_by_the_measure_a_cook_would_take():
    cups = {
        0.2: "3¼ tbsp", 0.25: "¼ cup", 0.3: "5 tbsp", 0.34: "⅓ cup", 0.5: "½ cup",
        0.9: "⅞ cup", 0.97: "1 cup", 3.4: "3⅜ cups", 4.1: "4 cups", 4.2: "4¼ cups", 7.8: "7¾ cups",
        7.87: "7¾ cups", 7.88: "2 quarts", 10.0: "2½ quarts", 39.0: "9¾ quarts", 41.0: "10 quarts",
        118.0: "29½ quarts", 122.0: "30 quarts",
    }  # fmt: skip
    assert {amount: household(amount * 236.5882365, US) for amount in cups} == cups
    small = {0.6: "⅝ tsp", 1.0: "1 tsp", 1.3: "1¼ tsp", 1.4: "1½ tsp", 2.8: "2¾ tsp", 2.9: "1 tbsp", 4.6: "1½ tbsp"}
    assert {spoons: household(spoons * 4.92892159375, US) for spoons in small} == small


def test_one_is_one_and_the_rest_have_their_plural():
    assert [counted(n, "tray") for n in (0, 1, 2)] == ["0 trays", "1 tray", "2 trays"]
    assert [counted(n, "batch", "batches") for n in (1, 2)] == ["1 batch", "2 batches"]


def test_what_a_bare_number_is_taken_for():
    assert [(s.mass_unit, s.volume_unit, s.temperature_unit, s.length_unit) for s in (US, SI)] == [
        ("oz", "cup", "F", "in"), ("g", "ml", "C", "mm"),
    ]  # fmt: skip
