"""The smallest pieces: words, buttons, cards, columns of things that scroll."""

from __future__ import annotations

from collections.abc import Callable
from itertools import pairwise
from typing import Any

from PySide6.QtCore import QCoreApplication, QEvent, QObject, QSize, Qt, QTimer, Signal
from PySide6.QtGui import QHideEvent, QKeyEvent, QKeySequence, QResizeEvent, QShortcut, QShowEvent
from PySide6.QtWidgets import (
    QApplication,
    QBoxLayout,
    QFrame,
    QHBoxLayout,
    QLabel,
    QLayout,
    QPushButton,
    QScrollArea,
    QSizePolicy,
    QStackedLayout,
    QVBoxLayout,
    QWidget,
)

from dryhouse.desk.measures import scaled
from dryhouse.desk.theme import BAR, set_role

_BESIDE = 28
"""Pixels that are shown above and below what the keyboard is on: its label, and what is said of it."""

SEEN_HIGH = 190
"""Pixels, at our usual text, in which the answer about a chosen line, and a stop, can be read."""

_LOW = 72
"""Pixels, at our usual text, below which what scrolls is of no use."""


def text_label(text: str, role: str = "", *, wrap: bool = True, select: bool = False) -> QLabel:
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


class _Asks(QObject):
    """Hears that a page needs another size, so that it never stands squeezed in its area, not even for a moment."""

    def __init__(self, area: Scrolling) -> None:
        super().__init__(area)
        self._area = area

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() == QEvent.Type.LayoutRequest:
            self._area.measure()
            self._area.updateGeometry()
            QCoreApplication.sendEvent(self._area, QEvent(QEvent.Type.LayoutRequest))
            self._area.stay_once_moved()
        return False


class Scrolling(QScrollArea):
    """Scrolls up and down and never sideways: it is never narrower than what it holds. Where the keyboard goes
    inside it is always in view, and stays where it stands when something above it appears or goes.

    Where the page it stands on scrolls anyway it is `whole`: as high as what it holds, without a bar of its own.
    One whose buttons stand below it `keeps` its bar, so that they stay in view.
    """

    def __init__(self, inside: QWidget, *, keeps: bool = False, least: int = _LOW) -> None:
        super().__init__()
        self._inside, self.keeps, self._least, self._whole = inside, keeps, least, False
        self._typing: tuple[QWidget, int] | None = None
        """Where the keyboard is, and how far down the page that stands."""
        self._watch = _Asks(self)
        self.setWidget(inside)
        inside.installEventFilter(self._watch)
        self._settled = QTimer(self, singleShot=True, interval=0)
        self._settled.timeout.connect(self._show_focus)
        self._moved = QTimer(self, singleShot=True, interval=0)
        self._moved.timeout.connect(self.stay)
        app = QApplication.instance()
        if isinstance(app, QApplication):
            app.focusChanged.connect(self._note_focus)

    def minimumSizeHint(self) -> QSize:
        inside = self._inside.minimumSizeHint().expandedTo(self._inside.minimumSize())
        high = scaled(self._least)
        if self._whole and self.isVisible():
            wide, bends = self.width(), self._inside.hasHeightForWidth()
            usual = self._inside.heightForWidth(wide) if bends else self._inside.sizeHint().height()
            high = max(high, least_height(self._inside, wide), usual)
        return QSize(inside.width() + BAR, high)

    def be_whole(self, whole: bool) -> None:
        """As high as what it holds from now on, or again as high as there is room for."""
        if whole != self._whole and not self.keeps:
            self._whole = whole
            self.measure()
            bars = Qt.ScrollBarPolicy
            self.setVerticalScrollBarPolicy(bars.ScrollBarAlwaysOff if whole else bars.ScrollBarAsNeeded)
            self.updateGeometry()

    def measure(self) -> None:
        """Take what it holds as high as its words are at its width. Qt would take its least height, that is of
        words at their narrowest, and show a bar where none is due."""
        policy = QSizePolicy.Policy
        high = policy.Ignored if self._whole or self._inside.hasHeightForWidth() else policy.Minimum
        if self._inside.sizePolicy().verticalPolicy() != high:
            self._inside.setSizePolicy(policy.Preferred, high)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        if self._whole and event.size().width() != event.oldSize().width():
            self.updateGeometry()

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self.updateGeometry()

    def hideEvent(self, event: QHideEvent) -> None:
        super().hideEvent(event)
        if self._whole:
            self.updateGeometry()

    def _note_focus(self, _before: QWidget | None, now: QWidget | None) -> None:
        """The keyboard came here, not by a click: a page that moves under the pointer would lose it."""
        if now is not None and self._inside.isAncestorOf(now) and not QApplication.mouseButtons():
            self._settled.start()

    def _show_focus(self) -> None:
        here = QApplication.focusWidget()
        if here is None or not self._inside.isAncestorOf(here):
            return
        QCoreApplication.sendPostedEvents(None, QEvent.Type.LayoutRequest.value)
        if here.height() < self.viewport().height():
            self.ensureWidgetVisible(here, 0, _BESIDE)
        elif here.visibleRegion().isEmpty():
            top = here.mapTo(self._inside, here.rect().topLeft())
            self.ensureVisible(top.x(), top.y(), 0, _BESIDE)
        self._typing = (here, self._down(here))

    def stay_once_moved(self) -> None:
        """The page is laid out anew: where she types is looked after when that is done."""
        self._moved.start()

    def stay(self) -> None:
        """Scroll by as much as the entry she types in was pushed down or drawn up, if it was in view."""
        here = QApplication.focusWidget()
        if here is None or not self._inside.isAncestorOf(here):
            self._typing = None
            return
        before, self._typing = self._typing, (here, self._down(here))
        if before is not None and before[0] is here and self._typing[1] != before[1]:
            bar = self.verticalScrollBar()
            if 0 <= before[1] - bar.value() < self.viewport().height():
                bar.setValue(bar.value() + self._typing[1] - before[1])

    def _down(self, here: QWidget) -> int:
        return here.mapTo(self._inside, here.rect().topLeft()).y()


