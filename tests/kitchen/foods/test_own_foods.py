"""What is in a food of her own, answered again later."""

import pytest

from dryhouse.kitchen.foods.own_foods import ReallyPlant, as_food, contents_of_food, new_food, say_contents
from dryhouse.kitchen.records import OwnFood
from dryhouse.science.errors import InputProblem
from dryhouse.science.safety.facts import UNKNOWN_FOOD
from tests.builders import APPLE, TURKEY, a_kitchen
from tests.rows import every_row

SHRIMP = OwnFood("shrimp-bits", "Shrimp bits", "other", id=1)
CHILI = OwnFood("club-chili", "Club chili", "other", id=2)
JERKY = OwnFood("club-strips", "Club strips", "meat", id=3)


def test_plants_only_is_asked_about_again_where_the_name_says_an_animal():
    kitchen = a_kitchen(SHRIMP)
    with pytest.raises(ReallyPlant):
        say_contents(kitchen, "shrimp-bits", ["plant"])
    assert contents_of_food(kitchen, "shrimp-bits") == ()
    say_contents(kitchen, "shrimp-bits", ["plant"], really_plant=True)
    assert contents_of_food(kitchen, "shrimp-bits") == ("plant",)


def test_an_animal_is_recorded_without_asking_again():
    kitchen = a_kitchen(SHRIMP, CHILI)
    say_contents(kitchen, "shrimp-bits", ["fish", "fish"])
    say_contents(kitchen, "club-chili", ["plant"])
    assert contents_of_food(kitchen, "shrimp-bits") == ("fish",)
    assert contents_of_food(kitchen, "club-chili") == ("plant",)


def test_a_food_kept_as_meat_is_never_only_plants():
    kitchen = a_kitchen(JERKY)
    with pytest.raises(InputProblem, match="not only plants"):
        say_contents(kitchen, "club-strips", ["plant"], really_plant=True)
    with pytest.raises(InputProblem, match="no longer here"):
        say_contents(kitchen, "gone", ["plant"])


def test_names_in_another_script_are_foods_like_any_other():
    first = new_food(a_kitchen(), "柿", ["plant"])
    second = new_food(a_kitchen(first), "梨", ["plant"])
    assert (first.name, second.name) == ("柿", "梨")
    assert (first.slug, second.slug) == ("own-food-1", "own-food-2")


def test_what_is_in_a_food_says_which_kind_it_is_kept_as():
    kitchen = a_kitchen()
    kinds = {said: new_food(kitchen, "club pot", said).category
             for said in [("fish",), ("fish", "plant"), ("fish", "egg"), ("plant",), ()]}  # fmt: skip
    assert list(kinds.values()) == ["fish", "mixed", "mixed", "other", "other"]


@every_row(
    ("contains", "category", "like", "traits", "kept_as"),
    [
        ("", "other", None, {"unknown"}, "other"),
        ("plant", "other", None, {"low_acid"}, "other"),
        ("unknown", "other", None, {"unknown"}, "other"),
        ("fish", "other", None, {"animal", "fish"}, "other"),
        ("fish;unknown", "other", None, {"animal", "fish", "unknown"}, "other"),
        ("milk", "other", None, {"animal", "dairy"}, "other"),
        ("", "meat", None, {"animal", "meat"}, "meat"),
        ("plant;egg", "mixed", None, {"animal", "egg"}, "mixed"),
        ("", "other", TURKEY, {"animal", "poultry"}, "poultry"),
        ("fish", "other", TURKEY, {"animal", "poultry", "fish"}, "poultry"),
        ("", "other", APPLE, {"fruit", "unknown"}, "other"),
        ("plant", "fruit", APPLE, {"fruit"}, "fruit"),
    ],
)
def test_what_she_said_is_in_a_food_is_among_its_traits_and_what_she_did_not_say_is_unknown(
    contains, category, like, traits, kept_as
):
    made = as_food(OwnFood("mine", "mine", category, " first ; ;second", "", contains), like)
    named = {UNKNOWN_FOOD if trait == "unknown" else trait for trait in traits}
    assert (set(made.traits), made.category) == (named, kept_as)
    assert (made.slug, made.name, made.other_names) == ("mine", "mine", ("first", "second"))
    assert made.facts == (like.facts if like else {})


@every_row(
    ("more", "field"),
    [
        ({"name": "  "}, "name"),
        ({"contains": ["stone"]}, "contains"),
        ({"category": "stone"}, "category"),
        ({"like": "stone"}, "like"),
        ({"contains": ["plant"], "category": "meat"}, "category"),
        ({"name": "Sweet  corn", "contains": ["plant"]}, "name"),
        ({"name": "Club chili"}, "name"),
    ],
)
def test_an_own_food_that_cannot_be_is_refused_by_its_field(more, field):
    kitchen = a_kitchen(CHILI)
    kitchen.handbook.foods["sweet-corn"] = kitchen.handbook.foods["corn"]
    with pytest.raises(InputProblem) as refused:
        new_food(kitchen, **{"name": "lake greens", **more})
    assert refused.value.field == field


def test_the_kind_of_an_animal_food_is_an_answer():
    made = new_food(a_kitchen(), "Club  pot", [], "poultry")
    assert (made.name, made.slug, made.category, made.contains) == ("Club pot", "club-pot", "poultry", "poultry")
    assert new_food(a_kitchen(), "club pot", ["plant"], "fruit").category == "fruit"


def test_what_can_be_in_a_food_is_listed_where_another_answer_was_given():
    with pytest.raises(InputProblem, match="plant, meat, poultry, fish, egg, milk or unknown"):
        new_food(a_kitchen(), "lake greens", ["stone"])
