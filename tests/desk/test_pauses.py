"""What can wait is done in a pause of the typing, once."""

from __future__ import annotations

from time import monotonic

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLineEdit

from dryhouse.desk.pauses import InAPause


def test_it_waits_while_keys_are_pressed_and_is_then_done_once(qtbot) -> None:
    line = QLineEdit()
    qtbot.addWidget(line)
    done: list[tuple[float, list[int]]] = []
    pause = InAPause(line, lambda came: done.append((monotonic(), came)), 0.3)
    last = monotonic()
    for number in range(8):
        pause.want(number)
        qtbot.keyClick(line, Qt.Key.Key_A)
        last = monotonic()
        qtbot.wait(100)
    assert done == []
    qtbot.waitUntil(lambda: bool(done))
    assert done[0][0] - last >= 0.29
    assert done[0][1] == list(range(8))
    qtbot.wait(400)
    assert len(done) == 1
    pause.want(8)
    qtbot.waitUntil(lambda: len(done) == 2)
    assert done[1][1] == [8]
