"""Which kinds a food is of, as the rules ask: no animal food passes for something else."""

import pytest

from dryhouse.science.safety.facts import (
    UNKNOWN_ANIMAL,
    UNKNOWN_FOOD,
    BatchFacts,
    FoodFacts,
    LotFacts,
    MealFacts,
)
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


@every_row(
    ("name", "words"),
    [
        ("Berries", {"berry"}),
        ("pies", {"pie"}),
        ("peas, dry", {"pea", "dry", "pea dry"}),
        ("swiss glass", {"swiss", "glass", "swiss glass"}),
        ("Kidney-Beans", {"kidney", "bean", "kidney bean"}),
        ("", set()),
    ],
)
def test_a_name_counts_by_its_words_in_the_singular_and_by_every_two_together(name, words):
    kinds = FoodFacts(name, "vegetable").kinds
    assert {kind.removeprefix("named ") for kind in kinds if kind.startswith("named ")} == words


@every_row(
    ("more", "doubted"),
    [
        ({}, True),
        ({"bought": True}, False),
        ({"dry_enough": True}, False),
        ({"dry_enough": False}, False),
        ({"dry_doubted": False}, False),
        ({"moist": False}, False),
        ({"moist": False, "ever_moist": True}, True),
        ({"moist": True}, True),
    ],
)
def test_a_jar_is_in_doubt_until_a_weight_or_a_look_answers(more, doubted):
    corn = FoodFacts("corn", "vegetable")
    assert LotFacts(corn, **({"dry_doubted": True} | more)).in_doubt is doubted


def test_what_was_bought_is_none_of_the_home_parts():
    corn = FoodFacts("corn", "vegetable")
    home, bought = LotFacts(corn), LotFacts(corn, bought=True)
    assert MealFacts((corn, home, bought)).home_parts == (corn, home)


@every_row(
    ("food", "has", "lacks"),
    [
        (FoodFacts("it", "meat"), {"meat", "livestock"}, set()),
        (FoodFacts("it", "meat", frozenset({"game"})), {"meat", "animal"}, {"livestock"}),
        (FoodFacts("it", "meat", frozenset({"wild"})), {"meat"}, {"livestock"}),
        (FoodFacts("it", "poultry"), {"poultry"}, {"livestock", "meat", UNKNOWN_ANIMAL}),
        (FoodFacts("it", "mixed", frozenset({"vegetable"})), {"whole meal", "low_acid"}, {UNKNOWN_FOOD}),
        (FoodFacts("it", "mixed", frozenset({"vegetable", "acid"})), set(), {"whole meal", "low_acid"}),
        (FoodFacts("it", "fruit"), {"fruit"}, {"low_acid", "animal"}),
        (FoodFacts("it", "mixed", frozenset({"mix"})), {UNKNOWN_FOOD, "animal"}, set()),
        (FoodFacts("it", "candy"), {UNKNOWN_FOOD, "animal"}, {"candy"}),
        (FoodFacts("it", "staple"), {"staple"}, {UNKNOWN_FOOD, "animal"}),
        (FoodFacts("it", "egg", frozenset({"egg"})), {"egg", "animal"}, {"holds egg"}),
        (FoodFacts("it", "mixed", frozenset({"egg"})), {"egg", "animal"}, {"holds egg"}),
        (FoodFacts("it", "grain", frozenset({"dairy"})), {"holds dairy"}, {"dairy", "animal"}),
        (FoodFacts("it", None, frozenset({"egg"})), {"egg", UNKNOWN_FOOD}, {"holds egg"}),
        (FoodFacts("it", "grain", frozenset({UNKNOWN_FOOD})), {UNKNOWN_FOOD, "animal"}, set()),
        (
            FoodFacts("it", "grain", frozenset({UNKNOWN_FOOD}), (FoodFacts("corn", "vegetable"),)),
            {"grain", "vegetable"},
            {UNKNOWN_FOOD, "animal"},
        ),
    ],
)
def test_what_follows_from_category_and_traits(food, has, lacks):
    assert has <= food.kinds
    assert not lacks & food.kinds
