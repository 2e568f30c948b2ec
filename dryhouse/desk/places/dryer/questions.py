"""What is asked of a running batch, each question with its two answers as buttons."""

from __future__ import annotations

from functools import partial

from PySide6.QtWidgets import QVBoxLayout, QWidget

from dryhouse.desk.session import Session
from dryhouse.desk.widgets.basics import button, column, row, text_label
from dryhouse.kitchen.dryer.questions import Question, answer, questions_of
from dryhouse.kitchen.dryer.runs import DryingRun


class Questions(QWidget):
    """Nothing where nothing is asked. An answer is one press, and undone like any act."""

    def __init__(self, session: Session) -> None:
        super().__init__()
        self.session = session
        self._inside: QVBoxLayout = column(self, space=4)
        self._asked: tuple[Question, ...] = ()
        self._batch, self._of = 0, ""
        self.hide()

    def show_run(self, run: DryingRun) -> None:
        """Ask what is open of this run."""
        asked = questions_of(self.session.kitchen, run, self.session.style)
        self._batch, self._of = run.batch.id, f"{run.title}, batch {run.batch.id}"
        if asked != self._asked:
            self._asked = asked
            while (item := self._inside.takeAt(0)) is not None:
                if (made := item.widget()) is not None:
                    made.deleteLater()
            for question in asked:
                self._inside.addWidget(self._ask(question))
        self.setVisible(bool(asked))

    def _ask(self, question: Question) -> QWidget:
        made = QWidget()
        inside = column(made, space=2)
        inside.addWidget(text_label(question.text, "small"))
        of = f"{self._of}: {question.text}"
        yes = button(question.yes, partial(self._answer, question, True), name=f"{question.yes}. {of}")
        no = button(question.no, partial(self._answer, question, False), name=f"{question.no}. {of}")
        inside.addLayout(row(yes, no, 1, space=8))
        return made

    def _answer(self, question: Question, yes: bool) -> None:
        self.session.act(answer, self._batch, question.about, yes, at=question.end)
