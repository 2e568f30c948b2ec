"""Hours in the dryer by cut, from tables that the handbook did not take its hours from."""

import pytest

from dryhouse.handbook.reader import handbook

HOURS = [
    # North Dakota State University Extension FN1588, Drying Vegetables, Table 1 (read)
    ("asparagus", 4, 6), ("green-bean", 8, 14), ("beet", 10, 12), ("broccoli", 12, 15),
    # Michigan State University Extension, Preserving Food Safely 01600531 (read)
    ("mushroom", 4, 4), ("beet", 12, 14),
    # Colorado State University Extension 9.309: halves (from memory)
    ("peach", 36, 48), ("nectarine", 36, 48),
]  # fmt: skip


@pytest.mark.parametrize(("food", "low", "high"), HOURS)
def test_the_handbooks_hours_meet_those_of_another_table(food, low, high):
    hours = handbook().food(food).fact("drying_hours")
    assert hours.low <= high
    assert low <= hours.high
    assert hours.low <= hours.value <= hours.high


@pytest.mark.parametrize("food", ["peach", "nectarine"])
def test_slices_of_stone_fruit_do_not_take_the_days_of_halves(food):
    """Extension tables give 6 to 16 h for fruit slices (from memory), against a day and a half for halves."""
    assert handbook().food(food).fact("drying_hours").low <= 16
