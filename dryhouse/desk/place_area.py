"""The room beside the rail: the place in view, and the side sheet next to it, or over its edge."""

from __future__ import annotations

from PySide6.QtCore import QCoreApplication, QEvent, QObject, Qt, QTimer
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QApplication, QFrame, QScrollArea, QWidget

from dryhouse.desk.measures import scaled
from dryhouse.desk.widgets.basics import Pages

_SHEET_WIDTH = 380
_PLACE_AT_LEAST = 880
_BESIDE = 40
"""What is seen above and below where the keyboard is."""
_AFTER_ITS_OWN_PAGE_MS = 1
_NESTED = 4
"""Layouts in layouts that ask for room one after the other."""


class RoomFirst(QObject):
    """What asks for room gets it before the window is painted: nothing is seen squeezed, even for a moment."""

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() == QEvent.Type.UpdateRequest:
            for _level in range(_NESTED):
                QCoreApplication.sendPostedEvents(None, QEvent.Type.LayoutRequest.value)
        return super().eventFilter(watched, event)


class Room(QWidget):
    """Lays out the stack of places and the sheet. A place is never squeezed below what it needs: it scrolls, and
    where the keyboard goes comes into view."""

    def __init__(self) -> None:
        super().__init__()
        self.stack = Pages()
        self.stack.setAccessibleName("Place")
        self.area = QScrollArea(self)
        self.area.setWidgetResizable(True)
        self.area.setFrameShape(QFrame.Shape.NoFrame)
        self.area.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.area.setWidget(self.stack)
        self.sheet: QWidget | None = None
        self.stack.currentChanged.connect(self._begin_at_the_top)
        self._settled = QTimer(self, singleShot=True, interval=_AFTER_ITS_OWN_PAGE_MS)
        self._settled.timeout.connect(self._show_focus)
        app = QApplication.instance()
        if isinstance(app, QApplication):
            app.focusChanged.connect(self._note_focus)

    def _note_focus(self, _before: QWidget | None, now: QWidget | None) -> None:
        """The keyboard came here, not by a click: a page that moves under the pointer would lose it."""
        if now is not None and self.stack.isAncestorOf(now) and not QApplication.mouseButtons():
            self._settled.start()

    def _show_focus(self) -> None:
        here = QApplication.focusWidget()
        if here is None or not self.stack.isAncestorOf(here):
            return
        bar, high, more = self.area.verticalScrollBar(), self.area.viewport().height(), scaled(_BESIDE)
        top = here.mapTo(self.stack, here.rect().topLeft()).y()
        end = top + min(here.height(), high // 4)  # of a list its beginning
        if top < bar.value():
            bar.setValue(top - more)
        elif end > bar.value() + high:
            bar.setValue(end + more - high)

    def _begin_at_the_top(self) -> None:
        """Another place is shown from its head, however far down the former one was."""
        for bar in (self.area.verticalScrollBar(), self.area.horizontalScrollBar()):
            bar.setValue(0)

    def take_sheet(self, sheet: QWidget | None) -> None:
        """Another sheet, or none."""
        if self.sheet is not None:
            self.sheet.removeEventFilter(self)
            self.sheet.setParent(None)
            self.sheet.deleteLater()
        self.sheet = sheet
        if sheet is not None:
            sheet.setParent(self)
            sheet.installEventFilter(self)
        self._lay_out()

    def is_beside(self) -> bool:
        """Whether the sheet stands beside the place and covers nothing of it."""
        needed = max(self.stack.minimumSizeHint().width(), scaled(_PLACE_AT_LEAST))
        return self.width() - scaled(_SHEET_WIDTH) >= needed

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._lay_out()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if watched is self.sheet and event.type() in (QEvent.Type.Show, QEvent.Type.Hide):
            self._lay_out()
        return super().eventFilter(watched, event)

    def _lay_out(self) -> None:
        shown = self.sheet is not None and not self.sheet.isHidden()
        beside = shown and self.is_beside()
        wide = min(scaled(_SHEET_WIDTH), self.width())
        self.area.setGeometry(0, 0, self.width() - (wide if beside else 0), self.height())
        if self.sheet is not None:
            self.sheet.setGeometry(self.width() - wide, 0, wide, self.height())
            self.sheet.raise_()
