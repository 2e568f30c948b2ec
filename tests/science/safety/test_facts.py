"""Which kinds a food is of, as the rules ask: no animal food passes for something else."""

import pytest

from dryhouse.science.safety.facts import UNKNOWN_ANIMAL, UNKNOWN_FOOD, BatchFacts, FoodFacts, LotFacts, MealFacts
from tests.rows import every_row

ANIMALS = ("meat", "poultry", "fish", "egg", "dairy")


@every_row("category", ANIMALS)
def test_an_animal_category_is_animal_and_low_in_acid(category):
    assert {"animal", "low_acid", category} <= FoodFacts("it", category).kinds


@pytest.mark.parametrize("trait", ["ground", "jerky", "meat", "poultry", "fish"])
@pytest.mark.parametrize("category", ["vegetable", "mixed", "other", None])
def test_an_animal_trait_makes_any_food_animal(category, trait):
    assert "animal" in FoodFacts("it", category, frozenset({trait})).kinds


def test_an_animal_of_no_known_kind_is_held_to_the_strictest():
    assert UNKNOWN_ANIMAL in FoodFacts("it", "mixed", frozenset({"animal"})).kinds
    for trait in ("game", "pork"):
        assert "meat" in FoodFacts("it", "mixed", frozenset({trait})).kinds


def test_a_noodle_that_holds_egg_is_no_egg():
    kinds = FoodFacts("noodle", "grain", frozenset({"egg"})).kinds
    assert "holds egg" in kinds
    assert not kinds & {"egg", "animal"}
    boiled = FoodFacts("egg noodles, cooked", "grain", frozenset({"egg", "cooked_starch"})).kinds
    assert not boiled & {"egg", "animal", "holds egg"}


def test_acid_keeps_a_sauce_from_being_low_in_acid_but_not_what_is_in_it():
    sauce = FoodFacts("sauce", "mixed", frozenset({"acid", "vegetable"}))
    assert "low_acid" not in sauce.kinds
    assert "low_acid" in FoodFacts("sauce", "mixed", sauce.traits, (FoodFacts("beef", "meat"),)).kinds


def test_a_food_of_no_kind_is_unknown_and_a_named_mix_is_not():
    assert UNKNOWN_FOOD in FoodFacts("it").kinds
    assert UNKNOWN_FOOD in FoodFacts("it", "mixed").kinds
    assert UNKNOWN_FOOD not in FoodFacts("it", "mixed", parts=(FoodFacts("corn", "vegetable"),)).kinds


def test_kinds_travel_from_the_ingredient_to_the_pot():
    stew = FoodFacts("stew", "mixed", parts=(FoodFacts("corn", "vegetable"), FoodFacts("cod", "fish")))
    batch = BatchFacts(stew)
    lot = LotFacts(stew, batch)
    for facts in (stew, batch, lot, MealFacts((lot,)), MealFacts((FoodFacts("rice", "grain"), stew))):
        assert {"fish", "animal"} <= facts.kinds
