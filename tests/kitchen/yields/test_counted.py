"""Amounts by the piece go by published weights, or are refused in a sentence."""

import pytest

from dryhouse.handbook.pieces import pieces
from dryhouse.handbook.reader import handbook
from dryhouse.kitchen.yields.counted import counted_mass
from dryhouse.science.errors import InputProblem

FOODS = handbook().foods


@pytest.mark.parametrize(
    ("food", "typed", "grams"),
    [
        ("egg", "6 eggs", 300),  # USDA release 28: large, 50 g; no medium is asked for
        ("apple", "3 medium apples", 546),
        ("apple", "2 large", 446),
        ("corn", "6 ears", 612),
        ("garlic", "4 cloves of garlic", 12),
        ("celery", "2 large stalks", 128),
    ],
)
def test_pieces_weigh_what_usda_says(food, typed, grams):
    mass, each = counted_mass(FOODS[food], typed)
    assert mass.si == pytest.approx(grams)
    assert "USDA" in each.source


@pytest.mark.parametrize("typed", ["3", "2 lb", "1 cup", "500 g", "3 furlongs", "a few", "3 pears"])
def test_what_is_no_count_of_this_food_is_left_alone(typed):
    assert counted_mass(FOODS["apple"], typed) is None


@pytest.mark.parametrize(("food", "typed"), [("parsley", "1 bunch"), ("black-bean", "1 can")])
def test_a_piece_nobody_weighed_is_refused_and_named(food, typed):
    with pytest.raises(InputProblem, match=typed.split()[1]):
        counted_mass(FOODS[food], typed)


def test_every_piece_weighs_something():
    assert all(fact.value > 0 for kinds in pieces().values() for fact in kinds.values())
