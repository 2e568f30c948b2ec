"""The entry at the scale: what it says before Enter, what it asks, and the one key that keeps."""

from __future__ import annotations

from datetime import timedelta

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtTest import QTest

from dryhouse.kitchen.dryer.drying import weighings_of
from dryhouse.kitchen.records.weighings import SAMPLE
from tests.desk.places.dryer.sitting import ENTER, drying
from tests.kitchen.drying_room import NOON, Hands


@pytest.fixture
def batch(sitting, hands) -> int:
    """A kilogram of apple, weighed twice."""
    number = drying(sitting)
    for grams in (800, 640):
        hands.wait(1)
        sitting.type(f"{grams} g", ENTER)
    hands.wait(1)
    return number


def nets(hands: Hands, batch: int) -> list[tuple[float, bool]]:
    return [(w.net_g, w.left_out) for w in weighings_of(hands.kitchen, batch)]


def test_the_line_is_said_back_before_enter(sitting, hands, batch) -> None:
    sitting.type("14:30 700 g tare 150 g tray 2")
    assert sitting.strip.reading.sentence.text() == "= 550 g net, tare 150 g, 14:30, tray 2"
    assert len(nets(hands, batch)) == 2


def test_a_back_dated_reading_is_one_entry(sitting, hands, batch) -> None:
    sitting.type("13:30 700 g", ENTER)
    assert weighings_of(hands.kitchen, batch)[1].at == NOON + timedelta(hours=1.5)


def test_what_can_t_be_true_is_asked_about_and_one_key_keeps_it_left_out(sitting, hands, batch) -> None:
    sitting.type("90 g", ENTER)
    entry = sitting.strip.entry
    assert "dry matter" in entry.question.text()
    assert entry.question.isVisible()
    assert sitting.strip.reading.text() == "90 g", "what was typed is gone"
    assert len(nets(hands, batch)) == 2
    sitting.press(Qt.Key.Key_F9)
    assert nets(hands, batch)[-1] == (90, True)
    assert not entry.question.isVisible()
    assert sitting.strip.reading.text() == ""
    assert sitting.place.runs[batch].net_g == 640


def test_typing_on_takes_the_question_away_and_nothing_was_kept(sitting, hands, batch) -> None:
    sitting.type("90 g", ENTER)
    QTest.keyClicks(sitting.strip.reading.edit, "0")
    assert not sitting.strip.entry.asked.isVisible()
    sitting.press(Qt.Key.Key_F9)
    assert len(nets(hands, batch)) == 2


def test_a_second_reading_within_the_minute_takes_the_first_one_s_place_by_one_key(sitting, hands, batch) -> None:
    sitting.type("540 g", ENTER)
    hands.wait(0.01)
    sitting.type("530 g", ENTER)
    assert sitting.strip.entry.replace_button.isVisible()
    sitting.press(Qt.Key.Key_F9, Qt.KeyboardModifier.ShiftModifier)
    assert [net for net, _ in nets(hands, batch)] == [800, 640, 530]


def test_pasted_lines_stay_apart_and_are_one_act(sitting, hands, batch) -> None:
    QGuiApplication.clipboard().setText("14:30\t600\n14:45\t580\n")
    sitting.press(Qt.Key.Key_V, Qt.KeyboardModifier.ControlModifier)
    assert sitting.strip.reading.sentence.text().startswith("= 2 readings")
    sitting.press(ENTER)
    assert [net for net, _ in nets(hands, batch)] == [800, 640, 600, 580]
    sitting.session.undo()
    assert [net for net, _ in nets(hands, batch)] == [800, 640]


def test_space_in_the_table_leaves_a_weighing_out_and_takes_it_in_again(sitting, hands, batch) -> None:
    sitting.ctrl(Qt.Key.Key_L)
    sitting.press(Qt.Key.Key_Space)
    assert nets(hands, batch)[-1] == (640, True), "the newest stands first"
    pane = sitting.place.detail.weighings
    assert pane.table.item(0, 8).text() == "left out"
    assert pane.out_button.text() == "&Take in"
    assert [p.net_g for p in sitting.place.runs[batch].points] == [1000, 800]
    sitting.press(Qt.Key.Key_Space)
    assert nets(hands, batch)[-1] == (640, False)


