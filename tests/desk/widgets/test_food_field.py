"""The entry for a food forgives, offers, and settles."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from dryhouse.desk.widgets.food_field import FoodField
from dryhouse.kitchen.foods.own_foods import add_food
from dryhouse.kitchen.records import OwnFood


@pytest.fixture
def food(session, qtbot):
    made = FoodField(session)
    qtbot.addWidget(made)
    made.show()
    made.activateWindow()
    made.edit.setFocus()
    return made


def test_another_name_is_understood(food, qtbot):
    qtbot.keyClicks(food.edit, "maize")
    assert food.value().slug == "corn"
    assert food.sentence.text() == "= sweet corn"


def test_half_a_word_offers_what_it_could_be(food, qtbot):
    qtbot.keyClicks(food.edit, "app")
    assert food._names.stringList()[:1] == ["apple"]


def press(food, key):
    """Where the window system would send it: to the open list, else to the entry."""
    QTest.keyClick(QApplication.activePopupWidget() or food.edit, key)


@pytest.mark.parametrize("typed", ["turk", "venison chili", "duck eggs", "lotus root"])
@pytest.mark.parametrize("key", [Qt.Key.Key_Tab, Qt.Key.Key_Return])
def test_nothing_typed_is_replaced_by_a_guess(food, qtbot, typed, key):
    qtbot.keyClicks(food.edit, typed)
    with qtbot.assertNotEmitted(food.chosen):
        press(food, key)
    assert food.text() == typed
    assert food.value() is None
    food.edit.clearFocus()
    assert food.text() == typed
    assert "Which food is" in food.sentence.text()


def test_enter_on_an_offer_only_picks_it(food, qtbot):
    qtbot.keyClicks(food.edit, "turk")
    press(food, Qt.Key.Key_Down)
    with qtbot.waitSignal(food.chosen) as caught, qtbot.assertNotEmitted(food.accepted):
        press(food, Qt.Key.Key_Return)
    assert caught.args[0].slug == "turkey"
    assert food.text() == "turkey, cooked"


def test_looking_through_the_offers_leaves_the_words_alone(food, qtbot):
    qtbot.keyClicks(food.edit, "turk")
    press(food, Qt.Key.Key_Down)
    press(food, Qt.Key.Key_Down)
    assert food.text() == "turk"
    press(food, Qt.Key.Key_Escape)
    assert food.text() == "turk"


def test_enter_on_a_known_name_is_enter(food, qtbot):
    qtbot.keyClicks(food.edit, "maize")
    with qtbot.waitSignal(food.accepted):
        press(food, Qt.Key.Key_Return)
    assert food.text() == "maize"


def test_the_last_offer_adds_it_as_her_own_with_nothing_ticked_before(food, session, qtbot):
    qtbot.keyClicks(food.edit, "venison chili")
    assert food._names.stringList()[-1] == "Log it as “venison chili”, my own food…"
    press(food, Qt.Key.Key_Up)
    press(food, Qt.Key.Key_Return)
    assert food.ask.isVisible()
    assert food.ask.contains.value() == ()
    food.ask.contains.boxes["meat"].setChecked(True)
    with qtbot.waitSignal(food.chosen) as caught:
        food.ask.add_button.click()
    assert caught.args[0].animal
    (own,) = session.kitchen.journal.where(OwnFood)
    assert (own.name, own.contains) == ("venison chili", "meat")
    assert food.text() == "venison chili"
    session.undo()
    assert session.kitchen.journal.where(OwnFood) == ()


def test_an_animals_name_said_to_be_plants_is_asked_about_once_more(food, session, qtbot):
    qtbot.keyClicks(food.edit, "duck eggs")
    food.ask_own()
    food.ask.contains.boxes["meat"].setChecked(True)
    food.ask.contains.boxes["plant"].setChecked(True)
    assert food.ask.contains.value() == ("plant",)
    food.ask.add_button.click()
    assert session.kitchen.journal.where(OwnFood) == ()
    assert "really no meat, fish, egg or milk" in food.ask.sentence.text()
    food.ask.add_button.click()
    assert session.kitchen.journal.where(OwnFood)[0].contains == "plant"


def test_another_answer_asks_anew(food, session):
    food.show_text("duck eggs")
    food.ask_own()
    food.ask.contains.boxes["plant"].setChecked(True)
    food.ask.add_button.click()
    food.ask.contains.boxes["egg"].setChecked(True)
    assert food.ask.contains.value() == ("egg",)
    assert food.ask.add_button.text() == "Add it"
    food.ask.add_button.click()
    assert session.kitchen.journal.where(OwnFood)[0].contains == "egg"


def test_without_an_answer_it_counts_as_not_known(food, session):
    food.show_text("seitan")
    food.ask_own()
    assert "treated as food from an animal" in food.ask.sentence.text()
    food.ask.add_button.click()
    assert session.kitchen.journal.where(OwnFood)[0].contains == ""
    assert food.value().animal


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
