"""What belongs to a food whatever was done with it, and foods nobody has named."""

from dryhouse.handbook.safety_table import rules_by_id
from dryhouse.science.safety.facts import FoodFacts
from dryhouse.science.safety.families import identity as family
from tests.told import worded

always = worded(family.always)
ingredients_unknown = worded(family.ingredients_unknown)

RULES = rules_by_id()


def test_the_reason_says_which_of_the_rules_kinds_the_food_is():
    beef = FoodFacts("jerky", "meat", frozenset({"jerky"}))
    assert always(beef, RULES["oven-finish-extra"]) == "jerky counts as jerky, meat"
    assert always(beef, RULES["in-doubt"]) == "said of every food"


def test_a_mix_is_unknown_until_its_ingredients_are_named():
    rule = RULES["ingredients-unknown"]
    assert ingredients_unknown(FoodFacts("pot", "mixed"), rule)
    assert ingredients_unknown(FoodFacts("thing"), rule)
    named = FoodFacts("pot", "mixed", parts=(FoodFacts("corn", "vegetable"),))
    assert not ingredients_unknown(named, rule)
    assert ingredients_unknown(
        FoodFacts("pot", "mixed", parts=(FoodFacts("corn", "vegetable"), FoodFacts("?"))), rule
    )
