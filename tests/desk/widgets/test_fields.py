"""Entries: understood while typed, red only once left and wrong."""

from datetime import UTC, datetime

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from PySide6.QtCore import Qt

from dryhouse.desk.widgets.fields import (
    ChoiceField,
    NumberField,
    QuantityField,
    TextField,
    mark_problem,
)
from dryhouse.desk.widgets.moment_field import MomentField
from dryhouse.kitchen.settings import set_preference
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Duration, Mass, Temperature, Volume
from dryhouse.words.messages import problem_sentence


@pytest.fixture
def weight(session, qtbot):
    made = QuantityField(session, "Dried weight", Mass, name="dried")
    qtbot.addWidget(made)
    made.show()
    return made


def is_red(field):
    return field.edit.property("wrong") == "true"


def leave(field):
    field.edit.setFocus()
    field.edit.clearFocus()


def test_a_weight_is_understood_as_it_is_typed(weight, qtbot):
    seen = []
    weight.changed.connect(lambda: seen.append(weight.value() and round(weight.value().si)))
    qtbot.keyClicks(weight.edit, "2 lb 3 oz")
    assert seen[-1] == 992
    assert weight.value().typed == "2 lb 3 oz"


def test_nothing_turns_red_while_it_is_being_typed(weight, qtbot):
    weight.edit.setFocus()
    qtbot.keyClicks(weight.edit, "2 l")
    assert weight.problem is not None
    assert not is_red(weight)


def test_a_wrong_entry_says_what_would_be_right_once_it_is_left(weight, qtbot):
    qtbot.keyClicks(weight.edit, "2 cups")
    leave(weight)
    assert is_red(weight)
    assert "2 lb 3 oz" in weight.sentence.text()
    weight.edit.clear()
    assert not is_red(weight)
    assert weight.sentence.text() == ""


def test_what_turned_right_is_no_longer_red(weight, qtbot):
    qtbot.keyClicks(weight.edit, "2 x")
    leave(weight)
    assert is_red(weight)
    weight.edit.setText("2 oz")
    assert not is_red(weight)


def test_a_bare_number_is_in_the_persons_own_unit(weight, session):
    weight.edit.setText("9")
    assert weight.value().si == pytest.approx(255.1457)
    assert weight.sentence.text() == "= 9 oz"
    session.act(set_preference, "units", "metric")
    weight.edit.setText("9 ")
    assert weight.value().si == pytest.approx(9.0)


def test_a_decimal_comma_is_read_where_she_writes_one(weight, session):
    session.act(set_preference, "units", "metric")
    session.act(set_preference, "decimal_comma", "yes")
    weight.edit.setText("1,5 kg")
    assert weight.value().si == pytest.approx(1500)


def test_a_stored_value_comes_back_as_typed(weight):
    weight.set_value(Mass(992.2333, "2 lb 3 oz"))
    assert weight.text() == "2 lb 3 oz"
    weight.set_value(Mass(283.495))
    assert weight.text() == "10 oz"
    weight.set_value(None)
    assert weight.is_empty()


def test_a_required_entry_says_so_only_when_asked(weight):
    assert weight.problem is None
    assert not weight.require("How much did it weigh dried?")
    assert is_red(weight)
    assert "dried" in weight.sentence.text()


def test_enter_is_announced(weight, qtbot):
    with qtbot.waitSignal(weight.accepted):
        qtbot.keyClick(weight.edit, Qt.Key.Key_Return)


@pytest.mark.parametrize(
    ("kind", "text", "si"),
    [(Volume, "1½ c", 354.88), (Duration, "8h30", 30600), (Duration, "8.5", 30600), (Temperature, "135", 57.22)],
)
def test_other_kinds_are_read_too(session, qtbot, kind, text, si):
    field = QuantityField(session, "x", kind)
    qtbot.addWidget(field)
    field.edit.setText(text)
    assert field.value().si == pytest.approx(si, rel=1e-3)


def test_a_percentage_outside_its_bounds_is_wrong(session, qtbot):
    field = NumberField(session, "Moisture", percent=True, what="moisture")
    qtbot.addWidget(field)
    field.edit.setText("140")
    assert field.value() is None
    field.edit.setText("14 %")
    assert field.value() == 14


