"""The Yields as someone new would use them: by the keyboard, from the line to the workings and back."""

import re
from datetime import timedelta

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtTest import QTest

from dryhouse.desk.places.yields.view import YieldsPlace
from dryhouse.kitchen.batches.log import BatchDraft, log_batch
from dryhouse.kitchen.records import Batch
from dryhouse.kitchen.settings import set_preference
from dryhouse.kitchen.yields.yields import DRIED, FRESH
from dryhouse.science.quantities import Mass
from tests.builders import NOW


@pytest.fixture
def place(window) -> YieldsPlace:
    window.go("yields")
    view = window.views["yields"]
    QTest.qWait(20)
    return view


def typed(place: YieldsPlace, text: str) -> None:
    place.ask.line.clear()
    QTest.keyClicks(place.ask.line, text)


def test_the_keyboard_is_in_the_line_and_an_empty_line_says_what_to_do(place, window):
    assert window.focusWidget() is place.ask.line
    assert place.answer is None
    assert place._stack.currentWidget() is place.empty
    assert "Type a food and an amount" in place.empty.sentence.text()


def test_corn_and_a_cup_are_answered_while_typing(place):
    seen = []
    place.ask.line.clear()
    for letter in "corn 1 cup":
        QTest.keyClicks(place.ask.line, letter)
        seen.append(place.answer is not None)
    assert seen == [False] * 7 + [True] * 3
    said = place.answers.said
    assert said.startswith("1 cup of fresh sweet corn gives about ")
    assert "oz dried, or " in said
    assert "cup" in said
    assert "80 % likely between" in said
    assert re.search(r": [\d.½¼¾⅓⅔⅛⅜⅝⅞ ]+ oz", place.answers.joined.accessibleName())


def test_a_food_alone_is_answered_with_an_example_once_typing_pauses(place):
    typed(place, "corn")
    QTest.qWait(400)
    assert place.answers.said.startswith("For example: 1 cup of fresh sweet corn gives")
    assert place.answers.joined.title.startswith("For example: 1 cup of fresh sweet corn")
    assert "How much?" in place.ask.understood.text()
    typed(place, "apple")
    QTest.qWait(400)
    assert place.answers.said.startswith("For example: 1 lb of fresh apple gives")
    place.session.act(set_preference, "units", "metric")
    QTest.qWait(400)
    assert place.answers.said.startswith("For example: 1 kg of fresh apple gives")


def test_handbook_and_own_stand_side_by_side(place):
    typed(place, "corn 1 cup")
    assert place.answers.handbook.figure is not None
    assert place.answers.own.figure.value == pytest.approx(145 * 9 / 35)
    assert "Your 1 batch combined with the handbook" in place.answers.rests_on.text()


def test_the_word_dried_turns_it_round_and_ctrl_r_turns_it_back(place, qtbot):
    typed(place, "2 cups dried corn")
    assert place.answer.direction == DRIED
    assert place.ask.to_fresh.isChecked()
    assert "takes about" in place.answers.said
    qtbot.keyClick(place.ask.line, Qt.Key.Key_R, Qt.KeyboardModifier.ControlModifier)
    assert place.answer.direction == FRESH
    assert place.ask.line.text() == "2 cups fresh corn"


def test_the_word_dried_turns_only_its_own_question_round(place):
    typed(place, "2 cups dried corn")
    assert place.answer.direction == DRIED
    typed(place, "corn 1 cup")
    assert place.answer.direction == FRESH
    place.ask.to_fresh.click()
    typed(place, "corn 2 cups")
    assert place.answer.direction == DRIED


def test_enter_in_the_line_opens_the_workings_and_escape_comes_back(place, window, qtbot):
    typed(place, "corn 1 cup")
    qtbot.keyClick(place.ask.line, Qt.Key.Key_Return)
    sheet = window.sheet()
    assert sheet.isVisible()
    assert "23.95 % ÷ 90 %" in sheet.as_text()
    assert "5.115 oz" in sheet.as_text()
    qtbot.keyClick(window.focusWidget(), Qt.Key.Key_Escape)
    assert not sheet.isVisible()
    assert window.focusWidget() is place.ask.line


def test_what_is_missing_is_asked_for_under_the_line(place):
    typed(place, "corn 3")
    assert "3 of what?" in place.ask.understood.text()
    typed(place, "zzzz 1 cup")
    assert "No food here is called “zzzz”" in place.ask.understood.text()
    typed(place, "apple 1 cup")
    assert "weighs is not known; give its weight" in place.refused.text()
    assert place.refused.isVisible()


def test_her_units_are_used_and_follow_when_she_changes_them(place):
    typed(place, "corn 1 cup")
    assert " oz" in place.answers.joined.accessibleName()
    place.session.act(set_preference, "units", "metric")
    assert re.search(r": [\d ]+ g,", place.answers.joined.accessibleName())


def test_a_batch_that_is_logged_moves_the_answer_at_once(place):
    typed(place, "corn 2 lb")
    before = place.answer
    ended = NOW - timedelta(hours=2)
    batch = Batch("corn", prepared_mass=Mass(1000.0), dried_mass=Mass(300.0), ended=ended)
    assert place.session.act(log_batch, BatchDraft(batch)) is not None, place.session.problem
    assert place.answer.n_own == before.n_own + 1
    assert place.answer.joined.value != before.joined.value


def test_the_form_is_a_filter(place):
    typed(place, "corn 2 lb")
    assert [place.ask.form.box.itemText(i) for i in range(place.ask.form.box.count())] == ["any", "kernels"]
    place.ask.form.box.setCurrentIndex(1)
    assert place.answer.knowledge.form == "kernels"
    typed(place, "apple 2 lb")
    assert place.answer.knowledge.form == ""


def test_animal_food_shows_its_cautions_beside_the_answer(place):
    typed(place, "turkey 2 lb")
    assert any(c.severity == "stop" for c in place.cautions.cautions)
    assert place._right.indexOf(place.cautions) == 0
    typed(place, "corn 2 lb")
    assert place._right.indexOf(place.plot) == 0


def test_the_answer_is_copied_with_its_workings_and_printed(place, qtbot):
    typed(place, "corn 1 cup")
    qtbot.keyClick(
        place.ask.line, Qt.Key.Key_C, Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.ShiftModifier
    )
    copied = QGuiApplication.clipboard().text()
    assert copied.startswith("1 cup of fresh sweet corn gives about")
    assert "Workings\n" in copied
    assert "sweet corn gives about" in place.printout().toPlainText()
    place.ask.line.clear()
    assert place.printout() is None


def test_the_chart_is_drawn_once_typing_pauses_and_says_itself_in_words(place):
    typed(place, "corn 1 cup")
    QTest.qWait(350)
    assert "Handbook" in place.plot.canvas.accessibleDescription()
    assert place.plot.canvas.result.dots[-1].value == pytest.approx(100 * 9 / 35)
    assert "Needs two cuts" in place.moves.note.text()


def test_another_place_can_send_a_food_here(place, window):
    window.go("journal")
    place.session.open("yields", "food", "turkey")
    assert place.ask.line.text() == "turkey, cooked 1 cup"


def test_the_examples_of_the_empty_place_can_be_pressed(place, qtbot):
    qtbot.mouseClick(place.empty.buttons[0], Qt.MouseButton.LeftButton)
    assert place.answer.knowledge.food.slug == "corn"
