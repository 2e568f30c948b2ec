"""A forecast in words says how little it knows."""

import math

import pytest

from dryhouse.science.forecast.answer import Finish, Prior
from dryhouse.science.forecast.wording import bases, hours_text, sentence
from dryhouse.science.values import Basis

FINISH = Finish(5.0, 6.0, 7.0, 8.0, 10.0)
PRIOR = Prior(0.3, 1.0, 0.3, 0.2, Basis("own", "earlier runs", 3))


@pytest.mark.parametrize(
    ("hours", "text"),
    [
        (0.5, "30 min"),
        (0.99, "59 min"),
        (1.0, "1.0 h"),
        (9.46, "9.5 h"),
        (120.4, "120 h"),
        (math.inf, "no end in sight"),
    ],
)
def test_hours(hours, text):
    assert hours_text(hours) == text


def test_one_weighing_is_called_one():
    assert sentence(1, 0.0, FINISH, None, None).startswith("One weighing, and nothing known")
    assert "only earlier runs to go by" in sentence(1, 0.0, FINISH, None, PRIOR)


def test_few_weighings_are_rough_unless_earlier_runs_stand_behind_them():
    assert "this is rough" in sentence(3, 2.0, FINISH, None, None)
    assert "this is rough" not in sentence(3, 2.0, FINISH, None, PRIOR)
    assert "this is rough" not in sentence(4, 2.0, FINISH, None, None)


def test_the_wait_counts_from_the_last_weighing_and_is_never_negative():
    assert "7.0 h after the first weighing, 5.0 h after the last" in sentence(5, 2.0, FINISH, None, None)
    assert "0 min after the last" in sentence(5, 9.0, FINISH, None, None)


def test_a_band_without_an_end_and_a_load_that_never_gets_there():
    open_end = Finish(5.0, 6.0, 7.0, math.inf, math.inf)
    assert "not before 5.0 h, and it may never get there" in sentence(5, 2.0, open_end, None, None)
    never = Finish(5.0, 6.0, math.inf, math.inf, math.inf)
    assert "will not reach the target" in sentence(5, 2.0, never, None, None)


def test_what_was_reached_is_not_forecast():
    assert sentence(5, 8.0, FINISH, 6.5, None) == "The target was reached 6.5 h after the first weighing."


def test_every_assumption_is_a_basis_until_something_better_is_known():
    given = (Basis("handbook", "water of corn"),)
    assert [b.kind for b in bases(given, None, None)] == ["handbook", "assumption", "assumption"]
    assert [b.kind for b in bases(given, None, PRIOR)] == ["handbook", "assumption", "own"]
