"""Figures, cautions, standings, empty states and the bar of messages show what they are given."""

import gc
from dataclasses import replace

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QAccessible
from PySide6.QtWidgets import QApplication, QWidget
from shiboken6 import isValid

from dryhouse.desk.messages import Message
from dryhouse.desk.widgets.basics import column, scrolling, text_label
from dryhouse.desk.widgets.cautions_view import CautionRow, CautionsView, open_reason_in
from dryhouse.desk.widgets.empty_state import EmptyState
from dryhouse.desk.widgets.figure_view import FigureView, in_one_unit, unbroken
from dryhouse.desk.widgets.message_bar import MessageBar
from dryhouse.desk.widgets.sheet import WorkingsSheet
from dryhouse.desk.widgets.status_line import StatusLine
from dryhouse.kitchen.settings import set_preference
from dryhouse.science.values import Basis, Caution, Figure, Measure
from dryhouse.science.workings import StepKind, step

STOP = Caution("stop", "Do not eat it.", "first source", reasons=("It was never heated.",))
NOTE = Caution("note", "Label it.", "second source")
FIGURE = Figure(
    198.4467,
    "g",
    184.3,
    212.6,
    measure=Measure(1.5, "cup"),
    basis=(Basis("handbook", "a source"), Basis("own", "", 3)),
    workings=(step(StepKind.TARGET_MASS, (198.4467, "g"), solids=(158.757, "g"), target=(20.0, "%")),),
    cautions=(STOP,),
)


@pytest.fixture
def shown(session, qtbot):
    view = FigureView(session, "Target weight", FIGURE)
    qtbot.addWidget(view)
    view.show()
    return view


def texts(widget):
    from PySide6.QtWidgets import QLabel

    return [label.text().replace("\u00a0", " ") for label in widget.findChildren(QLabel) if label.isVisible()]


def test_a_figure_shows_value_measure_interval_and_basis(shown):
    assert texts(shown) == [
        "Target weight",
        "7 oz",
        "or 1½ cups",
        "likely 6.5 to 7.5 oz",
        "handbook: a source; your 3 records",
    ]


def test_a_number_is_never_parted_from_its_unit():
    assert unbroken("8 h 30 min") == "8\u00a0h\u00a030\u00a0min"
    assert unbroken("likely 2 lb 3 oz to 24.5 %") == "likely 2\u00a0lb\u00a03\u00a0oz to 24.5\u00a0%"
    assert unbroken("1½ cups at 135 °F") == "1½\u00a0cups at 135\u00a0°F"


def test_a_figure_follows_the_persons_units(shown, session):
    session.act(set_preference, "units", "metric")
    assert shown.accessibleName().startswith(f"{shown.title}: 198 g,")


def test_a_missing_figure_says_why(session, qtbot):
    view = FigureView(session, "Keeps")
    qtbot.addWidget(view)
    view.show()
    view.set_figure(None, "No moisture is known.")
    assert texts(view) == ["Keeps", "—", "No moisture is known."]
    with qtbot.assertNotEmitted(session.workings_asked):
        view.open_workings()


@pytest.mark.parametrize("key", [Qt.Key.Key_Return, Qt.Key.Key_Space])
def test_a_key_opens_the_workings(shown, session, qtbot, key):
    with qtbot.waitSignal(session.workings_asked) as caught:
        qtbot.keyClick(shown, key)
    assert caught.args == ["Target weight", FIGURE]


def test_a_click_opens_the_workings(shown, session, qtbot):
    with qtbot.waitSignal(session.workings_asked):
        qtbot.mouseClick(shown, Qt.MouseButton.LeftButton)


def test_a_figure_is_read_out_whole(shown):
    said = shown.accessibleName()
    for part in ("Target weight", "7 oz", "6.5 to 7.5 oz", "a source"):
        assert part in said


def test_the_sheet_holds_workings_basis_and_cautions(session, qtbot):
    sheet = WorkingsSheet(session)
    qtbot.addWidget(sheet)
    session.show_workings("Target weight", FIGURE)
    for part in ("7 oz", "5.6 oz ÷ (1 − 20 %) = 7 oz", "handbook: a source", "Stop: Do not eat it. [first source]"):
        assert part in sheet.as_text()
    assert sheet.findChildren(CautionRow)


def test_the_sheet_can_be_copied(session, qtbot, qapp):
    sheet = WorkingsSheet(session)
    qtbot.addWidget(sheet)
    session.show_workings("Target weight", FIGURE)
    sheet._copy_text()
    assert "5.6 oz" in qapp.clipboard().text()


