"""The answer: the figure large with its range, own and handbook beside it; what to buy, trays and hours folded."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from PySide6.QtWidgets import QWidget

from dryhouse.desk.places.yields.wording import question, rests_on, sentence, trays_lines
from dryhouse.desk.session import Session
from dryhouse.desk.widgets.announce import Speaker
from dryhouse.desk.widgets.basics import button, card, column, row, text_label
from dryhouse.desk.widgets.figure_view import FigureView
from dryhouse.desk.widgets.fold import Unfolding
from dryhouse.desk.widgets.wrapping import Tiles
from dryhouse.kitchen.batches.loads import dry_already
from dryhouse.kitchen.yields.yields import YieldAnswer
from dryhouse.science.display import counted
from dryhouse.words.workings import lines as said_in_lines

NO_OWN = "No finished batch of it with both weights yet."
_TILE = 150
"""Pixels that a figure takes at least."""


class AnswerView(QWidget):
    """Shows a `YieldAnswer`: the figure with its range, her own batches against the handbook; the rest, and the
    widgets `below`, one step away."""

    def __init__(
        self, session: Session, copy: Callable[[], Any], show_print: Callable[[], Any], *below: QWidget
    ) -> None:
        super().__init__()
        self.session = session
        self._speaker = Speaker(self)
        self.said = ""
        """The answer in a sentence, as it is spoken and copied."""
        self.joined = FigureView(session, "Dried", room=0)
        self.handbook = FigureView(session, "By the handbook", brief=True)
        self.own = FigureView(session, "By your batches", brief=True)
        self.missing = text_label("", "muted")
        self.rests_on = text_label("", "muted")
        self.bought = FigureView(session, "To buy (as purchased)", brief=True)
        self.hours = FigureView(session, "Hours in the dryer", brief=True)
        trays, inside = card()
        self.trays = text_label("")
        inside.addWidget(text_label("Trays", "muted"))
        inside.addWidget(self.trays)
        inside.addStretch(1)
        to_do, against = QWidget(), QWidget()
        to_do.setLayout(Tiles(self.bought, self.hours, trays, least=_TILE))
        against.setLayout(Tiles(self.own, self.handbook, least=_TILE))
        self.more = Unfolding(session, "To buy, trays, hours", to_do, self.rests_on, *below)
        workings = button("&Workings", self.joined.open_workings, hint="Enter in the line, or on any figure")
        copied = button("&Copy", copy, name="Copy the answer", hint="Ctrl+Shift+C")
        printed = button("Print…", show_print, "quiet", hint="Ctrl+P")
        lines = column(self, space=8)
        for widget in (self.joined, against, self.missing):
            lines.addWidget(widget)
        lines.addLayout(row(workings, copied, printed, 1))
        lines.addWidget(self.more)

    def show_answer(self, answer: YieldAnswer, *, example: bool = False) -> None:
        """Show another answer; nothing is read. An example says that it is one."""
        style = self.session.style
        such_as = "For example: " if example else ""
        self.said = such_as + sentence(answer, style)
        self._speaker.answer(self.said)
        self.joined.set_figure(answer.joined, title=such_as + question(answer, style))
        self.handbook.set_figure(answer.handbook, "The handbook says nothing of it.")
        self.own.set_figure(answer.own, NO_OWN, title=f"By your {_batches(answer.n_own)}")
        self.bought.set_figure(answer.as_purchased, "How much is peel and waste is not known.")
        self.hours.set_figure(answer.hours, "No drying hours are known.")
        self.rests_on.setText(rests_on(answer))
        lines = trays_lines(answer, style)
        self.trays.setText("\n".join(lines) or "Not known: log which dryer and how many trays a batch filled.")
        self.trays.setAccessibleName("Trays: " + "; ".join(lines))
        dry = dry_already(answer.knowledge.food, style)
        said = " ".join(filter(None, [dry, *said_in_lines(answer.knowledge.missing, style)]))
        self.missing.setText(said)
        self.missing.setVisible(bool(said))


def _batches(n: int) -> str:
    return counted(n, "batch", "batches") if n else "batches"
