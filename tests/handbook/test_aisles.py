"""The aisles of a shop."""

from dryhouse.handbook.aisles import aisle_of, aisles
from dryhouse.handbook.staples import KINDS
from dryhouse.handbook.tables import CATEGORIES
from dryhouse.science.units import SIZES


def test_every_kind_of_food_stands_in_one_aisle():
    held = [kind for aisle in aisles() for kind in aisle.holds]
    assert len(held) == len(set(held))
    assert set(CATEGORIES) | KINDS <= set(held)


def test_vegetables_are_weighed_by_the_half_pound_and_spices_to_the_ounce():
    assert aisle_of("vegetable").name == "Produce"
    assert aisle_of("vegetable").us_step == SIZES["lb"] / 2
    assert round(aisle_of("seasoning").us_step, 3) == round(SIZES["oz"], 3)