def test_the_sheet_goes_with_its_figure(session, qtbot, shown):
    """Workings of a former answer would be read as those of the new one."""
    sheet = WorkingsSheet(session)
    qtbot.addWidget(sheet)
    shown.open_workings()
    assert "5.6 oz ÷ (1 − 20 %) = 7 oz" in sheet.as_text()
    shown.set_figure(replace(FIGURE, value=300.0, workings=()))
    assert sheet.isVisible()
    assert "7 oz" not in sheet.as_text()
    shown.set_figure(None, "not known")
    assert not sheet.isVisible()
    shown.set_figure(FIGURE)
    shown.open_workings()
    shown.hide()
    assert not sheet.isVisible()


def test_cautions_are_said_once_the_gravest_first(session, qtbot):
    view = CautionsView(session, (NOTE, STOP, NOTE))
    qtbot.addWidget(view)
    view.show()
    assert in_view(view) == [STOP]
    assert said_in(view.rows[0]) == ["Stop: Do not eat it."]
    assert texts(view.fold) == ["▸ 1 more caution"]
    qtbot.mouseClick(view.fold, Qt.MouseButton.LeftButton)
    assert in_view(view) == [STOP, NOTE]
    assert said_in(view.rows[0]) == ["Stop: Do not eat it.", "first source"]
    assert said_in(view.rows[1]) == ["Note: Label it.", "second source"]


def test_a_caution_opens_its_reason_by_key_and_by_click(session, qtbot):
    view = CautionsView(session, (STOP,))
    qtbot.addWidget(view)
    view.show()
    row = view.findChildren(CautionRow)[0]
    with qtbot.waitSignal(session.caution_asked) as caught:
        qtbot.keyClick(row, Qt.Key.Key_Return)
    assert caught.args == [STOP]
    with qtbot.waitSignal(session.caution_asked):
        qtbot.mouseClick(row, Qt.MouseButton.LeftButton)


WARN, HINT = Caution("warn", "Take care", "second source"), Caution("note", "One more thing", "third source")


def said_in(row):
    return [text for text in texts(row) if text]


def in_view(view):
    return [row.caution for row in view.rows if row.isVisible()]


def test_every_stop_stands_in_full_and_the_rest_is_counted_on_one_line(session, qtbot):
    stops = [Caution("stop", f"Do not {n}", "a source") for n in range(4)]
    warnings = [Caution("warn", f"Take care {n}", "a source", short=f"Care {n}", moment="now") for n in range(9)]
    view = CautionsView(session, (*warnings, *stops, NOTE))
    qtbot.addWidget(view)
    view.show()
    assert in_view(view) == [*stops, warnings[0]]
    assert said_in(view.rows[4]) == ["Caution: Take care 0"]
    assert texts(view.fold) == ["▸ 9 more cautions"]
    view.set_cautions((*warnings, *stops, NOTE), 3)
    assert in_view(view) == [*stops, *warnings[:3]]
    assert said_in(view.rows[4]) == ["Caution: Care 0"]
    assert texts(view.fold) == ["▸ 7 more cautions"]
    later = Caution("warn", "Take care of the jar", "a source", short="Care of the jar", moment="always")
    view.set_cautions((*stops, later), 1)
    assert said_in(view.rows[4]) == ["Caution: Care of the jar"], "what is not of this moment, in a few words"
    view.turn()
    assert said_in(view.rows[4]) == ["Caution: Take care of the jar", "a source"]
    view.turn()
    view.set_cautions(())
    assert not view.isVisible()


def test_a_key_shows_every_caution_and_the_reason_of_the_gravest(session, qtbot):
    page = QWidget()
    view = CautionsView(session, (NOTE, STOP, HINT, WARN))
    column(page).addWidget(view)
    qtbot.addWidget(page)
    page.show()
    asked = []
    session.caution_asked.connect(asked.append)
    assert open_reason_in(page)
    assert in_view(view) == [STOP, WARN, NOTE, HINT]
    assert asked == [STOP]


def test_enter_on_the_line_goes_to_the_first_caution_that_came_and_enter_folds_it_again(session, qtbot):
    view = CautionsView(session, (STOP, NOTE, HINT))
    qtbot.addWidget(view)
    view.show()
    view.activateWindow()
    view.fold.setFocus()
    qtbot.waitUntil(view.fold.hasFocus)
    qtbot.keyClick(view.fold, Qt.Key.Key_Return)
    assert view.focusWidget() is view.rows[1]
    assert view.fold.accessibleName() == "Show fewer cautions"
    qtbot.keyClick(view.fold, Qt.Key.Key_Space)
    assert in_view(view) == [STOP]


def test_tab_goes_through_the_cautions_to_the_line_below_them(session, qtbot):
    view = CautionsView(session, (STOP, WARN, NOTE, HINT))
    qtbot.addWidget(view)
    view.show()
    view.activateWindow()
    view.turn()
    view.rows[0].setFocus()
    qtbot.waitUntil(view.rows[0].hasFocus)
    for stop in (*view.rows[1:], view.fold):
        qtbot.keyClick(QApplication.focusWidget(), Qt.Key.Key_Tab)
        assert stop.hasFocus()


