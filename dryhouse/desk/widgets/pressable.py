"""A framed thing that opens something: by Enter, Space or a click, with the focus ring of things not buttons.

It is a button to a screen reader: its role is Button and its action is Press.
"""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import (
    QColor,
    QContextMenuEvent,
    QFocusEvent,
    QGuiApplication,
    QKeyEvent,
    QPainter,
    QPaintEvent,
    QPen,
)
from PySide6.QtWidgets import QAbstractButton, QMenu, QSizePolicy, QStyle, QStyleOption, QWidget

from dryhouse.desk.session import Session


class Pressable(QAbstractButton):
    """Subclasses lay out what it holds and say in `press` what opens."""

    opens = "&Open"
    """What pressing it is called in its menu."""

    def __init__(self, session: Session) -> None:
        super().__init__()
        self.session = session
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Preferred)
        self.clicked.connect(lambda _checked=False: self.press())

    def press(self) -> None:
        """Enter, Space, a click, or the screen reader's Press."""
        raise TypeError(f"{type(self).__name__} opens nothing")

    def copy(self) -> None:
        """What it says, on the clipboard."""
        QGuiApplication.clipboard().setText(self.accessibleName())
        self.session.say("Copied.")

    def contextMenuEvent(self, event: QContextMenuEvent) -> None:
        menu = QMenu(self)
        menu.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        menu.addAction(self.opens, self.click)
        menu.addAction("&Copy\tCtrl+C", self.copy)
        menu.popup(event.globalPos())

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
