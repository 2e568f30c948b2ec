"""What a gram of dried food takes up: its own figure before that of its kind, and none made up."""

import pytest

from dryhouse.handbook.reader import handbook
from dryhouse.handbook.uptake import published_uptake, uptakes


def test_a_food_has_its_own_figure_and_others_that_of_their_kind():
    foods = handbook().foods
    assert published_uptake(foods["onion"]).value == 2.9
    assert published_uptake(foods["leek"]) == uptakes()["any vegetable"]
    assert published_uptake(foods["mushroom"]) != published_uptake(foods["shiitake"])


def test_of_mixes_and_milk_nothing_is_published():
    foods = handbook().foods
    assert [published_uptake(foods[slug]) for slug in ("chili-bean", "milk", "egg")] == [None] * 3


def test_one_figure_alone_strays_by_a_quarter():
    corn = uptakes()["corn"]
    assert (corn.low, corn.high) == pytest.approx((2.21 * 0.75, 2.21 * 1.25))


def test_what_comes_from_memory_says_so():
    assert uptakes()["any meat"].how == "recalled"
