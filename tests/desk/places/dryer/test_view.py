"""Drying now, by keyboard alone: start, weigh, watch, take off, read."""

from __future__ import annotations

import re
from datetime import timedelta

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QPushButton

from dryhouse.desk.place import places
from dryhouse.desk.places.dryer.detail import FIGURES
from dryhouse.desk.places.dryer.view import DryingPlace
from dryhouse.kitchen.dryer.drying import weighings_of
from dryhouse.kitchen.records import Batch
from dryhouse.kitchen.records.batches import FINISHED, PLANNED
from dryhouse.science.quantities import Mass
from tests.desk.places.dryer.sitting import ENTER, Sitting, drying
from tests.kitchen.drying_room import NOON, Hands


def test_the_place_is_found_by_its_spec() -> None:
    spec = next(s for s in places() if s.id == "drying")
    assert spec.load() is DryingPlace


def test_an_empty_place_says_what_to_do_next(sitting) -> None:
    assert sitting.place.side.currentWidget() is sitting.place.empty_state
    sitting.press(Qt.Key.Key_Space)
    assert sitting.place.side.currentWidget() is sitting.place.form


def test_a_whole_run_by_keyboard_the_forecast_tightens_and_the_result_is_read(sitting, hands) -> None:
    sitting.ctrl(Qt.Key.Key_N)
    sitting.type("apple", ENTER)
    sitting.type("1000 g", ENTER)
    strip = sitting.strip
    assert strip.reading.edit.hasFocus()
    assert "Loaded 1 kg, dry at 175 g" in strip.state.text()
    widths = []
    for hour, grams in ((1, 810), (2, 640), (4, 412), (6, 283)):
        hands.time = NOON + timedelta(hours=hour)
        sitting.type(str(grams), ENTER)
        assert strip.reading.edit.hasFocus()
        assert strip.reading.text() == ""
        finish = sitting.place.runs[strip.run.batch.id].expected.forecast.finish
        widths.append(finish.high50 - finish.low50)
    assert [w.net_g for w in weighings_of(hands.kitchen, strip.run.batch.id)] == [810, 640, 412, 283]
    assert widths[-1] < 0.7 * widths[0]
    now = sitting.place.runs[strip.run.batch.id].moisture
    assert now.low < 50.5 < now.high, "by the table's dry matter"
    assert f"Moisture {now.value:.0f} %" in strip.state.text()
    assert strip.verdict.text() == "Still moist"
    assert re.match(r"Dry about (tomorrow )?\d\d:\d\d\.", strip.finish.text())
    assert re.match(r"Likely (tomorrow )?\d\d:\d\d to (tomorrow )?\d\d:\d\d\.", strip.bands.text())
    assert re.match(r"Even odds: between .+\. 80 %: .+\.", strip.bands.toolTip())
    hands.time = NOON + timedelta(hours=11)
    sitting.type("172", ENTER)
    assert strip.verdict.text() == "Dry enough"
    assert "Check by hand as well" in strip.verdict.toolTip()
    assert "target weight was reached" in strip.finish.text()
    sitting.ctrl(Qt.Key.Key_T)
    assert sitting.place.take_off.mass.text() == "172 g"
    assert sitting.place.take_off.standing.text().startswith("Dry enough by weight: "), "as the strip says"
    sitting.press(Qt.Key.Key_Tab)
    sitting.press(Qt.Key.Key_L)
    assert sitting.place.take_off.standing.text().startswith("Dry enough by weight and leathery to the hand: ")
    sitting.press(ENTER)
    batch = hands.journal.get(Batch, strip.run.batch.id)
    assert (batch.state, batch.dried_mass) == (FINISHED, Mass(172.0, "172 g"))
    assert batch.felt == "leathery"
    assert sitting.place.strips == {}
    detail = sitting.place.detail
    assert sitting.place.side.currentWidget() is detail
    assert detail.pages.currentIndex() == FIGURES
    shown = [v.accessibleName() for v in detail.figures.views if v.isVisible()]
    assert any(said.startswith("Yield by weight: 17.2 %") for said in shown)
    assert detail.figures.sentence.text().startswith("Dry enough by weight")
    assert "172 g dried" in detail.facts.text()
    sitting.session.undo()
    assert sitting.place.runs[batch.id].verdict.name == "dry enough"
    assert hands.journal.get(Batch, batch.id).curve_dry is None
    sitting.session.redo()
    assert hands.journal.get(Batch, batch.id) == batch


