"""Measuring every label, button, choice and example of an entry against its text, as it stands in the window."""

from __future__ import annotations

from PySide6.QtCore import QRect, Qt
from PySide6.QtWidgets import (
    QAbstractButton,
    QComboBox,
    QLabel,
    QLineEdit,
    QStyle,
    QStyleOptionComboBox,
    QStyleOptionFrame,
    QToolButton,
    QWidget,
)

from dryhouse.desk.widgets.pressable import Pressable

SLACK = 1


def cut(page: QWidget, *, sideways: bool = False) -> list[str]:
    """What is shown smaller than its text needs, or hangs over the edge of what it stands in. A page that is
    scrolled `sideways` may have what is not in view."""
    found = []
    for label in page.findChildren(QLabel):
        if label.isVisible() and label.text() and too_small(label):
            found.append(f"label {label.text()!r} {label.size().toTuple()}")
    for button in page.findChildren(QAbstractButton):
        if button.isVisible() and button.text() and button.text().strip():
            pictured = isinstance(button, QToolButton) and button.toolButtonStyle() == (
                Qt.ToolButtonStyle.ToolButtonIconOnly
            )
            if not pictured and text_width(button) > button.width() + SLACK:
                found.append(f"button {button.text()!r} {button.width()} < {text_width(button)}")
    for box in page.findChildren(QComboBox):
        if box.isVisible() and not box.isEditable() and chosen_width(box) > box_width(box) + SLACK:
            found.append(f"choice {box.currentText()!r} {box_width(box)} < {chosen_width(box)}")
    for edit in page.findChildren(QLineEdit):
        if edit.isVisible() and edit.fontMetrics().horizontalAdvance(edit.placeholderText()) > line_width(edit):
            found.append(f"example {edit.placeholderText()!r} {line_width(edit)}")
    for widget in () if sideways else (*page.findChildren(QLabel), *page.findChildren(QAbstractButton)):
        if widget.isVisible() and hangs_over(widget):
            said = widget.text() or (widget.accessibleName() if isinstance(widget, Pressable) else "")
            if said:
                found.append(f"over the edge: {said!r}")
    return found


def text_width(button: QAbstractButton) -> int:
    return button.fontMetrics().horizontalAdvance(button.text().replace("&", "")) + (
        button.iconSize().width() if not button.icon().isNull() else 0
    )


def chosen_width(box: QComboBox) -> int:
    return box.fontMetrics().horizontalAdvance(box.currentText())


def box_width(box: QComboBox) -> int:
    """The room for the text of what is chosen."""
    option = QStyleOptionComboBox()
    box.initStyleOption(option)
    style, control = QStyle.ComplexControl.CC_ComboBox, QStyle.SubControl.SC_ComboBoxEditField
    return box.style().subControlRect(style, option, control, box).width()


def line_width(edit: QLineEdit) -> int:
    """The room for what is typed, or for the example in its place."""
    option = QStyleOptionFrame()
    edit.initStyleOption(option)
    return edit.style().subElementRect(QStyle.SubElement.SE_LineEditContents, option, edit).width()


def too_small(label: QLabel) -> bool:
    if label.pixmap() and not label.pixmap().isNull():
        return False
    inside = label.contentsRect()
    if label.wordWrap():
        needed = label.fontMetrics().boundingRect(
            QRect(0, 0, inside.width(), 10_000), int(Qt.TextFlag.TextWordWrap), label.text()
        )
        return needed.height() > inside.height() + SLACK or needed.width() > inside.width() + SLACK
    wide = max(label.fontMetrics().horizontalAdvance(line) for line in label.text().splitlines())
    return wide > inside.width() + SLACK or label.fontMetrics().height() > inside.height() + SLACK + 2


def hangs_over(widget: QWidget) -> bool:
    """Whether it is cut at a side by what it stands in. Up and down it can be scrolled into view."""
    seen = widget.visibleRegion().boundingRect()
    return bool(seen.height()) and seen.width() < widget.width() - SLACK
