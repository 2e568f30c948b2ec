"""What is published of a food's speed, as an expectation."""

from __future__ import annotations

import pytest

from dryhouse.handbook.tables import Food
from dryhouse.kitchen.dryer.published_rates import published_expectation
from dryhouse.science.values import Fact


def food(slug: str, **facts: Fact) -> Food:
    return Food(slug, slug, (), "vegetable", facts=facts)


def test_a_published_drying_time_is_used_first() -> None:
    slices = food("sweet-potato", drying_hours=Fact(9.0, "h", "a table", low=6.0, high=12.0))
    prior = published_expectation(slices, 0.03)
    assert prior is not None
    assert prior.basis.source == "a table"
    middle = 72.0**0.5
    assert prior.k * middle**prior.n == pytest.approx(3.507, abs=0.01)


def test_else_published_constants_and_else_nothing() -> None:
    prior = published_expectation(food("sweet-potato"), 0.03, 60.0)
    assert prior is not None
    assert prior.basis.kind == "handbook"
    assert published_expectation(food("moonweed"), 0.03) is None


def test_no_time_is_used_for_a_target_that_is_no_drying() -> None:
    slices = food("moonweed", drying_hours=Fact(9.0, "h", "a table"))
    assert published_expectation(slices, 1.2) is None


def test_a_ratio_at_either_end_is_no_drying_time() -> None:
    slices = food("sweet-potato", drying_hours=Fact(9.0, "h", "a table"))
    for ratio in (0.0, 1.0):
        prior = published_expectation(slices, ratio, 60.0)
        assert prior is not None
        assert prior.basis.source != "a table", "the published constants stand in"