def test_trays_are_counted_whole(session, qtbot):
    field = NumberField(session, "Trays", whole=True, what="number of trays")
    qtbot.addWidget(field)
    field.edit.setText("4.5")
    assert "whole" in problem_sentence(field.problem)
    field.edit.setText("4")
    assert field.value() == 4


def test_a_moment_is_read_on_her_own_clock(session, qtbot):
    field = MomentField(session, "Started", name="start")
    qtbot.addWidget(field)
    field.edit.setText("yesterday 18:00")
    assert field.value() == datetime(2026, 11, 24, 18, 0, tzinfo=UTC)
    assert field.sentence.text() == "Tue 24 Nov 2026, 18:00"
    field.set_value(field.value())
    assert field.text() == "2026-11-24 18:00"
    field.edit.setText("some time")
    assert field.problem.field == "start"


def test_a_choice_keeps_what_is_still_offered(session, qtbot):
    field = ChoiceField(session, "Dryer", [(1, "shelf"), (2, "box")])
    qtbot.addWidget(field)
    field.set_value(2)
    field.set_choices([(2, "box"), (3, "other")])
    assert field.value() == 2
    field.set_value(99)
    assert field.value() == 2


def test_an_editable_choice_takes_other_words(session, qtbot):
    field = ChoiceField(session, "Package", [("jar", "jar"), ("bag", "bag")], editable=True)
    qtbot.addWidget(field)
    field.set_value("crock")
    assert field.value() == "crock"
    field.set_value("bag")
    assert field.value() == "bag"


def test_a_refusal_is_shown_at_the_entry_it_names(weight, session, qtbot):
    other = TextField(session, "Name", name="name")
    qtbot.addWidget(other)
    assert mark_problem(InputProblem("Too heavy.", "dried"), (other, weight))
    assert weight.sentence.text() == "Too heavy."
    assert not mark_problem(InputProblem("Hm.", ""), (other, weight))


@settings(max_examples=60, suppress_health_check=[HealthCheck.function_scoped_fixture], deadline=None)
@given(text=st.text(max_size=20))
def test_no_text_at_all_breaks_an_entry(weight, text):
    weight.edit.setText(text)
    assert (weight.value() is None) or weight.value().si > 0


def test_control_z_goes_to_the_window_where_there_is_no_typing_to_take_back(weight, session, qtbot):
    from PySide6.QtGui import QKeySequence, QShortcut

    undone = []
    key = QShortcut(QKeySequence.StandardKey.Undo, weight, lambda: undone.append(1))
    weight.edit.setFocus()
    qtbot.waitUntil(weight.edit.hasFocus)
    qtbot.keyClick(weight.edit, Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    assert undone == [1]
    qtbot.keyClicks(weight.edit, "9")
    qtbot.keyClick(weight.edit, Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    assert undone == [1]
    assert weight.text() == ""
    key.deleteLater()


@pytest.mark.parametrize(
    ("kind", "hint", "us", "metric"),
    [
        (Mass, "such as 2 lb 3 oz", "such as 2 lb 3 oz", "such as 1 kg"),
        (Mass, "such as 250 g", "such as 8.8 oz", "such as 250 g"),
        (Volume, "1 1/2 cups", "1 1/2 cups", "400 ml"),
        (Temperature, "such as 60 F", "such as 60 F", "such as 16 °C"),
        (Temperature, "135 F, or 57 C", "135 F, or 57 C", "135 F, or 57 C"),
    ],
)
def test_the_example_in_an_empty_entry_is_in_her_units(session, qtbot, kind, hint, us, metric):
    field = QuantityField(session, "Weight", kind, hint=hint)
    qtbot.addWidget(field)
    assert field.edit.placeholderText().replace("\u00a0", " ") == us
    session.act(set_preference, "units", "metric")
    assert field.edit.placeholderText().replace("\u00a0", " ") == metric
    field.set_hint("as last")
    session.act(set_preference, "units", "us")
    assert field.edit.placeholderText() == "as last"
