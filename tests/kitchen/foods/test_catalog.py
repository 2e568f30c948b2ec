"""Foods as this person knows them."""

import pytest

from dryhouse.kitchen.foods.catalog import bears, find_foods, food, food_name, set_figure
from dryhouse.kitchen.foods.own_foods import add_food
from dryhouse.kitchen.records import OwnFigure
from dryhouse.science.errors import InputProblem
from tests.builders import CORN, a_kitchen
from tests.rows import every_row


def test_an_own_figure_stands_in_for_the_handbooks_and_says_entered():
    kitchen = a_kitchen()
    set_figure(kitchen, "corn", "water", 72.0, typed="72 %")
    fact = food(kitchen, "sweet corn").fact("water")
    assert (fact.value, fact.basis.kind) == (72.0, "entered")
    set_figure(kitchen, "corn", "water", None)
    assert food(kitchen, "corn").fact("water").value == 76.05


def test_an_own_food_is_found_by_its_names_and_takes_figures():
    kitchen = a_kitchen()
    add_food(kitchen, "Samphire", "vegetable", other_names=("sea asparagus",))
    set_figure(kitchen, "samphire", "water", 89.0)
    assert food(kitchen, "sea asparagus").fact("water").value == 89.0
    assert find_foods(kitchen, "samph")[0].slug == "samphire"
    assert food_name(kitchen, "samphire") == "Samphire"
    assert food_name(kitchen, "gone") == "gone"


def test_own_foods_with_all_that_was_typed_in_a_name_stand_first():
    kitchen = a_kitchen()
    add_food(kitchen, "Harvest relish", "vegetable", other_names=("apple and corn",))
    add_food(kitchen, "Samphire", "vegetable")
    assert [food.slug for food in find_foods(kitchen, "corn")] == ["harvest-relish", "corn"]
    assert [food.slug for food in find_foods(kitchen, "apple corn")][:1] == ["harvest-relish"]
    assert [food.slug for food in find_foods(kitchen, "")] == ["harvest-relish", "samphire"]


def test_an_own_food_like_a_meat_keeps_the_meats_cautions_whatever_it_is_filed_under():
    kitchen = a_kitchen()
    add_food(kitchen, "Club turkey mince", "vegetable", like="turkey")
    mine = food(kitchen, "club turkey mince")
    assert mine.animal
    assert mine.category == "poultry"


@every_row(
    ("name", "category", "says"),
    [("", "fruit", "needs a name"), ("Sloe", "berry", "no kind of food"), ("Corn", "vegetable", "already a food")],
)
def test_an_own_food_that_cannot_be_is_refused(name, category, says):
    with pytest.raises(InputProblem, match=says):
        add_food(a_kitchen(), name, category)


@every_row(("name", "value"), [("water", 100.0), ("refuse", 140.0), ("energy", -3.0), ("glow", 1.0)])
def test_a_figure_that_cannot_be_is_refused(name, value):
    with pytest.raises(InputProblem):
        set_figure(a_kitchen(), "corn", name, value)


def test_a_figure_that_is_entered_again_takes_the_place_of_the_first_one():
    kitchen = a_kitchen()
    set_figure(kitchen, "corn", "energy", 90.0)
    first = set_figure(kitchen, "corn", "water", 72.0, typed="72 %", note="a club's own table").record
    again = set_figure(kitchen, "corn", "water", 71.0)
    assert first == OwnFigure("corn", "water", 72.0, "%", "72 %", "a club's own table", id=2)
    assert [change.before for change in again.changes] == [first]
    assert kitchen.journal.where(OwnFigure, name="water") == (OwnFigure("corn", "water", 71.0, "%", id=2),)
    assert [done.what for done in (again, set_figure(kitchen, "corn", "water", None))] == [
        "Entered water for sweet corn",
        "Took back your water for sweet corn",
    ]


@every_row(
    ("text", "borne"),
    [
        ("corn", True),
        ("swe co", True),
        ("maiz", True),
        ("sweet maize", False),
        ("orn", False),
        ("", False),
        (" ", False),
    ],
)
def test_a_name_bears_what_begins_each_of_its_words(text, borne):
    assert bears(CORN, text) is borne
