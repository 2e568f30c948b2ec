"""What moves it: silent where too little is known."""

import math

import numpy as np
import pytest
from scipy import stats

from dryhouse.science.yields.moves import Group, side_by_side, welch
from dryhouse.words.messages import message_words


def test_welchs_interval_is_scipys():
    first, second = [-1.2, -1.35, -1.1, -1.3], [-1.6, -1.5, -1.72]
    ends = stats.ttest_ind(first, second, equal_var=False).confidence_interval(0.95)
    low, high = welch(first, second)
    assert math.log(low) == pytest.approx(ends.low, abs=1e-9)
    assert math.log(high) == pytest.approx(ends.high, abs=1e-9)


def test_nothing_is_said_of_fewer_than_three_or_of_one_group():
    assert side_by_side({"slices": [-1.2, -1.3], "dice": [-1.5, -1.6, -1.4]}) == ()
    assert side_by_side({"dice": [-1.5, -1.6, -1.4]}) == ()
    assert side_by_side({}) == ()


def test_a_plain_difference_is_said_and_noise_is_not():
    rng = np.random.default_rng(5)
    thick, thin = list(rng.normal(-1.2, 0.05, 8)), list(rng.normal(-1.5, 0.05, 6))
    found = side_by_side({"thick": thick, "thin": thin})
    assert [g.name for g in found] == ["thick", "thin"]
    assert "more than the rest" in message_words(found[0].finding)
    assert "less than the rest" in message_words(found[1].finding)
    same = side_by_side({"a": thick[:4], "b": thick[4:]})
    assert {message_words(g.finding) for g in same} == {"no difference shown"}


def test_groups_without_any_scatter_are_compared_as_they_stand():
    found = side_by_side({"a": [-1.0] * 3, "b": [-1.5] * 3})
    assert found[0].against_rest == pytest.approx(math.exp(0.5))
    assert found[0].shows


def test_a_difference_is_called_one_in_twenty_times_where_there_is_none():
    rng = np.random.default_rng(17)
    called = sum(
        side_by_side({"a": list(rng.normal(0, 0.2, 6)), "b": list(rng.normal(0, 0.2, 6))})[0].shows
        for _ in range(4000)
    )
    assert called / 4000 == pytest.approx(0.05, abs=0.012)


def test_a_difference_is_told_in_per_cent_of_the_rest_and_the_largest_group_stands_first():
    thick, thin, other = [-1.0, -1.01, -0.99], [-1.5, -1.51, -1.49], [-1.5, -1.52, -1.48, -1.5]
    found = side_by_side({"thick": thick, "thin": thin, "mixed": other, "two": [-1.0, -1.0]})
    assert [(g.name, g.n) for g in found] == [("mixed", 4), ("thick", 3), ("thin", 3)]
    assert found[1].ratio == pytest.approx(math.exp(-1.0))
    assert found[1].against_rest == pytest.approx(math.exp(0.5))
    assert message_words(found[1].finding) == "65 % more than the rest"
    assert message_words(found[0].finding) in ("no difference shown", "22 % less than the rest")
    assert message_words(Group("a", 3, 0.2, 1.004, 1.001, 1.007).finding) == "0.4 % more than the rest"
    assert message_words(Group("a", 3, 0.2, 0.8, 0.7, 0.9).finding) == "20 % less than the rest"
    assert [Group("a", 3, 0.2, 1.0, low, high).shows for low, high in ((0.9, 1.1), (1.01, 1.1), (0.9, 0.99))] == [
        False, True, True,
    ]  # fmt: skip
