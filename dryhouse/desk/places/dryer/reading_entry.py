"""The one entry at the scale: a line that says what was weighed, and when, and on what; and what is asked of it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from PySide6.QtCore import Signal
from PySide6.QtGui import QGuiApplication, QKeyEvent, QKeySequence
from PySide6.QtWidgets import QLineEdit, QWidget

from dryhouse.desk.session import Session
from dryhouse.desk.widgets.basics import button, column, inner_key, row, text_label
from dryhouse.desk.widgets.fields import QuantityField
from dryhouse.kitchen.dryer.doubts import DoubtfulWeight
from dryhouse.kitchen.dryer.runs import DryingRun
from dryhouse.kitchen.dryer.typed_happenings import Happening
from dryhouse.kitchen.dryer.typed_readings import Notation, Reading
from dryhouse.kitchen.dryer.weigh_in import (
    Line,
    note_happening,
    read_line,
    record_readings,
    understood,
    understood_happening,
)
from dryhouse.kitchen.records import Weighing
from dryhouse.science.quantities import Mass, unit_typed
from dryhouse.words.dates import clock

LINE_END = " ⏎ "
"""Between pasted lines, in an entry that shows one."""
KEEP_KEY, REPLACE_KEY = "F9", "Shift+F9"


class OneLine(QLineEdit):
    """Several pasted lines stay apart, marked where one ends."""

    def keyPressEvent(self, event: QKeyEvent) -> None:
        text = QGuiApplication.clipboard().text() if event.matches(QKeySequence.StandardKey.Paste) else ""
        lines = [line.strip() for line in text.splitlines() if line.strip()]
        if len(lines) > 1:
            self.insert(LINE_END.join(line.replace("\t", "; ") for line in lines))
            return
        super().keyPressEvent(event)


class ReadingField(QuantityField):
    """Answers readings, or what happened. Its sentence says how the line was understood before Enter is pressed."""

    def __init__(self, session: Session, label: str) -> None:
        self.run: DryingRun | None = None
        super().__init__(session, label, Mass, name="gross")
        self.edit.setMaxLength(100_000)

    def make_edit(self) -> QLineEdit:
        return OneLine()

    def read(self, text: str) -> Any:
        style = self.session.style
        how = Notation(self.default_unit, style.decimal_comma, style.temperature_unit)
        started = self.run.clock.started if self.run is not None else None
        return read_line(self.session.kitchen, text.replace(LINE_END.strip(), "\n"), how, started=started)

    def write(self, value: Any) -> str:
        return LINE_END.join(reading.gross.typed for reading in value)

    def echo(self, value: Any, text: str) -> str:
        if isinstance(value, Happening):
            return f"= {understood_happening(self.session.kitchen, value, self.session.style)}"
        said = understood(self.session.kitchen, weighings_in(self.run), value, self.session.style)
        plain = (t.replace(" ", "").casefold() for t in (said, text))
        return "" if len(set(plain)) == 1 else f"= {said}"


class ReadingEntry(QWidget):
    """The line, and below it the question where the weight can't be true: F9 keeps it, left out of the curve."""

    recorded = Signal()

    def __init__(self, session: Session, run: DryingRun, *, label: str = "Scale reading") -> None:
        super().__init__()
        self.session, self.run = session, run
        self.field = ReadingField(session, label)
        self.question = text_label("", "problem")
        self.keep_button = button(
            f"Keep it, left out ({KEEP_KEY})",
            self.keep,
            name="Keep this weight, left out of the curve",
        )
        self.replace_button = button(f"Put it in that one's place ({REPLACE_KEY})", self.replace_former)
        self.asked = QWidget()
        inside = column(self.asked, space=4)
        inside.addWidget(self.question)
        inside.addLayout(row(self.replace_button, self.keep_button, 1))
        self.asked.hide()
        self._readings: tuple[Reading, ...] = ()
        self._replaces = 0
        self.field.edit.textChanged.connect(lambda _text: self.withdraw())
        inner_key(self.field.edit, KEEP_KEY, self.keep)
        inner_key(self.field.edit, REPLACE_KEY, self.replace_former)

    def show_run(self, run: DryingRun) -> None:
        """The batch that is weighed, as it stands now. What is being typed stays."""
        self.run = self.field.run = run
        last = max(weighings_in(run), key=lambda w: (w.at, w.id), default=None)
        unit = unit_typed(last.gross) if last and last.gross.typed else self.session.style.mass_unit
        self.field.set_unit(unit)
        number = "412" if unit == "g" else "14.5"
        self.field.set_hint(
            f"{number} {unit}, or {clock(self.session.kitchen.now().replace(hour=13, minute=0))} {number}"
        )

    def weigh(self, **more: Any) -> bool:
        """Record what stands in the entry; `more` is what other entries say of a single reading."""
        if not self.field.require("What does the scale show? Type it, such as 412 g."):
            self.field.setFocus()
            return False
        line: Line = self.field.value()
        if isinstance(line, Happening):
            return self._note(line)
        readings = line
        scope = more.pop("scope", None)
        if len(readings) == 1:
            (only,) = readings
            readings = (replace(only, **more, scope=only.scope or (None if only.vessel else scope)),)
        return self._record(readings)

    def _note(self, what: Happening) -> bool:
        done = self.session.act(note_happening, self.run.batch.id, what)
        if done is not None:
            self.field.set_value(None)
            self.recorded.emit()
        elif self.session.problem is not None:
            self.field.show_problem(self.session.problem)
        self.field.setFocus()
        return done is not None

    def begin(self, words: str) -> None:
        """Begin a line for her to finish."""
        self.field.edit.setText(words)
        self.field.setFocus()

    def _record(self, readings: Sequence[Reading], **named: Any) -> bool:
        self._readings = tuple(readings)
        done = self.session.act(record_readings, self.run.batch.id, self._readings, **named)
        problem = self.session.problem
        if done is not None:
            self.field.set_value(None)
            self.recorded.emit()
        elif isinstance(problem, DoubtfulWeight):
            self._replaces = problem.doubt.replaces
            self.question.setText(problem.doubt.question)
            self.replace_button.setVisible(bool(self._replaces))
            self.asked.show()
            self.session.told_beside(problem)
        elif problem is not None and problem.field in ("", "gross", "kind", "scope"):
            self.field.show_problem(problem)
        self.field.setFocus()
        return done is not None

    def keep(self) -> None:
        """Keep what was asked about, left out of the curve."""
        if not self.asked.isHidden():
            self._record(self._readings, keep=True)

    def replace_former(self) -> None:
        """Put it in the place of the weighing it was mistaken for."""
        if not self.asked.isHidden() and self._replaces:
            self._record(self._readings, replacing=self._replaces)

    def withdraw(self) -> None:
        """Take the question away: something else is being typed."""
        self.asked.hide()
        self._replaces = 0


def weighings_in(run: DryingRun | None) -> list[Weighing]:
    """Every weighing of a run, those left out too, in order of time."""
    if run is None:
        return []
    points = (*run.points, *run.others, *run.left_out)
    return sorted((p.weighing for p in points if p.weighing is not None), key=lambda w: (w.at, w.id))
