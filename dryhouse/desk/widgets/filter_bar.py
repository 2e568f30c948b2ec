"""A line to type into that narrows a list; it speaks once the typing pauses."""

from __future__ import annotations

from PySide6.QtCore import Qt, QTimer, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QLineEdit, QWidget

from dryhouse.desk.measures import hold
from dryhouse.desk.widgets.wrapping import Wrapping

PAUSE_MS = 70


class _Line(QLineEdit):
    """Esc empties the line, Down leaves it for the list."""

    down = Signal()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape and self.text():
            self.clear()
        elif event.key() == Qt.Key.Key_Down:
            self.down.emit()
        else:
            super().keyPressEvent(event)


class FilterBar(QWidget):
    """`changed` gives the text, trimmed, once typing has paused. Further widgets stand to its right. `example`
    stands in the empty line; `by` says what may be typed, to who points at it or listens."""

    changed = Signal(str)
    down = Signal()

    def __init__(self, name: str, example: str, *beside: QWidget, by: str = "") -> None:
        super().__init__()
        self.edit = _Line()
        self.edit.setAccessibleName(name)
        self.edit.setPlaceholderText(f"Find: {example}" if by else example)
        if by:
            self.edit.setToolTip(f"Find by {by}  (Ctrl+F)")
            self.edit.setAccessibleDescription(f"By {by}")
        self.edit.setClearButtonEnabled(True)
        self._told = ""
        self._pause = QTimer(self, singleShot=True, interval=PAUSE_MS)
        self._pause.timeout.connect(self.tell)
        hold(self.edit, least_wide=190)
        self.setLayout(Wrapping(self.edit, *beside))
        self.setFocusProxy(self.edit)
        self.edit.textChanged.connect(lambda _text: self._pause.start())
        self.edit.returnPressed.connect(self.tell)
        self.edit.down.connect(self.down)

    def text(self) -> str:
        """What stands in the line."""
        return self.edit.text().strip()

    def tell(self) -> None:
        """Say now what stands there."""
        self._pause.stop()
        if self.text() != self._told:
            self._told = self.text()
            self.changed.emit(self._told)
