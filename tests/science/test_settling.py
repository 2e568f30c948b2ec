"""When a weight counts as having stayed the same, and what a level says of the dry matter."""

from __future__ import annotations

import math

import pytest

from dryhouse.science.settling import settled_from, share_of_level

HOURS = [0, 4, 8, 9, 10, 11]


@pytest.mark.parametrize(
    ("grams", "step", "since"),
    [
        ([1000, 400, 250, 250, 250, 250], 1.0, 2),
        ([1000, 400, 250, 251, 249, 250], 1.0, 2),  # the scale's own unsteadiness
        ([1000, 400, 252, 251, 250, 249], 1.0, None),  # a gram an hour
        ([1000, 400, 260, 250, 250, 250], 1.0, 3),  # three weighings over two hours
        ([1000, 400, 300, 260, 250, 250], 1.0, None),
        ([1000, 400, 250, 250, 250, 250], 10.0, None),  # a scale of ten grams shows nothing
        ([1000, 400, 252, 251, 250, 250], 0.1, None),
    ],
)
def test_a_level_is_several_weighings_over_hours_without_loss(grams, step, since) -> None:
    assert settled_from(HOURS, grams, step) == since


def test_within_an_hour_nothing_is_level() -> None:
    assert settled_from([0.0, 0.2, 0.5, 0.9], [250.0] * 4, 1.0) is None


def test_a_level_holds_the_dry_matter_and_a_little_water() -> None:
    share, spread = share_of_level(260.0, 1000.0, 1.0, (0.04, 0.01, 0.09))
    assert share == pytest.approx(0.25)
    # the middle 80 % of the settling moisture is that of the dry matter
    assert math.exp(2 * 1.2816 * spread) == pytest.approx(1.09 / 1.01, rel=0.01)
    assert share_of_level(260.0, 1000.0, 1.0, (0.04, 0.01, 0.09), sample=True)[1] > spread


@pytest.mark.parametrize(
    ("hours", "grams", "step", "since"),
    [
        ([0, 1, 2], [250.0, 250.0, 250.0], 1.0, 0),
        ([0, 1, 1.9], [250.0, 250.0, 250.0], 1.0, None),  # less than two hours
        ([0, 2], [250.0, 250.0], 1.0, None),  # two weighings
        ([0, 1, 2], [252.0, 250.0, 252.0], 1.0, 0),  # two steps apart, and nothing lost
        ([0, 1, 2], [250.0, 252.1, 250.0], 1.0, None),
        ([0, 1, 2], [251.0, 250.0, 250.0], 1.0, None),  # a whole step lost
        ([0, 1, 2], [250.9, 250.0, 250.0], 1.0, 0),
        ([0, 1, 2], [50.0, 50.0, 50.0], 1.0, 0),  # a step of two hundredths
        ([0, 1, 2], [49.0, 49.0, 49.0], 1.0, None),
        ([0, 1, 2], [49.0, 50.5, 49.0], 1.0, None),  # two hundredths of the last weight
        ([0, 1, 2], [250.0, 250.9, 250.0], 0.5, 0),
        ([0, 1, 2], [250.0, 251.1, 250.0], 0.5, None),
        ([0, 1, 2, 3, 4, 5], [251.0, 251.0, 250.4, 250.4, 250.2, 250.2], 1.0, 0),  # thirds: 251 to 250.2
        ([0, 1, 2, 3, 4, 5], [252.0, 251.0, 250.4, 250.4, 250.2, 250.2], 1.0, 1),
        ([], [], 1.0, None),
    ],
)
def test_the_borders_of_a_level(hours, grams, step, since) -> None:
    assert settled_from(hours, grams, step) == since


def test_a_coarse_scale_and_a_sample_widen_what_a_level_says() -> None:
    sure = (0.04, 0.04, 0.04)
    coarse = 10.0 / math.sqrt(12.0) * math.hypot(1 / 260.0, 1 / 1000.0)
    assert share_of_level(260.0, 1000.0, 10.0, sure)[1] == pytest.approx(coarse)
    assert share_of_level(260.0, 1000.0, 10.0, sure, sample=True)[1] == pytest.approx(math.hypot(coarse, 0.02))
