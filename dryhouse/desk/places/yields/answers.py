"""The answer: a sentence, the figure large, handbook and own beside it, what to buy, trays and hours."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from PySide6.QtWidgets import QGridLayout, QWidget

from dryhouse.desk.places.yields.wording import (
    rests_on,
    sentence,
    title_of,
    trays_lines,
)
from dryhouse.desk.session import Session
from dryhouse.desk.widgets.announce import Speaker
from dryhouse.desk.widgets.basics import button, card, column, row, text_label
from dryhouse.desk.widgets.figure_view import FigureView, unbroken
from dryhouse.kitchen.yields.yields import YieldAnswer
from dryhouse.words.workings import lines as said_in_lines

NO_OWN = "No finished batch of it with both weights yet."


class AnswerView(QWidget):
    """Shows a `YieldAnswer`."""

    def __init__(self, session: Session, copy: Callable[[], Any], show_print: Callable[[], Any]) -> None:
        super().__init__()
        self.session = session
        self._speaker = Speaker(self)
        self.sentence = text_label("", "heading", select=True)
        self.rests_on = text_label("", "muted")
        self.joined = FigureView(session, "Dried")
        self.missing = text_label("", "muted")
        self.handbook = FigureView(session, "By the handbook", compact=True)
        self.own = FigureView(session, "By your batches", compact=True)
        self.bought = FigureView(session, "To buy (as purchased)", compact=True)
        self.hours = FigureView(session, "Hours in the dryer", compact=True)
        trays, inside = card()
        self.trays_title = text_label("Trays", "muted")
        self.trays = text_label("")
        inside.addWidget(self.trays_title)
        inside.addWidget(self.trays)
        inside.addStretch(1)
        self._trays_card = trays
        workings = button("&Workings", self.joined.open_workings, hint="Enter in the line, or on any figure")
        copied = button("&Copy the answer", copy, hint="Ctrl+Shift+C")
        printed = button("Print…", show_print, "quiet", hint="Ctrl+P")
        grid = QGridLayout()
        grid.setSpacing(8)
        grid.addWidget(self.joined, 0, 0)
        grid.addWidget(self.handbook, 0, 1)
        grid.addWidget(self.own, 0, 2)
        grid.addWidget(self.bought, 1, 0)
        grid.addWidget(trays, 1, 1)
        grid.addWidget(self.hours, 1, 2)
        for side in range(3):
            grid.setColumnStretch(side, 1)
        lines = column(self, space=8)
        lines.addWidget(self.sentence)
        lines.addWidget(self.rests_on)
        lines.addLayout(grid)
        lines.addWidget(self.missing)
        lines.addLayout(row(workings, copied, printed, 1))

    def show_answer(self, answer: YieldAnswer, *, example: bool = False) -> None:
        """Show another answer; nothing is read. An example says that it is one."""
        style = self.session.style
        self.sentence.setText(unbroken(("For example: " if example else "") + sentence(answer, style)))
        self._speaker.answer(self.sentence.text())
        self.rests_on.setText(rests_on(answer))
        self.joined.set_figure(answer.joined, title=title_of(answer))
        self.handbook.set_figure(answer.handbook, "The handbook says nothing of it.")
        self.own.set_figure(answer.own, NO_OWN, title=f"By your batches (n={answer.n_own})")
        self.bought.set_figure(answer.as_purchased, "No refuse figure is known.")
        self.hours.set_figure(answer.hours, "No drying hours are known.")
        lines = trays_lines(answer, style)
        self.trays.setText("\n".join(lines) or "Not known: log which dryer and how many trays a batch filled.")
        self.trays.setAccessibleName("Trays: " + "; ".join(lines))
        self.missing.setText(" ".join(said_in_lines(answer.knowledge.missing, self.session.style)))
        self.missing.setVisible(bool(answer.knowledge.missing))
