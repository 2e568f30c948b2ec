"""Cautions: a word for the severity, a shape, the text and its source.

Where room is short, notes may be folded behind one line that counts them; what says stop or take care never is.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel, QWidget

from dryhouse.desk.icons import pixmap
from dryhouse.desk.session import Session
from dryhouse.desk.widgets.basics import column, fill, row, words
from dryhouse.desk.widgets.pressable import Pressable
from dryhouse.science.values import Caution, gravest_first

SAID = {"stop": "Stop", "warn": "Take care", "note": "Note"}
"""The word each severity is said with."""


def gravest(cautions: Sequence[Caution]) -> int:
    """How many of the cautions, gravest first, stand above everything else: every stop; failing one, the first
    that asks to take care."""
    stops = sum(c.severity == "stop" for c in cautions)
    return stops or int(bool(cautions) and cautions[0].severity == "warn")


class CautionRow(Pressable):
    """One caution. F8, Enter or a click opens its reason and source."""

    def __init__(self, session: Session, caution: Caution) -> None:
        super().__init__(session)
        self.setCursor(Qt.CursorShape.PointingHandCursor)
        self.setObjectName("caution")
        self.setToolTip("F8 or click: why, and where this comes from")
        self._shape = QLabel()
        self._shape.setAlignment(Qt.AlignmentFlag.AlignTop)
        self._said, self._text, self._source = words("", "label", wrap=False), words(""), words("", "small")
        beside = column(space=2)
        fill(beside, self._said, self._text, self._source)
        across = row(self._shape, space=10)
        across.addLayout(beside, 1)
        column(self, margin=10).addLayout(across)
        self._dressed: tuple[str, str] | None = None
        self.set_caution(caution)

    def set_caution(self, caution: Caution) -> None:
        """Say another caution in this row."""
        self.caution = caution
        said = SAID[caution.severity]
        for label, text in ((self._said, said), (self._text, caution.text), (self._source, caution.source)):
            label.setText(text)
        self.setAccessibleName(f"{said}: {caution.text} Source: {caution.source}")
        tokens = self.session.theme.tokens
        if self._dressed != (tokens.name, caution.severity):
            self._dressed = (tokens.name, caution.severity)
            tint = tokens.tint(caution.severity)
            self._shape.setPixmap(pixmap(tint.shape, tint.ink, 24))
            self.setStyleSheet(
                f"#caution {{ background: {tint.ground}; border: 1px solid {tint.ink}; border-radius: 6px; }}"
                f"#caution QLabel {{ color: {tint.ink}; }}"
            )

    def press(self) -> None:
        """Open the side sheet with the reason and the source."""
        self.session.show_caution(self.caution)


class Fold(Pressable):
    """The line that stands for folded notes. F8, Enter or a click shows them."""

    def __init__(self, session: Session, unfold: Callable[[], None]) -> None:
        super().__init__(session)
        self.setCursor(Qt.CursorShape.PointingHandCursor)
        self._unfold = unfold
        self._said = words("", "label", wrap=False)
        column(self, margin=8).addWidget(self._said)

    def count(self, number: int) -> None:
        """Stand for so many notes."""
        self._said.setText(f"{number} more cautions · F8 shows them")
        self.setAccessibleName(f"{number} more cautions; F8 shows them")

    def press(self) -> None:
        """Show the notes."""
        self._unfold()


class CautionsView(QWidget):
    """Every caution once, the gravest first. Hidden only where there is none at all.

    `folds` puts two or more notes behind one line until they are asked for; from then on they stay shown.
    """

    def __init__(self, session: Session, cautions: Iterable[Caution] = (), *, folds: bool = False) -> None:
        super().__init__()
        self.session = session
        self._folds = folds
        self._fold: Fold | None = None
        self.cautions: tuple[Caution, ...] = ()
        self.rows: list[CautionRow] = []
        self._column = column(self, space=6)
        session.theme.changed.connect(self._show)
        self.setVisible(False)
        self.set_cautions(cautions)

    def set_cautions(self, cautions: Iterable[Caution]) -> None:
        """Say these cautions; the same again costs nothing, and rows are used again."""
        wanted = gravest_first(cautions)
        if wanted != self.cautions:
            self.cautions = wanted
            self._show()

    def _show(self) -> None:
        for caution, shown in zip(self.cautions, self.rows, strict=False):
            shown.set_caution(caution)
        for caution in self.cautions[len(self.rows) :]:
            self.rows.append(CautionRow(self.session, caution))
            self._column.addWidget(self.rows[-1])
        kept = len(self.cautions) - self.folded
        for i, shown in enumerate(self.rows):
            shown.setVisible(i < kept)
        self._show_fold()
        self.setVisible(bool(self.cautions))
        self.setAccessibleName(f"Cautions: {len(self.cautions)}")

    @property
    def folded(self) -> int:
        """How many notes, the last of the cautions, stand behind the line."""
        notes = sum(c.severity == "note" for c in self.cautions)
        return notes if self._folds and notes > 1 else 0

    def _show_fold(self) -> None:
        if self.folded and self._fold is None:
            self._fold = Fold(self.session, self.unfold)
        if self._fold is not None:
            self._column.addWidget(self._fold)  # below the rows, also those made since
            self._fold.count(self.folded)
            self._fold.setVisible(bool(self.folded))

    def unfold(self) -> None:
        """Show every note from now on; the keyboard goes from the line to the first of them."""
        first = len(self.cautions) - self.folded
        was_there = self._fold is not None and self._fold.hasFocus()
        self._folds = False
        self._show()
        if was_there and first < len(self.rows):
            self.rows[first].setFocus()


def open_reason_in(page: QWidget) -> bool:
    """Open the reason of the caution in focus, else of the first one shown on a page. False where none is.

    Notes that are folded in view are shown first; the key pressed again then opens a reason.
    """
    folds = [f for f in page.findChildren(Fold) if f.isVisible()]
    if folds and not any(r.hasFocus() for r in page.findChildren(CautionRow)):
        for fold in folds:
            fold.press()
        return True
    rows = [r for r in page.findChildren(CautionRow) if r.isVisible()]
    rows.sort(key=lambda r: (not r.hasFocus(), r.mapTo(page, r.rect().topLeft()).y()))
    if rows:
        rows[0].press()
    return bool(rows)
