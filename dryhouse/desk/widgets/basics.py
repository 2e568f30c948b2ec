"""The smallest pieces: words, buttons, cards, columns of things that scroll."""

from __future__ import annotations

from collections.abc import Callable
from itertools import pairwise
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent, QKeySequence, QShortcut
from PySide6.QtWidgets import (
    QBoxLayout,
    QFrame,
    QHBoxLayout,
    QLabel,
    QLayout,
    QPushButton,
    QScrollArea,
    QSizePolicy,
    QSplitter,
    QVBoxLayout,
    QWidget,
)

from dryhouse.desk.theme import set_role


def words(text: str, role: str = "", *, wrap: bool = True, select: bool = False) -> QLabel:
    """A text in one of the theme's roles, always shown as plain text."""
    label = QLabel(text)
    label.setTextFormat(Qt.TextFormat.PlainText)
    label.setWordWrap(wrap)
    if role:
        set_role(label, role)
    if select:
        label.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
    return label


class Button(QPushButton):
    """A push button that Enter presses too, not Space alone."""

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.click()
            return
        super().keyPressEvent(event)


def button(text: str, act: Callable[[], Any], role: str = "", *, name: str = "", hint: str = "") -> QPushButton:
    """A button of full touch height. `name` is what a screen reader says, where the text is not enough."""
    made = Button(text)
    made.setAutoDefault(False)
    if role:
        set_role(made, role)
    if name:
        made.setAccessibleName(name)
    if hint:
        made.setToolTip(hint)
    made.clicked.connect(lambda _checked=False: act())
    return made


def card() -> tuple[QFrame, QVBoxLayout]:
    """A framed card and the column inside it."""
    frame = QFrame()
    set_role(frame, "card")
    column = QVBoxLayout(frame)
    column.setContentsMargins(16, 12, 16, 12)
    column.setSpacing(8)
    return frame, column


def column(parent: QWidget | None = None, *, margin: int = 0, space: int = 8) -> QVBoxLayout:
    """A column, on the parent where one is given."""
    made = QVBoxLayout(parent) if parent is not None else QVBoxLayout()
    made.setContentsMargins(margin, margin, margin, margin)
    made.setSpacing(space)
    return made


def row(*things: QWidget | QLayout | int, space: int = 8) -> QHBoxLayout:
    """Things side by side; a number is a stretch."""
    made = QHBoxLayout()
    made.setContentsMargins(0, 0, 0, 0)
    made.setSpacing(space)
    fill(made, *things)
    return made


def fill(layout: QBoxLayout, *things: QWidget | QLayout | int) -> None:
    """Add things to a row or a column; a number is a stretch."""
    for thing in things:
        if isinstance(thing, int):
            layout.addStretch(thing)
        elif isinstance(thing, QLayout):
            layout.addLayout(thing)
        else:
            layout.addWidget(thing)


def empty(layout: QLayout) -> None:
    """Take everything out of a layout, at once and for good."""
    while (item := layout.takeAt(0)) is not None:
        if (widget := item.widget()) is not None:
            widget.hide()
            widget.setParent(None)
            widget.deleteLater()
        elif (inner := item.layout()) is not None:
            empty(inner)


def show_all(layout: QLayout) -> None:
    """Show at once what was put into a layout: it counts in the height of a page that is shown only later."""
    for place in range(layout.count()):
        item = layout.itemAt(place)
        inner, widget = (item.layout(), item.widget()) if item is not None else (None, None)
        if inner is not None:
            show_all(inner)
        elif widget is not None and widget.parentWidget() is not None:
            widget.show()


def scrolling(inside: QWidget) -> QScrollArea:
    """The widget in an area that scrolls up and down and never sideways."""
    area = QScrollArea()
    area.setWidgetResizable(True)
    area.setFrameShape(QFrame.Shape.NoFrame)
    area.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
    area.setFocusPolicy(Qt.FocusPolicy.NoFocus)
    set_role(inside, "page")
    area.setWidget(inside)
    inside.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)
    return area


def side_by_side(left: QWidget, right: QWidget, *, sizes: tuple[int, int], gap: int = 20) -> QSplitter:
    """Two things beside each other, with a handle between them that neither can be pushed away with."""
    both = QSplitter()
    both.setChildrenCollapsible(False)
    both.setHandleWidth(gap)
    both.addWidget(left)
    both.addWidget(right)
    both.setSizes(list(sizes))
    return both


def hairline() -> QFrame:
    """A thin line between two things."""
    line = QFrame()
    line.setFrameShape(QFrame.Shape.HLine)
    line.setFixedHeight(1)
    return line


def tab_through(first: QWidget, *after: QWidget) -> None:
    """Let Tab go through these in this order: for what was made after what follows it on the page."""
    for before, then in pairwise((first, *after)):
        QWidget.setTabOrder(before.focusProxy() or before, then.focusProxy() or then)


def stop_before(widget: QWidget) -> QWidget:
    """Where Shift+Tab goes from here."""
    before = widget.previousInFocusChain()
    while before is not None and before is not widget and not before.focusPolicy() & Qt.FocusPolicy.TabFocus:
        before = before.previousInFocusChain()
    return before or widget


def calling(act: Callable[..., Any], *args: Any) -> Callable[[], Any]:
    """The act with these arguments, for a signal whose own are of no use."""
    return lambda: act(*args)


def inner_key(widget: QWidget, keys: str, act: Callable[[], Any]) -> QShortcut:
    """A key that works while the keyboard is inside this widget, and nowhere else in the window.

    The context is set afterwards: given to the constructor beside a callable it is not heeded.
    """
    made = QShortcut(QKeySequence(keys), widget)
    made.setContext(Qt.ShortcutContext.WidgetWithChildrenShortcut)
    made.activated.connect(lambda: act())
    return made