def test_the_verdict_takes_the_colours_of_the_look(sitting, hands) -> None:
    drying(sitting)
    hands.wait(1)
    sitting.type("800", ENTER)
    theme = sitting.place.session.theme
    for look in ("dark", "light"):
        theme.choose(look)
        assert theme.tokens.tint("still moist").ink in sitting.strip.verdict.styleSheet()


def test_undo_takes_a_weighing_back_and_the_strip_follows(sitting, hands) -> None:
    batch = drying(sitting)
    hands.wait(1)
    sitting.type("800", ENTER)
    sitting.session.undo()
    assert weighings_of(hands.kitchen, batch) == ()
    assert sitting.strip.state.toolTip().startswith("Loaded 1 kg")
    sitting.session.redo()
    assert "Load 800 g at " in sitting.strip.state.text()


def test_the_clock_needs_no_running_program(qtbot, hands) -> None:
    first = Sitting(qtbot, hands)
    drying(first)
    first.place.close()
    hands.wait(9.5)
    again = Sitting(qtbot, hands)
    assert "9 h 30 min of drying" in again.strip.clock.text()


def test_only_the_batch_that_changed_is_read_again(sitting, hands) -> None:
    first, second = drying(sitting), None
    hands.wait(1)
    second = drying(sitting)
    before = dict(sitting.place.runs)
    hands.wait(1)
    sitting.place.strips[second].reading.edit.setFocus()
    sitting.type("900", ENTER)
    assert sitting.place.runs[first] is before[first]
    assert sitting.place.runs[second] is not before[second]
    assert sitting.place.detail.run.batch.id == second


def test_the_arrows_go_from_strip_to_strip(sitting, hands) -> None:
    first = drying(sitting)
    hands.wait(1)
    second = drying(sitting)
    assert sitting.place.current == first
    sitting.ctrl(Qt.Key.Key_Down)
    assert sitting.place.current == second
    assert sitting.place.strips[second].is_chosen
    sitting.ctrl(Qt.Key.Key_Down)
    assert sitting.place.current == first


def test_what_is_planned_is_folded_while_something_dries_and_opened_when_it_is_due(qtbot) -> None:
    far, near = NOON + timedelta(days=60), NOON + timedelta(days=3)
    planned_apple = Batch("apple", state=PLANNED, prepared_mass=Mass(900.0, "900 g"), started=far, id=40)
    hands = Hands(planned_apple)
    hands.start(1000.0)
    sitting = Sitting(qtbot, hands)
    waiting = sitting.place.column.waiting
    assert waiting.fold.accessibleName() == "1 planned"
    assert waiting.isVisible()
    assert not waiting.is_open
    hands.time = near + timedelta(days=55)
    sitting.place.mark_stale()
    sitting.place.arrive()
    assert waiting.is_open


def test_every_entry_and_button_has_a_name(sitting, hands) -> None:
    from PySide6.QtWidgets import QAbstractButton, QComboBox, QLineEdit

    drying(sitting)
    kinds = (QAbstractButton, QComboBox, QLineEdit)
    nameless = [
        w
        for kind in kinds
        for w in sitting.place.findChildren(kind)
        if w.isVisible() and not (w.accessibleName() or (isinstance(w, QAbstractButton) and w.text()))
    ]
    assert nameless == []


def test_the_right_button_on_a_strip_opens_what_else_can_be_done(sitting, hands) -> None:
    drying(sitting)
    strip = sitting.strip
    strip.customContextMenuRequested.emit(strip.rect().center())
    assert strip.more_button.menu().isVisible()
    strip.more_button.menu().close()


def test_what_is_asked_of_a_run_is_answered_by_one_press_and_undone(sitting, hands) -> None:
    batch = hands.start()
    for hour, grams in ((2, 600), (5, 300), (9, 170), (12, 160), (13, 160), (15, 160)):
        hands.time = NOON + timedelta(hours=hour)
        hands.weigh(batch, grams)
    sitting.place.refresh()
    questions = sitting.place.strips[batch].questions
    assert questions.isVisible()
    (yes,) = [b for b in questions.findChildren(QPushButton) if b.text() == "Yes, brittle"]
    yes.click()
    assert hands.kitchen.journal.get(Batch, batch).settled is True
    assert not questions.isVisible()
    assert sitting.place.runs[batch].load.solids == pytest.approx(160 / 1.04, rel=0.01)
    sitting.session.undo()
    assert hands.kitchen.journal.get(Batch, batch).settled is None
    assert questions.isVisible()
