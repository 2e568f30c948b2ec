"""Numbers as people type them, before any unit."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dryhouse.science.errors import InputProblem
from dryhouse.science.typed_numbers import in_figures, number_in, tidied
from dryhouse.words.messages import problem_sentence


def read(text: str, *, comma: bool = False) -> float:
    return number_in(text, tidied(text, comma, "number"))


def test_each_way_of_writing_a_number_has_its_value():
    written = {
        "4": 4,
        "2.5": 2.5,
        ".5": 0.5,
        "1/2": 0.5,
        "1 1/2": 1.5,
        "1½": 1.5,
        "¾": 0.75,
        "3 ⅛": 3.125,
        "1⁄4": 0.25,
    }
    assert {text: read(text) for text in written} == written


def test_groups_of_thousands_and_a_decimal_comma_are_told_apart():
    assert read("12,500") == 12500
    assert read("1,5", comma=True) == 1.5
    assert read("12.500,5", comma=True) == 12500.5
    for text, comma in (("1,5", False), ("1.500", True)):
        with pytest.raises(InputProblem):
            read(text, comma=comma)


def test_a_refusal_says_what_would_be_right():
    said = {}
    for text in ("", "1½2", "٣", "1/0"):
        with pytest.raises(InputProblem) as caught:
            read(text)
        said[text] = problem_sentence(caught.value)
    assert said == {
        "": "There is no number here yet.",
        "1½2": "“1½2” goes on after ½; write the whole number before it, as in 1½.",
        "٣": "“٣” has digits that are not read here; write it with the digits 0 to 9.",
        "1/0": "“1/0” divides by zero; write a fraction such as 1/2.",
    }


@given(st.integers(0, 10**6), st.integers(1, 99), st.integers(1, 99))
def test_a_mixed_number_is_its_whole_and_its_part(whole, top, bottom):
    assert read(f"{whole} {top}/{bottom}") == whole + top / bottom


def test_a_number_may_begin_in_words():
    written = {"half a pound": "1/2 pound", "a dozen eggs": "12 eggs", "two cups": "2 cups", "an ear": "1 ear"}
    assert {text: in_figures(text) for text in written} == written
    for as_it_stands in ("apple 3", "2 lb", "tenpins", "a", ""):
        assert in_figures(as_it_stands) == as_it_stands


@pytest.mark.parametrize(
    ("typed", "says"),
    [("2-3", "range"), ("2 to 3", "range"), ("1 000", "gap"), ("1 500", "gap"), ("1'000", "gap")],
)
def test_what_could_be_two_numbers_is_named(typed, says):
    with pytest.raises(InputProblem) as refused:
        read(typed)
    assert says in problem_sentence(refused.value)


@pytest.mark.parametrize("typed", ["9" * 50_000, "9" * 50_000 + " -", "1" + " " * 50_000 + "-"])
def test_a_key_that_was_held_down_is_read_as_quickly_as_it_came(typed):
    """Looked for from every digit on, a range in it took a quarter of an hour."""
    assert tidied(typed, False, "number").split()[0] == typed.split()[0]
