"""Buttons work from the keyboard."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt

from dryhouse.desk.widgets.basics import button


@pytest.mark.parametrize("key", [Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Space])
def test_a_button_is_pressed_by_enter_as_by_space(qtbot, key):
    pressed: list[str] = []
    made = button("Save", lambda: pressed.append("once"))
    qtbot.addWidget(made)
    qtbot.keyClick(made, key)
    assert pressed == ["once"]
