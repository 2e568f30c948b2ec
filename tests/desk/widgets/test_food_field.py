"""The entry for a food forgives, offers, and settles."""

import pytest
from PySide6.QtCore import Qt

from dryhouse.desk.widgets.food_field import FoodField
from dryhouse.kitchen.foods.own_foods import add_food


@pytest.fixture
def food(session, qtbot):
    made = FoodField(session)
    qtbot.addWidget(made)
    made.show()
    made.edit.setFocus()
    return made


def test_another_name_is_understood(food, qtbot):
    qtbot.keyClicks(food.edit, "maize")
    assert food.value().slug == "corn"
    assert food.sentence.text() == "= sweet corn"


def test_half_a_word_offers_what_it_could_be(food, qtbot):
    qtbot.keyClicks(food.edit, "app")
    assert food._names.stringList() == ["apple"]


def test_leaving_takes_the_best_that_could_be_meant(food, qtbot):
    qtbot.keyClicks(food.edit, "turk")
    with qtbot.waitSignal(food.chosen) as caught:
        qtbot.keyClick(food.edit, Qt.Key.Key_Tab)
    assert caught.args[0].slug == "turkey"
    assert food.text() == "turkey, cooked"


def test_it_is_chosen_once(food, qtbot):
    qtbot.keyClicks(food.edit, "corn")
    with qtbot.waitSignal(food.chosen):
        food._settle()
    with qtbot.assertNotEmitted(food.chosen):
        food._settle()


def test_own_foods_are_offered_first(food, session, qtbot):
    session.act(add_food, "apple of the club garden", "fruit")
    qtbot.keyClicks(food.edit, "appl")
    assert food._names.stringList()[0] == "apple of the club garden"


def test_no_food_at_all_is_said_once_it_is_left(food, qtbot):
    qtbot.keyClicks(food.edit, "zzzz")
    food.edit.clearFocus()
    assert food.value() is None
    assert food.edit.property("wrong") == "true"
    assert food.problem.field == "food"


def test_a_set_food_is_not_announced(food, qtbot):
    with qtbot.assertNotEmitted(food.chosen):
        food.set_value("apple")
    assert food.text() == "apple"
