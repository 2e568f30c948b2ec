"""The filter line speaks once the typing pauses."""

import pytest
from PySide6.QtCore import Qt

from dryhouse.desk.widgets.filter_bar import FilterBar


@pytest.fixture
def bar(qtbot):
    made = FilterBar("Find batches", "Find")
    qtbot.addWidget(made)
    made.show()
    return made


def test_a_burst_of_typing_is_one_question(bar, qtbot):
    asked = []
    bar.changed.connect(asked.append)
    qtbot.keyClicks(bar.edit, "corn")
    assert asked == []
    qtbot.waitUntil(lambda: asked == ["corn"], timeout=2000)


def test_enter_asks_at_once(bar, qtbot):
    qtbot.keyClicks(bar.edit, "corn")
    with qtbot.waitSignal(bar.changed, timeout=10) as caught:
        qtbot.keyClick(bar.edit, Qt.Key.Key_Return)
    assert caught.args == ["corn"]


def test_spaces_alone_ask_nothing(bar, qtbot):
    with qtbot.assertNotEmitted(bar.changed, wait=200):
        qtbot.keyClicks(bar.edit, "   ")


def test_escape_empties_and_down_leaves_for_the_list(bar, qtbot):
    qtbot.keyClicks(bar.edit, "corn")
    qtbot.keyClick(bar.edit, Qt.Key.Key_Escape)
    assert bar.text() == ""
    with qtbot.waitSignal(bar.down):
        qtbot.keyClick(bar.edit, Qt.Key.Key_Down)
