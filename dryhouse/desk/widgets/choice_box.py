"""A box to choose one of a few from. The wheel scrolls the page over it; it changes the choice only once chosen.
What is too long for it ends in three dots."""

from __future__ import annotations

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QPaintEvent, QWheelEvent
from PySide6.QtWidgets import QComboBox, QStyle, QStyleOptionComboBox, QStylePainter

_FRAME = 6
"""Pixels of the frame and its margins that Qt forgets beside the words of a box in a style sheet."""


class ChoiceBox(QComboBox):
    """Every box of the window is one of these."""

    def __init__(self) -> None:
        super().__init__()
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)

    def sizeHint(self) -> QSize:
        return super().sizeHint() + QSize(_FRAME, 0)

    def paintEvent(self, _event: QPaintEvent) -> None:
        drawn, pen = self.drawn(), QStylePainter(self)
        pen.drawComplexControl(QStyle.ComplexControl.CC_ComboBox, drawn)
        if not self.isEditable():
            pen.drawControl(QStyle.ControlElement.CE_ComboBoxLabel, drawn)

    def drawn(self) -> QStyleOptionComboBox:
        """What is drawn: the choice as far as there is room for it."""
        drawn = QStyleOptionComboBox()
        self.initStyleOption(drawn)
        part = QStyle.SubControl.SC_ComboBoxEditField
        room = self.style().subControlRect(QStyle.ComplexControl.CC_ComboBox, drawn, part, self).width()
        dots = Qt.TextElideMode.ElideRight
        drawn.currentText = self.fontMetrics().elidedText(drawn.currentText, dots, room)
        return drawn

    def wheelEvent(self, event: QWheelEvent) -> None:
        if self.hasFocus():
            super().wheelEvent(event)
        else:
            event.ignore()
