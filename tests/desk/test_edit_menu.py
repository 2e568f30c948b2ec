"""The Edit menu acts where the keyboard is."""

import pytest
from PySide6.QtGui import QGuiApplication

from dryhouse.desk.preferences import show_preferences
from dryhouse.desk.widgets.figure_view import FigureView
from dryhouse.science.display import METRIC


def action(window, keys):
    found = [
        a
        for m in window.menuBar().actions()
        for a in m.menu().actions()
        if keys in [k.toString() for k in a.shortcuts()]
    ]
    assert len(found) == 1, (keys, [a.text() for a in found])
    return found[0]


@pytest.fixture
def front(window, qtbot):
    window.activateWindow()
    qtbot.waitUntil(window.isActiveWindow)
    return window


@pytest.mark.parametrize(
    "keys", ["Ctrl+Z", "Ctrl+Y", "Ctrl+Shift+Z", "Ctrl+F", "Ctrl+C", "Ctrl+P", "Ctrl+,", "F11"]
)
def test_the_usual_keys_are_there_once(window, keys):
    action(window, keys)


def test_control_f_goes_to_where_one_looks_for_something(front):
    for place in ("journal", "shelf", "yields", "handbook"):
        view = front.go(place)
        if place == "shelf":
            view.pages.setCurrentWidget(view.lists)
        action(front, "Ctrl+F").trigger()
        assert front.focusWidget().accessibleName().startswith(("Find", "Food and amount")), place


def test_cut_and_paste_in_an_entry(front, qtbot):
    line = front.go("journal").listing.filter.edit
    line.setFocus()
    line.setText("corn")
    action(front, "Ctrl+A").trigger()
    action(front, "Ctrl+X").trigger()
    assert line.text() == ""
    action(front, "Ctrl+V").trigger()
    assert line.text() == "corn"


def test_a_figure_in_focus_is_copied_in_words(front, qtbot):
    journal = front.go("journal")
    journal.show_record("batch", 1)
    qtbot.waitUntil(lambda: any(f.isVisible() for f in journal.findChildren(FigureView)))
    figure = next(f for f in journal.findChildren(FigureView) if f.isVisible())
    figure.setFocus()
    action(front, "Ctrl+C").trigger()
    assert QGuiApplication.clipboard().text() == figure.accessibleName()


def test_preferences_are_one_page_that_works_at_once_and_can_be_undone(window):
    page = show_preferences(window, window.session)
    page.units.set_value(METRIC)
    assert window.session.style.system == METRIC
    assert "g" in window.views["journal"].listing.table.rows.index(0, 3).data()
    window.session.undo()
    assert page.units.value() == window.session.style.system != METRIC
    page.comma.setChecked(True)
    assert window.session.style.decimal_comma
    page.colors.set_value("contrast")
    assert window.theme.tokens.name == "high contrast"
    page.zoom.set_value(125)
    assert window.theme.zoom == window.settings.value("window/zoom") == 125
    page.zoom.set_value(100)
    page.colors.set_value("light")
    page.close()
