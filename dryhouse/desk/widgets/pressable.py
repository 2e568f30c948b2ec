"""A framed thing that opens something: by Enter, Space or a click, with the focus ring of things not buttons.

It is a button to a screen reader: its role is Button and its action is Press.
"""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import QColor, QFocusEvent, QKeyEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QAbstractButton, QSizePolicy, QStyle, QStyleOption, QWidget

from dryhouse.desk.session import Session


class Pressable(QAbstractButton):
    """Subclasses lay out what it holds and say in `press` what opens."""

    def __init__(self, session: Session) -> None:
        super().__init__()
        self.session = session
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Preferred)
        self.clicked.connect(lambda _checked=False: self.press())

    def press(self) -> None:
        """Enter, Space, a click, or the screen reader's Press."""
        raise TypeError(f"{type(self).__name__} opens nothing")

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.click()
            return
        super().keyPressEvent(event)

    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        self.update()

    def focusOutEvent(self, event: QFocusEvent) -> None:
        super().focusOutEvent(event)
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        frame = QStyleOption()
        frame.initFrom(self)
        painter = QPainter(self)
        self.style().drawPrimitive(QStyle.PrimitiveElement.PE_Widget, frame, painter, self)
        painter.end()
        if self.hasFocus():
            draw_focus(self, self.session.theme.tokens.accent, self.session.theme.tokens.radius)


def draw_focus(widget: QWidget, colour: str, radius: int) -> None:
    """The focus ring."""
    painter = QPainter(widget)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setPen(QPen(QColor(colour), 2))
    painter.drawRoundedRect(widget.rect().adjusted(1, 1, -2, -2), radius, radius)
    painter.end()
