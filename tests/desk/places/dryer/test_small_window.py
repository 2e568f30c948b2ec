"""The small window at the scale: every batch in three lines and one entry, by keyboard, where she left it."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QSettings, Qt
from PySide6.QtWidgets import QApplication, QLineEdit

from dryhouse.desk.places.dryer.small_window import SmallWindow
from dryhouse.desk.session import Session
from dryhouse.desk.theme import Theme
from dryhouse.kitchen.dryer.drying import CameOff, take_off, weighings_of
from dryhouse.kitchen.dryer.runs import run_of
from dryhouse.science.display import METRIC, Style
from dryhouse.science.quantities import Mass
from tests.kitchen.drying_room import Hands


@pytest.fixture
def hands() -> Hands:
    """Two batches of apple on the dryers, the first weighed."""
    hands = Hands()
    first = hands.start()
    hands.start(500.0)
    hands.dry(first, (1, 2, 3))
    return hands


@pytest.fixture
def settings(tmp_path) -> QSettings:
    return QSettings(str(tmp_path / "settings.ini"), QSettings.Format.IniFormat)


def opened(qtbot, hands: Hands, settings: QSettings) -> SmallWindow:
    session = Session(hands.kitchen, Theme(QApplication.instance(), "light"))
    session.set_style(Style(METRIC))
    window = SmallWindow(session, settings)
    qtbot.addWidget(window)
    window.come()
    qtbot.waitExposed(window)
    return window


@pytest.fixture
def window(qtbot, hands, settings) -> SmallWindow:
    return opened(qtbot, hands, settings)


def test_each_batch_says_its_food_its_weight_by_now_and_its_finish(window, hands) -> None:
    first, second = window.strips.values()
    assert first.name.text() == "Apple, batch 1"
    assert first.now.text().startswith("Now ")
    assert first.finish.text().startswith("Dry about")
    assert second.now.text().startswith("Now about ")
    hands.wait(2)
    window.tick()
    assert first.now.text().startswith("Now about ")
    aim = run_of(hands.kitchen, 1).target_mass
    assert aim.low < 175.0 < aim.high
    assert f"dry at {aim.value:.0f} g" in first.now.text()


def test_a_reading_is_typed_and_entered_and_the_next_batch_is_one_key_away(qtbot, window, hands) -> None:
    hands.wait(1)
    assert window.focusWidget() is window.strips[1].entry.field.edit
    qtbot.keyClicks(window.focusWidget(), "410 g")
    qtbot.keyClick(window.focusWidget(), Qt.Key.Key_Return)
    assert weighings_of(hands.kitchen, 1)[-1].net_g == 410
    assert window.focusWidget().text() == ""
    qtbot.keyClick(window.focusWidget(), Qt.Key.Key_Down)
    assert window.focusWidget() is window.strips[2].entry.field.edit
    qtbot.keyClick(window.focusWidget(), Qt.Key.Key_Down)
    assert window.focusWidget() is window.strips[1].entry.field.edit


def test_what_can_t_be_true_is_asked_about_here_too(qtbot, window, hands) -> None:
    hands.wait(1)
    qtbot.keyClicks(window.focusWidget(), "50 g")
    qtbot.keyClick(window.focusWidget(), Qt.Key.Key_Return)
    assert window.strips[1].entry.asked.isVisible()
    qtbot.keyClick(window.focusWidget(), Qt.Key.Key_F9)
    assert weighings_of(hands.kitchen, 1)[-1].left_out


def test_a_batch_that_is_taken_off_goes_and_what_is_being_typed_for_another_stays(qtbot, window, hands) -> None:
    window.strips[2].entry.field.setFocus()
    qtbot.keyClicks(window.focusWidget(), "48")
    window.session.act(take_off, 1, CameOff(Mass(170.0)))
    assert list(window.strips) == [2]
    assert window.strips[2].entry.field.text() == "48"
    window.session.act(take_off, 2, CameOff(Mass(90.0)))
    assert window.nothing.isVisible()


def test_it_is_small_and_stays_on_top_where_she_wants_it_and_comes_back_where_it_was(
    qtbot, window, hands, settings
) -> None:
    assert window.width() <= 320
    assert window.minimumSizeHint().width() <= 320
    assert window.windowFlags() & Qt.WindowType.WindowStaysOnTopHint
    window.resize(360, 260)
    qtbot.keyClick(window.focusWidget(), Qt.Key.Key_Escape)
    assert not window.isVisible()
    window.on_top.setChecked(False)
    again = opened(qtbot, hands, settings)
    assert (again.width(), again.height()) == (360, 260)
    assert not again.windowFlags() & Qt.WindowType.WindowStaysOnTopHint


def test_a_screen_reader_hears_which_entry_is_of_which_batch(window) -> None:
    named = [edit.accessibleName() for edit in window.findChildren(QLineEdit)]
    assert named == ["What the scale shows for Apple, batch 1", "What the scale shows for Apple, batch 2"]
    assert window.strips[1].accessibleName().startswith("Apple, batch 1: Now ")
