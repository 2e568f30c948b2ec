"""What people type becomes a quantity, or a sentence that says what would be right."""

import math
import subprocess
import sys

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import (
    Area,
    Duration,
    Length,
    Mass,
    Temperature,
    Volume,
    parse,
    parse_amount,
    parse_number,
    parse_percent,
    registry,
    unit_typed,
)
from dryhouse.science.units import SIZES, STORED, UNITS, to_celsius, to_fahrenheit
from dryhouse.words.messages import problem_sentence
from tests.rows import every_row
from tests.told import told

LB, OZ, CUP = 453.59237, 28.349523125, 236.5882365


@every_row(
    ("text", "kind", "expected"),
    [
        ("2 lb 3 oz", Mass, 2 * LB + 3 * OZ),
        ("2lb3oz", Mass, 2 * LB + 3 * OZ),
        ("2 lb, 3 oz", Mass, 2 * LB + 3 * OZ),
        ("2 pounds and 3 ounces", Mass, 2 * LB + 3 * OZ),
        ("40oz", Mass, 40 * OZ),
        (".5 oz", Mass, 0.5 * OZ),
        ("1.5 kg", Mass, 1500),
        ("1,000 g", Mass, 1000),
        ("1 1/2 cups", Volume, 1.5 * CUP),
        ("¾ cup", Volume, 0.75 * CUP),
        ("1½ c", Volume, 1.5 * CUP),
        ("1 ½ cups", Volume, 1.5 * CUP),
        ("3 qt", Volume, 12 * CUP),
        ("12 tbsp", Volume, 0.75 * CUP),
        ("8 fl oz", Volume, CUP),
        ("8 fl. oz.", Volume, CUP),
        ("8h30", Duration, 30600),
        ("8:30", Duration, 30600),
        ("8 h 30 min", Duration, 30600),
        ("510 min", Duration, 30600),
        ("8.5 hours", Duration, 30600),
        ("135 F", Temperature, 57.2222222),
        ("135°F", Temperature, 57.2222222),
        ("57 °C", Temperature, 57),
        ("−18 C", Temperature, -18),
        ("-273.15 C", Temperature, -273.15),
        ("1000 C", Temperature, 1000),
        ("+57 C", Temperature, 57),
        ("1000000000 g", Mass, 1e9),
        ("8:59", Duration, 32340),
        ("0:05", Duration, 300),
        ("0 F", Temperature, -160 / 9),
        ("1/4 in", Length, 6.35),
        ('1/4"', Length, 6.35),
        ("30 x 40 cm", Area, 1200),
        ("1 sq ft", Area, 929.0304),
    ],
)
def test_what_people_type_is_understood_and_kept(text, kind, expected):
    read = parse(text, kind)
    assert read.si == pytest.approx(expected, rel=1e-9)
    assert read.typed == text


@pytest.mark.parametrize(("text", "grams"), [("1.850,5 g", 1850.5), ("1.234.567,5 g", 1234567.5)])
def test_points_may_group_thousands_before_a_decimal_comma(text, grams):
    assert parse(text, Mass, decimal_comma=True).si == grams


def test_a_decimal_comma_is_read_where_the_person_uses_one():
    assert parse("1,5 kg", Mass, decimal_comma=True).si == 1500
    with told(InputProblem, "two ways"):
        parse("1.500 g", Mass, decimal_comma=True)