def test_a_correction_that_can_t_be_true_is_asked_about_too(sitting, hands, batch) -> None:
    sitting.ctrl(Qt.Key.Key_L)
    sitting.press(ENTER)
    sitting.type("80 g", ENTER)
    pane = sitting.place.detail.weighings
    assert nets(hands, batch)[-1] == (640, False)
    assert pane.keep_button.isVisible()
    sitting.press(Qt.Key.Key_F9)
    assert nets(hands, batch)[-1] == (80, True)


def test_the_same_entry_takes_what_happened(sitting, hands, batch) -> None:
    sitting.type("14:30 tray off 60 g")
    assert sitting.strip.reading.sentence.text() == "= tray taken off early, 60 g, 14:30"
    sitting.press(ENTER)
    assert sitting.strip.reading.text() == ""
    assert "60 g of the load is off the dryer" in sitting.strip.asks.text()
    sitting.type("turned", ENTER)
    sitting.type("heat 145 F", ENTER)
    kinds = [e.kind for e in sitting.place.runs[batch].events]
    assert kinds == ["tray taken off early", "trays turned", "temperature changed"]


def test_what_is_missing_of_what_happened_is_asked_at_the_entry_and_nothing_typed_is_lost(sitting, batch) -> None:
    sitting.type("tray in", ENTER)
    assert "weigh" in sitting.strip.reading.sentence.text()
    assert sitting.strip.reading.text() == "tray in"


def test_the_menu_begins_a_line_to_be_finished(sitting, batch) -> None:
    notes = {action.text(): action for action in sitting.strip.note_button.menu().actions()}
    notes["A note …"].trigger()
    sitting.type("edges crisp", ENTER)
    assert [e.note for e in sitting.place.runs[batch].events] == ["edges crisp"]


def test_the_reading_is_in_the_unit_last_used(sitting, hands) -> None:
    batch = drying(sitting)
    hands.wait(1)
    sitting.type("30 oz", ENTER)
    hands.wait(1)
    sitting.type("25.5", ENTER)
    last = weighings_of(hands.kitchen, batch)[-1]
    assert last.gross.typed == "25.5 oz"
    assert last.net_g == pytest.approx(25.5 * 28.349523125)


def test_a_reading_that_cannot_be_is_refused_beside_the_entry(sitting, hands) -> None:
    batch = drying(sitting)
    sitting.type("quite heavy", ENTER)
    assert "not a weight" in sitting.strip.reading.sentence.text()
    assert weighings_of(hands.kitchen, batch) == ()
    sitting.strip.reading.set_value(None)
    sitting.press(ENTER)
    assert "What does the scale show" in sitting.strip.reading.sentence.text()


def test_tare_time_and_sample_tray_are_entries_away(sitting, hands) -> None:
    batch = drying(sitting)
    hands.wait(3)
    strip = sitting.strip
    strip.ask_more()
    assert strip.tare.edit.hasFocus()
    sitting.type("100 g")
    strip.at.edit.setFocus()
    sitting.type("13:00")
    strip.scope.set_value(SAMPLE)
    strip.reading.edit.setFocus()
    sitting.type("350", ENTER)
    (weighing,) = weighings_of(hands.kitchen, batch)
    assert (weighing.net_g, weighing.scope, weighing.at) == (250.0, SAMPLE, NOON + timedelta(hours=1))
    hands.wait(1)
    sitting.type("330", ENTER)
    assert weighings_of(hands.kitchen, batch)[-1].net_g == 230.0
    assert strip.scope.value() == SAMPLE
    assert strip.state.text().startswith("Sample tray 230 g at ")


def test_a_tare_heavier_than_the_reading_is_said_at_the_entry(sitting) -> None:
    drying(sitting)
    strip = sitting.strip
    strip.ask_more()
    sitting.type("900 g")
    strip.reading.edit.setFocus()
    sitting.type("350 g", ENTER)
    assert "leaves nothing" in strip.reading.sentence.text()


def test_a_reading_being_typed_survives_a_change_elsewhere(sitting, hands) -> None:
    first = drying(sitting)
    hands.wait(1)
    sitting.type("81")
    hands.weigh(first, 850)
    sitting.place.runs.forget()
    sitting.place.mark_stale()
    assert sitting.strip.reading.text() == "81"
    assert sitting.strip.reading.edit.hasFocus()
