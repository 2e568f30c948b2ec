"""The evening one is home: what came back of each meal, what was short, what to change; the next trip from it."""

from __future__ import annotations

from typing import Any

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QAbstractItemView, QHeaderView, QTableWidget, QTableWidgetItem, QWidget

from dryhouse.desk.places.meals.note_form import DayField
from dryhouse.desk.session import Session
from dryhouse.desk.widgets.basics import button, column, row, text_label
from dryhouse.desk.widgets.draft import KeptForm
from dryhouse.desk.widgets.fields import TextField, mark_problem
from dryhouse.desk.widgets.item_table import dress, fit_lines
from dryhouse.kitchen.records import AfterTrip, Trip
from dryhouse.kitchen.trips.after import (
    Returned,
    changes_of,
    next_name,
    next_start,
    note_after,
    plan_again,
    returned,
)
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import parse_number
from dryhouse.words import after_trips as words

_HEADS = ("Meal", "Servings taken", "Came back uneaten", "Was short", "What to change")
_MEAL, _TAKEN, _UNEATEN, _SHORT, _CHANGE = range(5)
_TYPED = (_UNEATEN, _SHORT, _CHANGE)


class AfterPage(QWidget):
    """Typed as in a table, a line a meal; what was right stays empty. `planned` gives the next trip's number."""

    planned = Signal(int)

    def __init__(self, session: Session) -> None:
        super().__init__()
        self.session = session
        self.trip: Trip | None = None
        self._meals: tuple[Returned, ...] = ()
        self.table = QTableWidget(0, len(_HEADS))
        self.table.setAccessibleName("How the meals were")
        dress(self.table, _HEADS)
        self.table.verticalHeader().hide()
        self.table.verticalHeader().setMinimumSectionSize(session.theme.tokens.target - 8)
        self.table.verticalHeader().setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
        self.table.setTabKeyNavigation(False)
        self.table.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        for n in range(len(_HEADS)):
            mode = QHeaderView.ResizeMode.Stretch if n == _CHANGE else QHeaderView.ResizeMode.ResizeToContents
            self.table.horizontalHeader().setSectionResizeMode(n, mode)
        fit_lines(self.table)
        self.save_button = button("&Save how it was", self.save, "primary", hint="Ctrl+S")
        self.next_line = text_label("", select=True)
        self.starts = DayField(session, "The next one starts", name="starts_on")
        self.name = TextField(session, "It is called", name="name")
        hint = "The same days, people and meals; undo takes it back"
        self.again = button("Plan it &again", self.plan_again, hint=hint)
        said = (
            "Once you are home: servings of all bags of a meal together, the spare days aside. "
            "What was right stays empty."
        )
        inside = column(self, space=8)
        inside.addWidget(text_label(said, "small"))
        inside.addWidget(self.table, 1)
        inside.addLayout(row(self.save_button, 1))
        inside.addWidget(self.next_line)
        below = row(self.starts, self.name, self.again, space=16)
        below.setStretch(1, 1)
        below.setAlignment(self.again, Qt.AlignmentFlag.AlignVCenter)
        inside.addLayout(below)
        self.kept = KeptForm(session, "after", self, self._typed, self._put_back)
        inside.insertWidget(0, self.kept.offer)
        for field in (self.starts, self.name):
            field.accepted.connect(self.plan_again)

    def show_trip(self, trip: Trip | None) -> None:
        """The meals of a trip, with what is noted; what was typed for it and not saved stays."""
        same = self.trip is not None and trip is not None and self.trip.id == trip.id
        unsaved = same and self._typed() != self._recorded()
        typed = self._typed()
        self.kept.rest(trip.id if trip else "")
        self.trip = trip
        self._meals = () if trip is None else returned(self.session.kitchen, trip.id)
        self.table.setRowCount(0)
        for one in self._meals:
            self._line(one)
        for piece in (self.table, self.save_button, self.starts, self.name, self.again):
            piece.setEnabled(bool(self._meals))
        if trip is not None:
            if not same:
                self.starts.set_value(next_start(trip))
                self.name.set_value(next_name(self.session.kitchen, trip, next_start(trip)))
            changes = changes_of(self.session.kitchen, trip.id, self.session.style)
            noted = any(one.noted for one in self._meals)
            said = words.next_takes(changes) if noted else words.NOTHING_NOTED
            self.next_line.setText(said)
            self.next_line.setToolTip("\n".join(self._workings()))
            self.kept.shown(trip.id)
        if unsaved:
            self._put_back(typed)

    def _workings(self) -> list[str]:
        from dryhouse.words.workings import lines

        figures = [one.next_servings(one.carried / max(1, len(one.bags))) for one in self._meals if one.noted]
        return [line for figure in figures for line in lines(figure.workings, self.session.style)]

    def save(self) -> None:
        """Record what stands here, as one act."""
        if self.trip is None:
            return
        notes = self.session.attempt(self._notes)
        if notes is not None and self.session.act(note_after, self.trip.id, notes) is not None:
            self.kept.saved()

    def plan_again(self) -> None:
        """The next trip, with the amounts this one teaches."""
        said = "Say on which day the next one starts, such as 2028-08-19."
        if self.trip is None or not self.starts.require(said):
            return
        if self._typed() != self._recorded():
            self.save()
            if self._typed() != self._recorded():
                return
        done = self.session.act(plan_again, self.trip.id, self.session.style, self.starts.value(), self.name.text())
        if done is None:
            mark_problem(self.session.problem, (self.starts, self.name))
        else:
            self.planned.emit(done.record.id)

    # --- the table -------------------------------------------------------------------------------------------

    def _line(self, one: Returned) -> None:
        line = self.table.rowCount()
        self.table.insertRow(line)
        number = self.session.style.number
        spare = f" and {number(one.spare)} spare" if one.spare else ""
        bags = f"{number(one.carried)} in {len(one.bags)} {'bag' if len(one.bags) == 1 else 'bags'}{spare}"
        for n, text in enumerate((one.meal.name, bags, *self._noted(one))):
            item = QTableWidgetItem(text)
            if n not in _TYPED:
                item.setFlags(Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable)
            self.table.setItem(line, n, item)

    def _noted(self, one: Returned) -> list[str]:
        note = one.noted
        if note is None:
            return ["", "", ""]
        number = self.session.style.number
        return [number(note.uneaten) if note.uneaten else "", number(note.short) if note.short else "", note.change]

    def _typed(self) -> list[list[Any]]:
        """The meal of each line, and what stands in it."""
        return [[one.meal.id, *(self._text(line, n) for n in _TYPED)] for line, one in enumerate(self._meals)]

    def _recorded(self) -> list[list[Any]]:
        return [[one.meal.id, *self._noted(one)] for one in self._meals]

    def _put_back(self, typed: Any) -> None:
        lines = {one.meal.id: line for line, one in enumerate(self._meals)}
        for meal, *texts in typed:
            for n, text in zip(_TYPED, texts, strict=True) if meal in lines else ():
                line = lines[meal]
                item = self.table.item(line, n)
                if item is not None:
                    item.setText(text)

    def _notes(self) -> list[AfterTrip]:
        """A note for each line. Raises InputProblem naming the meal whose entry is no number."""
        found = []
        for meal, uneaten, short, change in self._typed():
            found.append(AfterTrip(0, meal, self._servings(uneaten), self._servings(short), change))
        return found

    def _servings(self, text: str) -> float:
        if not text:
            return 0.0
        try:
            return parse_number(text, decimal_comma=self.session.style.decimal_comma, what="number of servings")
        except InputProblem:
            raise InputProblem(f"“{text}” is no number of servings; write it like 4.", "uneaten") from None

    def _text(self, line: int, at: int) -> str:
        item = self.table.item(line, at)
        return "" if item is None else item.text().strip()
