"""What is in a food of her own, answered again later."""

import pytest

from dryhouse.kitchen.foods.own_foods import ReallyPlant, contents_of_food, new_food, say_contents
from dryhouse.kitchen.records import OwnFood
from dryhouse.science.errors import InputProblem
from tests.builders import a_kitchen

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
