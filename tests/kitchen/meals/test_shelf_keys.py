"""What the ingredients of a meal ask of the shelf, and what its lots give."""

from __future__ import annotations

from datetime import date

from dryhouse.kitchen.meals.shelf_keys import is_staple, lot_key, part_key, slug_of
from dryhouse.kitchen.records import Lot, MealPart

DAY = date(2026, 8, 1)


def test_a_bought_staple_and_the_same_food_dried_cooked_are_two_things():
    staple, cooked = MealPart(1, 0, "couscous", staple="couscous"), MealPart(1, 1, "couscous", food="couscous")
    bag = Lot("couscous", DAY, origin="bought", bought_keep_by=date(2027, 8, 1))
    jar = Lot("couscous", DAY, batch=1)
    assert part_key(staple) == lot_key(bag) != part_key(cooked) == lot_key(jar)
    assert [is_staple(part_key(part)) for part in (staple, cooked)] == [True, False]
    assert {slug_of(part_key(part)) for part in (staple, cooked)} == {"couscous"}


def test_bought_food_that_is_no_staple_is_the_food_it_is():
    assert lot_key(Lot("carrot", DAY, origin="bought", bought_keep_by=date(2027, 8, 1))) == "carrot"
