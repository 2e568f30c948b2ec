"""Cautions: a word for the severity, a shape, the text and its source. Never folded away."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from PySide6.QtCore import Qt
from PySide6.QtGui import QFocusEvent, QKeyEvent, QMouseEvent, QPaintEvent
from PySide6.QtWidgets import QFrame, QLabel, QWidget

from dryhouse.desk.icons import pixmap
from dryhouse.desk.session import Session
from dryhouse.desk.widgets.basics import column, empty, fill, row, words
from dryhouse.desk.widgets.figure_view import draw_focus
from dryhouse.science.values import Caution, gravest_first

SAID = {"stop": "Stop", "warn": "Take care", "note": "Note"}
"""The word each severity is said with."""


def gravest(cautions: Sequence[Caution]) -> int:
    """How many of the cautions, gravest first, stand above everything else: every stop; failing one, the first
    that asks to take care."""
    stops = sum(c.severity == "stop" for c in cautions)
    return stops or int(bool(cautions) and cautions[0].severity == "warn")


class CautionRow(QFrame):
    """One caution. F8, Enter or a click opens its reason and source."""

    def __init__(self, session: Session, caution: Caution) -> None:
        super().__init__()
        self.session, self.caution = session, caution
        tint = session.theme.tokens.tint(caution.severity)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setCursor(Qt.CursorShape.PointingHandCursor)
        self.setObjectName("caution")
        self.setStyleSheet(
            f"#caution {{ background: {tint.ground}; border: 1px solid {tint.ink}; border-radius: 6px; }}"
            f"#caution QLabel {{ color: {tint.ink}; }}"
        )
        shape = QLabel()
        shape.setPixmap(pixmap(tint.shape, tint.ink, 24))
        shape.setAlignment(Qt.AlignmentFlag.AlignTop)
        said = words(SAID[caution.severity], "label", wrap=False)
        text = words(caution.text)
        source = words(caution.source, "small")
        beside = column(space=2)
        fill(beside, said, text, source)
        across = row(shape, space=10)
        across.addLayout(beside, 1)
        inside = column(self, margin=10)
        inside.addLayout(across)
        self.setAccessibleName(f"{SAID[caution.severity]}: {caution.text} Source: {caution.source}")
        self.setToolTip("F8 or click: why, and where this comes from")

    def open_reason(self) -> None:
        """Open the side sheet with the reason and the source."""
        self.session.show_caution(self.caution)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Space):
            self.open_reason()
            return
        super().keyPressEvent(event)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        if event.button() == Qt.MouseButton.LeftButton and self.rect().contains(event.position().toPoint()):
            self.open_reason()
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
            draw_focus(self, self.session.theme.tokens.tint(self.caution.severity).ink, 6)


class CautionsView(QWidget):
    """Every caution once, the gravest first. Hidden only where there is none at all."""

    def __init__(self, session: Session, cautions: Iterable[Caution] = ()) -> None:
        super().__init__()
        self.session = session
        self.cautions: tuple[Caution, ...] = ()
        self._column = column(self, space=6)
        session.theme.changed.connect(self._rebuild)
        self.set_cautions(cautions)

    def set_cautions(self, cautions: Iterable[Caution]) -> None:
        """Show these cautions; the same again costs nothing."""
        wanted = gravest_first(cautions)
        if wanted != self.cautions or not wanted:
            self.cautions = wanted
            self._rebuild()

    def _rebuild(self) -> None:
        empty(self._column)
        for caution in self.cautions:
            self._column.addWidget(CautionRow(self.session, caution))
        self.setVisible(bool(self.cautions))
        self.setAccessibleName(f"Cautions: {len(self.cautions)}")


def open_reason_in(page: QWidget) -> bool:
    """Open the reason of the caution in focus, else of the first one shown on a page. False where none is."""
    rows = [r for r in page.findChildren(CautionRow) if r.isVisible()]
    rows.sort(key=lambda r: (not r.hasFocus(), r.mapTo(page, r.rect().topLeft()).y()))
    if rows:
        rows[0].open_reason()
    return bool(rows)