@every_row(
    ("text", "kind", "says"),
    [
        ("", Mass, "no mass here yet"),
        ("hello", Mass, "not a weight"),
        ("-3 oz", Mass, "cannot be negative"),
        ("inf g", Mass, "not a weight"),
        ("nan", Mass, "not a weight"),
        ("0 g", Mass, "is zero"),
        ("12", Mass, "has no unit"),
        ("1,5 kg", Mass, "comma for a decimal mark"),
        ("3 cups", Mass, "is a volume; this entry takes a weight"),
        ("8 oz", Volume, "is a weight; for a volume write fl oz"),
        ("3 oz 2 lb", Mass, "out of order"),
        ("2 lb 2 lb", Mass, "out of order or twice"),
        ("1/0 cup", Volume, "divides by zero"),
        ("99999999999999 kg", Mass, "larger than anything"),
        ("3 parsec", Length, "not a unit known here"),
        ("135", Temperature, "does not say which degrees"),
        ("135 K", Temperature, "not a scale"),
        ("-500 C", Temperature, "colder than anything"),
        ("-273.2 C", Temperature, "colder than anything"),
        ("1001 C", Temperature, "hotter than any kitchen"),
        ("warm", Temperature, "is not a temperature"),
        ("1000000001 g", Mass, "larger than anything"),
        ("8:60", Duration, "needs two digits"),
        ("1.5.2 g", Mass, "is not a weight"),
        ("1e3 g", Mass, "is not a weight"),
        ("2 lb!", Mass, "is not a unit"),
        ("135 F", Mass, "is a temperature"),
    ],
)
def test_what_cannot_be_used_gets_a_sentence_that_says_why_and_what_would_do(text, kind, says):
    with pytest.raises(InputProblem) as caught:
        parse(text, kind)
    assert says in problem_sentence(caught.value)


def test_zero_is_taken_where_it_means_something():
    assert parse("0 g", Mass, allow_zero=True).si == 0.0
    assert parse("0 C", Temperature).si == 0.0


def test_a_bare_number_takes_the_unit_shown_beside_the_field():
    assert parse("7", Mass, default_unit="oz").si == pytest.approx(7 * OZ)
    assert parse("135", Temperature, default_unit="F").si == pytest.approx(57.2222, abs=1e-4)


def test_an_amount_is_a_mass_or_a_measure_as_its_unit_says():
    assert isinstance(parse_amount("40 oz"), Mass)
    assert isinstance(parse_amount("1 cup"), Volume)
    assert isinstance(parse_amount("8 fl oz"), Volume)
    with pytest.raises(InputProblem):
        parse_amount("8 h")


def test_percentages_and_plain_numbers():
    assert parse_percent("14%") == 14
    assert [parse_percent(text) for text in ("0", "100 %", "14 percent", "14 pct")] == [0, 100, 14, 14]
    with told(InputProblem, "A target lies between 0 and 100 %; “100.1” does not"):
        parse_percent("100.1", what="target")
    assert parse_percent("14,5 %", decimal_comma=True) == 14.5
    assert parse_number("1 1/2") == 1.5
    for bad in ("140 %", "-3", "x"):
        with pytest.raises(InputProblem):
            parse_percent(bad)


@every_row(("text", "unit"), [("2 lb 3 oz", "oz"), ("40oz", "oz"), ("1.5 kg", "kg"), ("7", "g")])
def test_answers_come_in_the_unit_that_was_typed(text, unit):
    assert unit_typed(parse(text, Mass, default_unit="g")) == unit


@given(st.floats(1e-3, 1e5), st.sampled_from([u for u in UNITS if u.dimension == "mass"]))
def test_every_spelling_of_a_unit_means_the_same(value, unit):
    sizes = {parse(f"{value:.6f} {word}", Mass).si for word in unit.written if unit.size * value < 1e9}
    assert all(math.isclose(s, value * unit.size, rel_tol=1e-3) or value < 1e-2 for s in sizes)
    assert len({round(s, 6) for s in sizes}) <= 1


@given(st.text(max_size=20))
def test_nothing_typed_ever_breaks_the_reader(text):
    for kind in (Mass, Volume, Duration, Temperature, Length, Area):
        try:
            read = parse(text, kind)
        except InputProblem:
            continue
        assert math.isfinite(read.si)


def refusal(text, kind):
    try:
        parse(text, kind)
    except InputProblem as problem:
        return problem_sentence(problem)
    return None


@given(st.text(alphabet="0123456789 .,/-lbozgkcupFC½", max_size=12), st.sampled_from([Mass, Volume, Temperature]))
def test_every_refusal_is_a_whole_sentence(text, kind):
    sentence = refusal(text, kind)
    assert sentence is None or (sentence.endswith(".") and len(sentence) > 20)