def test_what_scrolls_with_cautions_in_it_outlives_a_collection(session, qtbot):
    """Nothing of Python's holds the area itself, as in a form; the cautions come first in it, and come late."""
    form, page, view = QWidget(), QWidget(), CautionsView(session)
    qtbot.addWidget(form)
    column(page).addWidget(view)
    column(form).addWidget(scrolling(page))
    form.show()
    view.set_cautions((STOP, NOTE))
    qtbot.wait(1)
    gc.collect()
    assert isValid(page)
    assert isValid(view)
    assert in_view(view) == [STOP]


@pytest.mark.parametrize("what", ["row", "fold", "figure"])
def test_a_screen_reader_meets_a_button_and_can_press_it(session, qtbot, shown, what):
    view = CautionsView(session, (STOP, NOTE))
    qtbot.addWidget(view)
    view.show()
    widget = {"row": view.rows[0], "fold": view.fold, "figure": shown}[what]
    told = QAccessible.queryAccessibleInterface(widget)
    assert told.role() == QAccessible.Role.Button
    assert told.text(QAccessible.Text.Name) == widget.accessibleName() != ""
    with qtbot.waitSignal(widget.clicked):
        told.actionInterface().doAction("Press")


def test_cautions_keep_their_words_when_the_look_changes(session, qtbot):
    view = CautionsView(session, (STOP, NOTE))
    qtbot.addWidget(view)
    view.show()
    session.theme.choose("dark")
    assert view.cautions == (STOP, NOTE)
    assert in_view(view) == [STOP]
    session.theme.choose("light")


def test_a_standing_is_a_word_and_a_sentence_said_once(theme, qtbot):
    line = StatusLine(theme, "dry enough", "Dry enough by weight: 9 % moisture, target 10 %.")
    qtbot.addWidget(line)
    line.show()
    assert [t for t in texts(line) if t] == ["Dry enough by weight", "9 % moisture, target 10 %."]
    line.say("keeping", "It keeps until May.")
    assert [t for t in texts(line) if t] == ["Keeping", "It keeps until May."]
    line.say("")
    assert not line.isVisible()


def test_an_empty_state_says_what_to_do_next(theme, qtbot):
    done = []
    pack = ("Pack one", lambda: done.append(1))
    state = EmptyState(theme, "shelf", "Nothing on the shelf yet", "Pack a batch.", pack)
    qtbot.addWidget(state)
    state.show()
    qtbot.mouseClick(state.buttons[0], Qt.MouseButton.LeftButton)
    assert done == [1]


def test_what_failed_stays_until_it_is_closed(session, qtbot):
    bar = MessageBar(session)
    qtbot.addWidget(bar)
    session.messages.post(Message("world", "The disk is full."))
    assert not bar._timer.isActive()
    session.messages.post(Message("done", "Saved.", undo=True))
    assert bar._timer.isActive()
    bar.close_button.click()
    assert bar.isHidden()


def test_details_of_a_fault_can_be_copied(session, qtbot, qapp):
    bar = MessageBar(session)
    qtbot.addWidget(bar)
    session.messages.post(Message("fault", "Something went wrong.", details="line 3"))
    bar.copy.click()
    assert "line 3" in qapp.clipboard().text()


def test_the_history_of_messages_is_bounded(session):
    for i in range(150):
        session.say(str(i))
    assert len(session.messages.history) == 100
    assert session.messages.latest.text == "149"


def test_words_are_never_read_as_markup(qtbot):
    label = text_label("<b>5 < 6</b>")
    qtbot.addWidget(label)
    assert label.textFormat() == Qt.TextFormat.PlainText


def test_a_card_says_every_kind_and_number_of_a_basis_and_cuts_only_the_source(session, qtbot):
    source = "National database of nutrients in food, release 28, entry 11167; the mean of 103 samples"
    bases = (Basis("own", "batches of this food in any form and with any pretreatment at all", 12),
             Basis("handbook", source))  # fmt: skip
    view = FigureView(session, "Yield", Figure(0.2, "", basis=bases, workings=(step(StepKind.NO_SPREAD),)))
    qtbot.addWidget(view)
    said = view._basis.text().replace("\u00a0", " ")
    assert "your 12 records (batches" in said
    assert "handbook: National" in said
    assert "…" in said
    assert source in view.toolTip()
    assert source in view.accessibleName()


@pytest.mark.parametrize(
    ("between", "said"),
    [
        ("4 cups to 5½ cups", "4 to 5½ cups"),
        ("7.9 % to 20 %", "7.9 to 20 %"),
        ("1 cup to 1⅓ cups", "1 to 1⅓ cups"),
        ("1 lb 13 oz to 2 lb 1 oz", "1 lb 13 oz to 2 lb 1 oz"),
        ("14 oz to 1 lb", "14 oz to 1 lb"),
    ],
)
def test_an_interval_names_its_unit_once_where_both_ends_have_it(between, said):
    assert in_one_unit(between) == said
