"""A cut that takes another time has its own hours; what she entered stands before it."""

from dataclasses import replace

import pytest

from dryhouse.handbook.cut_hours import cut_hours, published_hours
from dryhouse.handbook.reader import handbook
from dryhouse.science.values import Fact


@pytest.mark.parametrize(
    ("food", "cut", "low", "high"),
    [
        # North Dakota State University Extension FN1588, Table 1 (read)
        ("asparagus", "large tips, halved", 4, 6),
        ("green-bean", "1 inch pieces", 8, 14),
        ("beet", "shoestrings", 10, 12),
        ("broccoli", "small florets", 12, 15),
        # Colorado State University Extension 9.309 (from memory)
        ("peach", "halves", 36, 48),
        ("nectarine", "Slices, 1/4 in", 8, 16),
    ],
)
def test_hours_are_those_of_the_cut(food, cut, low, high):
    hours = published_hours(handbook().food(food), cut)
    assert (hours.low, hours.high) == (low, high)
    assert low <= hours.value <= high


def test_another_cut_has_the_hours_of_the_food():
    peach = handbook().food("peach")
    for cut in ("", "dice", "whole"):
        assert published_hours(peach, cut) == peach.fact("drying_hours")


def test_hours_she_entered_stand_before_those_of_the_cut():
    own = Fact(20.0, "h", "entered by you", "entered")
    peach = handbook().food("peach")
    mine = replace(peach, facts={**peach.facts, "drying_hours": own})
    assert published_hours(mine, "halves") == own


def test_every_cut_with_hours_of_its_own_lies_within_what_the_food_is_said_to_take():
    for slug, cuts in cut_hours().items():
        usual = handbook().food(slug).fact("drying_hours")
        for cut in cuts.values():
            assert cut.low <= usual.high, slug
            assert cut.high >= usual.low, slug