def in_pint(value, unit):
    return registry().Quantity(value, unit.replace(" ", "_"))


def test_the_factors_used_for_showing_are_the_ones_pint_reads_with():
    for unit in UNITS:
        if unit.dimension != "temperature":
            stored = in_pint(1.0, unit.name).to(STORED[unit.dimension]).magnitude
            assert stored == pytest.approx(SIZES[unit.name]), unit.name


@given(st.integers(-400, 1000))
def test_a_temperature_read_is_to_the_last_digit_the_one_that_published_figures_are_turned_into(degrees):
    """A limit of 160 °F is met by 160 °F typed, not missed by a rounding."""
    if degrees >= -459:
        assert parse(f"{degrees} F", Temperature).si == to_celsius(degrees)
        assert in_pint(float(degrees), "degC").to("degF").magnitude == to_fahrenheit(degrees)


def test_the_registry_holds_the_units_of_the_table_and_no_others():
    known = registry()
    for word in ("lb", "pounds", "cups", "c", "degrees_f", '"', "cm²"):
        assert known.parse_unit_name(word), word
    for word in ("parsec", "mile", "slug", "kelvin"):
        assert not known.parse_unit_name(word), word


@every_row(
    ("text", "kind", "expected"),
    [
        ("1 lb 14 oz", Mass, 30 * OZ),
        ("1 qt 1 cup", Volume, 5 * CUP),
        ("1 cup and 2 tbsp", Volume, 1.125 * CUP),
        ("5 m", Duration, 300),
        ("5 m", Length, 5000),
        ("1 day 2 hours 30 min", Duration, 95400),
        ("5 ft 6 in", Length, 66 * 25.4),
        ("3#", Mass, 3 * LB),
        ("10 x 12 in", Area, 120 * 6.4516),
        ("140 degrees F", Temperature, 60),
        ("900 cm2", Area, 900),
        ("1.5 ft2", Area, 1.5 * 929.0304),
    ],
)
def test_unit_words_compounds_and_sides_add_up(text, kind, expected):
    assert parse(text, kind).si == pytest.approx(expected, rel=1e-12)


@every_row(
    ("text", "kind", "says"),
    [
        ("1½2 lb", Mass, "“1½2 lb” goes on after ½; write the whole number before it, as in 1½."),
        ("½5 cup", Volume, "“½5 cup” goes on after ½; write the whole number before it, as in 1½."),
        ("½¼ cup", Volume, "“½¼ cup” goes on after ½"),
        ("8:5", Duration, "“8:5” needs two digits from 00 to 59 after the colon; write it like 8h30, 8:30"),
        ("8:75", Duration, "“8:75” needs two digits"),
        ("8:305", Duration, "“8:305” needs two digits"),
        ("٣ kg", Mass, "“٣ kg” has digits that are not read here; write it with the digits 0 to 9."),
        ("１６０ F", Temperature, "has digits that are not read here"),
        ("8 lb 2 cups", Mass, "“8 lb 2 cups” is a volume; this entry takes a weight"),
        ("5 kg/l", Mass, "“kg/l” is not a unit known here"),
        ("5 c", Mass, "is a volume"),
        ("5 m", Mass, "is a length;"),
    ],
)
def test_what_could_be_read_two_ways_is_asked_about_and_never_guessed(text, kind, says):
    with pytest.raises(InputProblem) as caught:
        parse(text, kind)
    assert says in problem_sentence(caught.value)


def test_a_plain_number_is_written_with_the_digits_0_to_9():
    with told(InputProblem, "the digits 0 to 9"):
        parse_number("٤")


def test_reading_an_amount_loads_nothing_its_units_have_no_use_of():
    script = (
        "import sys; from dryhouse.science.quantities import parse_mass; typed = parse_mass('2 lb 3 oz'); "
        "print(f'{typed.si:.1f}', 'pint' in sys.modules, sorted({'scipy', 'uncertainties'} & set(sys.modules))); "
        "import scipy"
    )
    done = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "992.2 True []"
