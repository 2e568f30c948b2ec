"""The side sheet: workings of a figure, or the reason of a caution, beside the place and never over it."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QFrame, QWidget

from dryhouse.desk.cautions import SAID
from dryhouse.desk.session import Session
from dryhouse.desk.theme import set_role
from dryhouse.desk.widgets.basics import button, column, empty, inner_key, row, scrolling, text_label
from dryhouse.desk.widgets.cautions_view import CautionRow
from dryhouse.desk.widgets.figure_view import also_by_measure
from dryhouse.science.values import Caution, Figure
from dryhouse.words.bases import basis_text
from dryhouse.words.cautions import reason_words
from dryhouse.words.workings import lines


class WorkingsSheet(QFrame):
    """Opens when a place asks for workings or a reason; Esc or Close puts the keyboard back where it was."""

    def __init__(self, session: Session) -> None:
        super().__init__()
        self.session = session
        self._came_from: QWidget | None = None
        self._text = ""
        self._figure: Figure | None = None
        """Whose workings are shown."""
        set_role(self, "sheet")
        self.heading = text_label("", "heading")
        self._close = button("Close", self.close_sheet, "quiet", name="Close the side sheet", hint="Esc")
        head = row(space=8)
        head.addWidget(self.heading, 1)
        head.addWidget(self._close, 0, Qt.AlignmentFlag.AlignTop)
        page = QWidget()
        self._column = column(page, space=8)
        inside = column(self, margin=16, space=12)
        inside.addLayout(head)
        inside.addWidget(scrolling(page), 1)
        self._copy = button("Copy as text", self._copy_text)
        inside.addLayout(row(self._copy, 1))
        inner_key(self, "Esc", self.close_sheet)
        session.workings_asked.connect(self.show_workings)
        session.caution_asked.connect(self.show_caution)
        session.figure_replaced.connect(self._follow)
        self.hide()

    def show_workings(self, title: str, figure: Figure) -> None:
        """The arithmetic behind a figure, line by line, then its basis and its cautions."""
        self._fill(title, figure)
        self._finish()

    def _follow(self, former: Figure, title: str, now: Figure | None) -> None:
        """The figure whose workings are shown has another value now, or is shown no more. The keyboard stays."""
        if self.isHidden() or former is not self._figure:
            return
        if now is None:
            self.hide()
        else:
            self._fill(title, now)
            self._column.addStretch(1)

    def _fill(self, title: str, figure: Figure) -> None:
        style = self.session.style
        between = style.interval(figure)
        self._begin(title, f"{title}: {style.figure(figure)}" + (f" (likely {between})" if between else ""))
        self._add(style.figure(figure), "figure")
        if measure := also_by_measure(style, figure):
            self._add(measure, "muted")
        if between:
            self._add(f"80 % likely between {between.replace(' to ', ' and ')}.", "muted")
        self._section(
            "Workings",
            lines(figure.workings, style) or ("No arithmetic: this is the figure as it was entered or published.",),
        )
        self._section("Basis", tuple(basis_text(b, style) for b in figure.basis) or ("None recorded.",))
        if figure.cautions:
            self._add("Cautions", "label")
            for caution in figure.cautions:
                self._column.addWidget(CautionRow(self.session, caution))
                self._text += f"\n{SAID[caution.severity]}: {caution.text} [{caution.source}]"
        self._figure = figure

    def show_caution(self, caution: Caution) -> None:
        """Why a caution is said, and where it comes from."""
        self._begin(SAID[caution.severity], f"{SAID[caution.severity]}: {caution.text}")
        self._add(caution.text)
        if why := reason_words(caution, self.session.style):
            self._section("Why", (why,))
        self._section("Source", (caution.source,))
        self._finish()

    def close_sheet(self) -> None:
        """Close, and give the keyboard back."""
        self.hide()
        back, self._came_from = self._came_from, None
        if back is not None:
            try:
                back.setFocus()
            except RuntimeError:  # the widget is gone
                return

    def as_text(self) -> str:
        """The sheet as plain text."""
        return self._text

    def _begin(self, heading: str, first: str) -> None:
        came_from = QGuiApplication.focusObject()
        if isinstance(came_from, QWidget) and not self.isAncestorOf(came_from):
            self._came_from = came_from
        empty(self._column)
        self._figure = None
        self.heading.setText(heading)
        self._text = first

    def _add(self, text: str, role: str = "") -> None:
        self._column.addWidget(text_label(text, role, select=True))

    def _section(self, heading: str, lines: tuple[str, ...]) -> None:
        self._column.addSpacing(8)
        self._add(heading, "label")
        for line in lines:
            self._add(line)
        self._text += f"\n\n{heading}\n" + "\n".join(lines)

    def _finish(self) -> None:
        self._column.addStretch(1)
        self.show()
        self._close.setFocus()

    def _copy_text(self) -> None:
        QGuiApplication.clipboard().setText(self._text)
        self.session.say("The workings are on the clipboard.")
