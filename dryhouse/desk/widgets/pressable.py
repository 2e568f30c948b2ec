"""A framed thing that opens something: by Enter, Space or a click, with the focus ring of things not buttons."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import QColor, QFocusEvent, QKeyEvent, QMouseEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QFrame, QWidget

from dryhouse.desk.session import Session


class Pressable(QFrame):
    """Subclasses say in `press` what opens."""

    def __init__(self, session: Session) -> None:
        super().__init__()
        self.session = session
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)

    def press(self) -> None:
        """Enter, Space or a click."""
        raise TypeError(f"{type(self).__name__} opens nothing")

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Space):
            self.press()
            return
        super().keyPressEvent(event)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        if event.button() == Qt.MouseButton.LeftButton and self.rect().contains(event.position().toPoint()):
            self.press()
        super().mouseReleaseEvent(event)

    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        self.update()

    def focusOutEvent(self, event: QFocusEvent) -> None:
        super().focusOutEvent(event)
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        super().paintEvent(event)
        if self.hasFocus():
            draw_focus(self, self.session.theme.tokens.accent, self.session.theme.tokens.radius)


def draw_focus(widget: QWidget, colour: str, radius: int) -> None:
    """The focus ring."""
    painter = QPainter(widget)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setPen(QPen(QColor(colour), 2))
    painter.drawRoundedRect(widget.rect().adjusted(1, 1, -2, -2), radius, radius)
    painter.end()
