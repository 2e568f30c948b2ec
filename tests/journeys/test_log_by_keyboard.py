"""A batch comes off the dryer and is logged by keyboard alone."""

import pytest
from PySide6.QtCore import Qt

from dryhouse.house import open_kitchen
from dryhouse.kitchen.cards.batch_card import batch_card
from dryhouse.kitchen.records import Batch
from dryhouse.words.captions import short_caption
from tests.journeys.conftest import CTRL

AT_MOST = 8


def log_corn(person, qtbot):
    person.press(Qt.Key.Key_1, CTRL)
    person.press(Qt.Key.Key_N, CTRL)
    for text in ("sweet corn", "2 lb 3 oz", "9 oz", "yesterday 18:00"):
        person.type(text)
        person.press(Qt.Key.Key_Tab)
    person.type("8h30")
    person.press(Qt.Key.Key_Return)
    return person.window.views["journal"]


def newest(person):
    return max(person.session.kitchen.journal.where(Batch), key=lambda b: b.id)


def test_eight_entries_are_more_than_enough(person, qtbot):
    before = newest(person).id
    log_corn(person, qtbot)
    batch = newest(person)
    assert batch.id > before
    assert person.entries <= AT_MOST
    assert (batch.food, batch.prepared_mass.typed, batch.dried_mass.typed) == ("corn", "2 lb 3 oz", "9 oz")
    assert (batch.ended - batch.started).total_seconds() == 8.5 * 3600


def test_the_last_batch_of_that_food_fills_in_the_rest(person, qtbot):
    journal = person.session.kitchen.journal
    last = max((b for b in journal.where(Batch, food="corn") if b.started), key=lambda b: b.started)
    log_corn(person, qtbot)
    batch = newest(person)
    assert (batch.form, batch.dryer, batch.trays) == (last.form, last.dryer, last.trays)
    assert batch.set_temperature == last.set_temperature


def test_the_card_of_the_new_batch_stands_beside_the_list(person, qtbot):
    journal = log_corn(person, qtbot)
    batch = newest(person)
    qtbot.waitUntil(lambda: journal.panel.batch is not None and journal.panel.batch.id == batch.id)
    assert journal.pages.currentWidget() is journal.lists
    card = batch_card(person.session.kitchen, batch.id)
    assert journal.panel.card.card == card
    shown = [(view.title, view.figure) for view in journal.panel.card.figures]
    assert len(shown) == len(card.figures) > 0
    style = person.session.style
    for figure in card.figures:
        assert (short_caption(figure.id, figure.celsius, style), figure.figure) in shown


def test_control_z_takes_it_back_and_control_shift_z_does_it_again(person, qtbot):
    before = newest(person).id
    log_corn(person, qtbot)
    logged = newest(person)
    person.window.menus.undo.trigger()
    assert newest(person).id == before
    person.window.menus.redo.trigger()
    assert newest(person) == logged


def test_what_was_logged_is_in_the_file_for_anyone_to_read(person, qtbot):
    log_corn(person, qtbot)
    batch = newest(person)
    with open_kitchen(sample=True) as reading:
        assert reading.journal.get(Batch, batch.id) == batch


def test_escape_leaves_the_form_and_nothing_is_lost(person, qtbot):
    person.press(Qt.Key.Key_N, CTRL)
    person.type("sweet corn")
    person.press(Qt.Key.Key_Tab)
    person.type("35 oz")
    person.press(Qt.Key.Key_Escape)
    journal = person.window.views["journal"]
    assert journal.pages.currentWidget() is journal.lists
    person.press(Qt.Key.Key_N, CTRL)
    assert journal.form.offer.asked.text() == "Go on with sweet corn, 35 oz?"
    for _ in range(2):
        person.press(Qt.Key.Key_Tab, Qt.KeyboardModifier.ShiftModifier)
    assert journal.form.offer.go_on.hasFocus()
    person.press(Qt.Key.Key_Space)
    qtbot.waitUntil(lambda: journal.form.typed()["fresh"] == "35 oz")


def test_a_new_person_starts_from_nothing(person, qtbot):
    person.opening.open_own()
    assert "Welcome" in person.opening._page.heading.text()
    person.press(Qt.Key.Key_Space)
    person.press(Qt.Key.Key_Space)
    person.type("apples")
    person.press(Qt.Key.Key_Tab)
    person.type("3 lb")
    person.press(Qt.Key.Key_Tab)
    person.type("8 oz")
    person.press(Qt.Key.Key_Return)
    batch = newest(person)
    assert (batch.id, batch.food) == (1, "apple")
    assert batch.dried_mass.si == pytest.approx(226.796, abs=0.001)


def test_meat_without_a_recorded_heat_step_is_met_with_a_stop(person, qtbot):
    person.press(Qt.Key.Key_N, CTRL)
    person.type("ground beef")
    person.press(Qt.Key.Key_Tab)
    person.type("2 lb")
    journal = person.window.views["journal"]
    qtbot.waitUntil(lambda: bool(journal.form.preview.cautions.cautions))
    assert journal.form.preview.cautions.cautions[0].severity == "stop"
    assert journal.form.entries.fields["precook"].isVisible()