def scrolling(inside: QWidget, *, keeps: bool = False, least: int = _LOW) -> Scrolling:
    """The widget in an area that scrolls up and down and never sideways; it `keeps` its bar on every page, and is
    at least so many pixels high, at our usual text."""
    area = Scrolling(inside, keeps=keeps, least=least)
    area.setWidgetResizable(True)
    area.setFrameShape(QFrame.Shape.NoFrame)
    area.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
    area.setFocusPolicy(Qt.FocusPolicy.NoFocus)
    set_role(inside, "page")
    inside.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)
    return area


class _OnePage(QStackedLayout):
    """Asks for the room of the page in view; Qt's own asks for that of the largest."""

    def minimumSize(self) -> QSize:
        page = self.currentWidget()
        return page.minimumSizeHint().expandedTo(page.minimumSize()) if page is not None else QSize()

    def hasHeightForWidth(self) -> bool:
        page = self.currentWidget()
        return page is not None and page.hasHeightForWidth()

    def heightForWidth(self, width: int) -> int:
        page = self.currentWidget()
        return least_height(page, width) if page is not None else 0

    def minimumHeightForWidth(self, width: int) -> int:
        return self.heightForWidth(width)


class Pages(QWidget):
    """Pages of which one is shown. It needs the room of that one, not of the largest."""

    currentChanged = Signal(int)

    def __init__(self, *pages: QWidget) -> None:
        super().__init__()
        self._pages = _OnePage(self)
        self._pages.currentChanged.connect(self._changed)
        for page in pages:
            self.addWidget(page)

    def _changed(self, place: int) -> None:
        self.updateGeometry()
        self.currentChanged.emit(place)

    def addWidget(self, page: QWidget) -> None:
        """One more page; the first is shown."""
        self._pages.addWidget(page)

    def removeWidget(self, page: QWidget) -> None:
        """Take a page out; it is not let go."""
        self._pages.removeWidget(page)

    def currentWidget(self) -> QWidget | None:
        """The page in view."""
        return self._pages.currentWidget()

    def currentIndex(self) -> int:
        """Its place."""
        return self._pages.currentIndex()

    def setCurrentWidget(self, page: QWidget) -> None:
        """Show this page."""
        self._pages.setCurrentWidget(page)

    def setCurrentIndex(self, place: int) -> None:
        """Show the page at this place."""
        self._pages.setCurrentIndex(place)


def least_height(widget: QWidget, width: int) -> int:
    """The least height at which nothing of it is cut at this width."""
    inside = widget.layout()
    if inside is not None and inside.hasHeightForWidth():
        return inside.minimumHeightForWidth(width)
    return widget.minimumSizeHint().height()


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


def tab_before(widget: QWidget, *these: QWidget) -> None:
    """Let Tab come to these in this order, and then to the widget.

    Never by walking the focus chain: what `nextInFocusChain` and its like answer is taken by the binding for a
    child of the widget asked; an area that scrolls is then nobody's, and is collected with all that is in it.
    """
    tab_through(widget, *these, widget)


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
