"""One line, as people type it."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dryhouse.kitchen.yields.typed_line import read_line
from dryhouse.kitchen.yields.yields import DRIED, FRESH
from dryhouse.science.quantities import Mass, Volume
from dryhouse.science.units import SIZES
from tests.builders import a_kitchen
from tests.rows import every_row

CUP = SIZES["cup"]


@every_row(
    ("text", "food", "si", "direction"),
    [
        ("corn 1 cup", "corn", CUP, None),
        ("1 cup corn", "corn", CUP, None),
        ("corn, 1 cup dried", "corn", CUP, DRIED),
        ("1 cup of fresh corn", "corn", CUP, FRESH),
        ("2 cups dried apple", "apple", 2 * CUP, DRIED),
        ("1½ c corn", "corn", 1.5 * CUP, None),
        ("1 1/2 cups corn", "corn", 1.5 * CUP, None),
        ("½ cup corn", "corn", 0.5 * CUP, None),
        ("2 lb 3 oz corn", "corn", 35 * SIZES["oz"], None),
        ("corn 500g", "corn", 500.0, None),
        ("APPLE 1 KG", "apple", 1000.0, None),
        ("corn → 2 lb", "corn", 2 * SIZES["lb"], None),
        ("I want 8 oz of dried corn", "corn", 8 * SIZES["oz"], DRIED),
    ],
)
def test_an_amount_and_a_food_in_either_order(text, food, si, direction):
    line = read_line(a_kitchen(), text)
    assert line.food.slug == food
    assert line.amount.si == pytest.approx(si)
    assert line.direction == direction
    assert line.hint == ""
    assert line.food not in line.others


@every_row(
    ("begun", "whole"),
    [("1 cu", "1 cup"), ("2 pou", "2 lb"), ("3 ou", "3 oz"), ("2 ta", "2 tbsp"), ("1 qua", "1 qt")],
)
def test_a_unit_that_is_only_begun_is_taken_at_its_word(begun, whole):
    kitchen = a_kitchen()
    assert read_line(kitchen, f"corn {begun}").amount.si == read_line(kitchen, f"corn {whole}").amount.si
    assert read_line(kitchen, "corn 2 mi").amount is None


def test_a_weight_is_a_mass_and_a_measure_is_a_volume():
    assert isinstance(read_line(a_kitchen(), "corn 3 oz").amount, Mass)
    assert isinstance(read_line(a_kitchen(), "corn 3 fl oz").amount, Volume)


def test_a_decimal_comma_is_read_where_she_writes_one():
    assert read_line(a_kitchen(), "corn 1,5 kg", decimal_comma=True).amount.si == pytest.approx(1500.0)


@every_row(
    ("text", "hint"),
    [
        ("", "Name a food"),
        ("corn", "How much?"),
        ("corn 3", "3 of what?"),
        ("1 cup", "Name a food"),
        ("qqqq 1 cup", "No food here is called “qqqq”"),
        ("corn 0 cups", "is zero"),
        ("corn 3 lb 2 kg", "out of order"),
    ],
)
def test_what_is_still_missing_is_asked_for(text, hint):
    assert hint in read_line(a_kitchen(), text).hint


def test_a_name_that_is_not_known_is_asked_about_and_never_answered_for_another_food():
    line = read_line(a_kitchen(), "turk 2 lb")
    assert line.food is None
    assert [food.slug for food in line.others] == ["turkey"]
    assert line.hint == "Which food is “turk”? Choose one below, or add it in the Handbook."
    assert line.amount is not None


@given(st.text(max_size=40))
def test_no_line_whatever_is_an_error(text):
    line = read_line(a_kitchen(), text)
    assert line.hint or (line.food is not None and line.amount is not None)
