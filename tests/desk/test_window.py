"""The window: going about, the side sheet, what is remembered."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractItemView,
    QComboBox,
    QHeaderView,
    QLineEdit,
    QTextBrowser,
    QTextEdit,
)

from dryhouse.desk.help import show_keys
from dryhouse.desk.widgets.cautions_view import CautionRow
from dryhouse.desk.window import DeskWindow
from dryhouse.kitchen.batches.dryers import save_dryer
from dryhouse.kitchen.records import Dryer
from dryhouse.science.values import Basis, Caution, Figure
from dryhouse.science.workings import StepKind, step

WORKINGS = (step(StepKind.TARGET_MASS, (198.4467, "g"), solids=(158.757, "g"), target=(20.0, "%")),)
FIGURE = Figure(198.4, "g", 190, 205, basis=(Basis("handbook", "a source"),), workings=WORKINGS)


def test_it_opens_on_the_first_place(window):
    assert window.here == "journal"
    assert window.rail.buttons["journal"].isChecked()


def test_control_and_a_digit_go_to_a_place(window, qtbot):
    for spec in window.specs:
        window.menus.places[spec.id].trigger()
        assert window.here == spec.id
        assert window.rail.buttons[spec.id].isChecked()


def test_places_are_made_when_first_visited(window):
    assert set(window.views) == {"journal"}
    window.go("handbook")
    assert set(window.views) == {"journal", "handbook"}


def test_a_place_can_open_a_record_in_another(window):
    window.session.open("handbook", "food", "apple")
    assert window.here == "handbook"
    assert window.views["handbook"].page.food.slug == "apple"


def test_workings_open_beside_the_place_and_escape_gives_the_keyboard_back(window, qtbot):
    window.go("journal")
    before = window.focusWidget()
    window.session.show_workings("Target weight", FIGURE)
    sheet = window.sheet()
    assert sheet.isVisible()
    assert "5.6 oz ÷ (1 − 20 %) = 7 oz" in sheet.as_text()
    assert window.stack.isVisible()
    qtbot.keyClick(window.focusWidget(), Qt.Key.Key_Escape)
    assert not sheet.isVisible()
    assert window.focusWidget() is before


@pytest.mark.parametrize(("width", "beside"), [(1000, False), (1900, True)])
def test_the_sheet_stands_beside_the_place_where_there_is_room_and_never_squeezes_it(window, qtbot, width, beside):
    window.resize(width, 800)
    window.session.show_workings("Target weight", FIGURE)
    qtbot.waitUntil(lambda: window.sheet().isVisible())
    assert window.room.is_beside() is beside
    assert window.stack.width() >= window.stack.currentWidget().minimumSizeHint().width()
    assert (window.stack.geometry().right() < window.sheet().geometry().left()) is beside
    window.sheet().close_sheet()
    assert window.stack.width() == window.room.width()


def test_a_caution_shows_its_reason_and_source(window):
    window.session.show_caution(Caution("warn", "Take care of it", "a source", reasons=("because it is so",)))
    text = window.sheet().as_text()
    assert "because it is so" in text
    assert "a source" in text


def test_f8_opens_the_gravest_caution_in_view(window, qtbot):
    journal = window.go("journal")
    journal.show_record("batch", 3)
    qtbot.waitUntil(lambda: any(row.isVisible() for row in journal.findChildren(CautionRow)))
    window.show_reason()
    assert window.sheet().as_text().startswith("Stop")


def test_what_was_refused_goes_away_with_the_place_and_what_failed_stays(window):
    window.go("journal")
    window.session.say("That is no day.", "input")
    window.go("journal")
    assert window._bar.isVisible()
    window.go("shelf")
    assert not window._bar.isVisible()
    window.session.say("The file cannot be written.", "world")
    window.go("journal")
    assert window._bar.isVisible()


def test_undo_and_redo_by_key(window, qtbot):
    window.session.act(save_dryer, Dryer("another", 4))
    window.menus.undo.trigger()
    assert "another" not in [d.name for d in window.session.kitchen.journal.where(Dryer)]
    assert "another" in window.menus.redo.text()
    window.menus.redo.trigger()
    assert "another" in [d.name for d in window.session.kitchen.journal.where(Dryer)]


def test_the_message_bar_offers_undo(window, qtbot):
    window.session.act(save_dryer, Dryer("another", 4))
    assert window._bar.isVisible()
    qtbot.mouseClick(window._bar.undo, Qt.MouseButton.LeftButton)
    assert "another" not in [d.name for d in window.session.kitchen.journal.where(Dryer)]


def test_every_key_is_in_the_overview(window, qtbot):
    dialog = show_keys(window)
    text = dialog.findChild(QTextBrowser).toPlainText()
    for words in ("log a batch", "undo and redo", "why a caution is said", "Journal"):
        assert words in text
    dialog.close()


def test_no_key_means_two_things(window):
    keys = [a.shortcut().toString() for m in window.menuBar().actions() for a in m.menu().actions()]
    used = [k for k in keys if k]
    assert len(set(used)) == len(used)


def test_printing_where_there_is_nothing_says_so(window):
    window.views["journal"].panel.show_batch(None)
    window.print_place()
    assert "nothing on this page" in window.session.messages.latest.text


def test_it_is_never_larger_than_the_screen_it_opens_on(window, theme, settings, qtbot):
    window.resize(5000, 4000)
    window.close()
    again = DeskWindow(theme, settings)
    qtbot.addWidget(again)
    room = again.screen().availableSize()
    assert again.width() <= room.width()
    assert again.height() <= room.height()


def test_a_narrow_window_shows_its_places_as_pictures_that_say_their_names(window):
    window.resize(900, 600)
    button = window.rail.buttons["shelf"]
    assert button.toolButtonStyle() == Qt.ToolButtonStyle.ToolButtonIconOnly
    assert button.accessibleName() == "Shelf"
    assert button.toolTip().startswith("Shelf")
    window.resize(1280, 800)
    assert button.toolButtonStyle() == Qt.ToolButtonStyle.ToolButtonTextBesideIcon


def test_control_plus_minus_and_nought_size_the_text_and_it_is_remembered(window):
    keys = {k.toString(): a for m in window.menuBar().actions() for a in m.menu().actions() for k in a.shortcuts()}
    keys["Ctrl++"].trigger()
    assert window.theme.zoom == window.settings.value("window/zoom") == 110
    keys["Ctrl+-"].trigger()
    keys["Ctrl+-"].trigger()
    assert window.theme.zoom == 90
    keys["Ctrl+0"].trigger()
    assert window.theme.zoom == 100
    assert {"Ctrl+=", "F11"} <= set(keys)


def test_size_and_place_are_remembered(window, kitchen, theme, settings, qtbot):
    window.resize(1210, 700)
    window.go("handbook")
    window.close()
    again = DeskWindow(theme, settings)
    qtbot.addWidget(again)
    assert again.size().height() == 700
    assert again.settings.value("window/place") == "handbook"


def test_the_window_closes_its_journal_also_where_a_place_cannot_be_put_away(window, qtbot, monkeypatch):
    def fails():
        raise ValueError("no such entry")

    monkeypatch.setattr(window.session.drafts, "close", fails)
    with qtbot.waitSignal(window.closing, timeout=2000):
        window.close()
    monkeypatch.undo()


def belongs_to_another(widget):
    """The list of a choice, the clear button of a line, the headings of a table: named by what they belong to."""
    above = widget.parent()
    while above is not None:
        if isinstance(above, (QComboBox, QLineEdit, QAbstractItemView)):
            return True
        above = above.parent()
    return isinstance(widget, QHeaderView)


def test_every_control_in_every_place_has_a_name(window):
    nameless = []
    for spec in window.specs:
        view = window.go(spec.id)
        for kind in (QAbstractButton, QComboBox, QLineEdit, QAbstractItemView, QTextEdit):
            for widget in view.findChildren(kind):
                text = widget.text() if isinstance(widget, QAbstractButton) else ""
                if not (text or widget.accessibleName() or belongs_to_another(widget)):
                    nameless.append((spec.id, type(widget).__name__, widget.objectName()))
    assert nameless == []
