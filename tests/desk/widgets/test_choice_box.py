"""The wheel scrolls the page; it never changes a choice that was not chosen first."""

import ast
from pathlib import Path

import pytest
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtGui import QWheelEvent
from PySide6.QtWidgets import QApplication, QVBoxLayout, QWidget

from dryhouse.desk.widgets.choice_box import ChoiceBox

DESK = Path(__file__).parents[3] / "dryhouse" / "desk"


def turn(widget) -> QWheelEvent:
    middle = QPointF(widget.rect().center())
    event = QWheelEvent(
        middle,
        QPointF(widget.mapToGlobal(middle.toPoint())),
        QPoint(),
        QPoint(0, -120),
        Qt.MouseButton.NoButton,
        Qt.KeyboardModifier.NoModifier,
        Qt.ScrollPhase.NoScrollPhase,
        False,
    )
    QApplication.sendEvent(widget, event)
    return event


@pytest.fixture
def boxes(theme, qtbot):
    page = QWidget()
    inside = QVBoxLayout(page)
    made = [ChoiceBox(), ChoiceBox()]
    for box in made:
        box.addItems(["any lot", "lot 1", "lot 2"])
        inside.addWidget(box)
    qtbot.addWidget(page)
    page.show()
    qtbot.waitExposed(page)
    page.activateWindow()
    made[0].setFocus()
    qtbot.waitUntil(made[0].hasFocus)
    yield made
    page.close()


def test_the_wheel_over_a_box_that_was_not_chosen_changes_nothing_and_scrolls_the_page(boxes):
    event = turn(boxes[1])
    assert boxes[1].currentIndex() == 0
    assert not event.isAccepted()


def test_the_wheel_changes_the_box_that_has_the_keyboard(boxes):
    turn(boxes[0])
    assert boxes[0].currentIndex() == 1


def test_hovering_and_turning_never_takes_the_keyboard(boxes):
    turn(boxes[1])
    assert boxes[0].hasFocus()


def test_every_box_of_the_window_is_such_a_box():
    plain = [
        (path.name, node.lineno)
        for path in DESK.rglob("*.py")
        for node in ast.walk(ast.parse(path.read_text()))
        if isinstance(node, ast.Call)
        and isinstance(node.func, ast.Name)
        and node.func.id in ("QComboBox", "QSpinBox", "QDoubleSpinBox", "QDateEdit", "QTimeEdit", "QSlider")
    ]
    assert plain == []


def test_what_is_too_long_for_a_box_ends_in_three_dots(boxes):
    boxes[0].addItem("apple, batch 1, 265 g to pack, dried 26 Nov 2026, and sliced")
    boxes[0].setCurrentIndex(3)
    boxes[0].resize(160, boxes[0].height())
    assert boxes[0].drawn().currentText.startswith("apple, ba")
    assert boxes[0].drawn().currentText.endswith("…")
    boxes[0].resize(900, boxes[0].height())
    assert boxes[0].drawn().currentText == boxes[0].currentText()
