"""The weighings of a batch in a table: read, put right, taken out."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QTableWidget, QTableWidgetItem, QWidget

from dryhouse.desk.places.dryer.reading_entry import KEEP_KEY
from dryhouse.desk.places.dryer.strip import SCOPE_WORDS, with_unit
from dryhouse.desk.session import Session
from dryhouse.desk.widgets.basics import button, column, inner_key, row, text_label
from dryhouse.desk.widgets.draft import keep_entries
from dryhouse.desk.widgets.fields import ChoiceField, QuantityField
from dryhouse.desk.widgets.item_table import dress
from dryhouse.desk.widgets.moment_field import MomentField, show_moment
from dryhouse.desk.widgets.table_menu import TableMenu
from dryhouse.kitchen.dryer.doubts import DoubtfulWeight
from dryhouse.kitchen.dryer.drying import correct_weighing, leave_out, remove_weighing
from dryhouse.kitchen.dryer.happenings import remove_event
from dryhouse.kitchen.dryer.run_words import event_words
from dryhouse.kitchen.dryer.runs import DryingRun, WeighedPoint
from dryhouse.kitchen.dryer.scale_style import scale_style
from dryhouse.kitchen.records import Weighing
from dryhouse.kitchen.records.shapes import label_of
from dryhouse.kitchen.records.weighings import TAKEN_OFF
from dryhouse.science.display import Style
from dryhouse.science.quantities import Mass, Temperature, unit_typed
from dryhouse.words.dates import clock, weekday_words

_SPARED = (5, 7, 8)
"""Columns that are shown only where something stands in them: tare, dryer, note."""
_FIGURES = range(1, 6)
HEADINGS = ("When", "Hours", "Net", "Moisture", "Scale", "Tare", "What", "Dryer", "Note")


class WeighingsTable(QTableWidget):
    """`opened` is Enter or a double click, `removed` is Del, `left_out` is Space."""

    opened = Signal()
    removed = Signal()
    left_out = Signal()

    def __init__(self) -> None:
        super().__init__(0, len(HEADINGS))
        dress(self, HEADINGS, figures=_FIGURES)
        self.verticalHeader().hide()
        self.setEditTriggers(QTableWidget.EditTrigger.NoEditTriggers)
        self.setSelectionBehavior(QTableWidget.SelectionBehavior.SelectRows)
        self.setSelectionMode(QTableWidget.SelectionMode.ExtendedSelection)
        self.setTabKeyNavigation(False)
        self.setAccessibleName("Weighings")
        self.doubleClicked.connect(lambda _index: self.opened.emit())

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.opened.emit()
        elif event.key() == Qt.Key.Key_Delete:
            self.removed.emit()
        elif event.key() == Qt.Key.Key_Space:
            self.left_out.emit()
        else:
            super().keyPressEvent(event)


class WeighingsPane(QWidget):
    """Enter edits the chosen line below the table, Del takes it out; both can be undone."""

    def __init__(self, session: Session) -> None:
        super().__init__()
        self.session = session
        self.run: DryingRun | None = None
        self.lines: list[WeighedPoint] = []
        self.editing: Weighing | None = None
        self.table = WeighingsTable()
        self.gross = QuantityField(session, label_of(Weighing, "gross"), Mass, name="gross")
        self.tare = QuantityField(session, label_of(Weighing, "tare"), Mass, name="tare", allow_zero=True)
        self.at = MomentField(session, label_of(Weighing, "at"), name="at")
        self.scope = ChoiceField(session, label_of(Weighing, "scope"), SCOPE_WORDS.items(), name="scope")
        self.heat = QuantityField(session, label_of(Weighing, "dryer_temperature"), Temperature)
        self.events = text_label("", "muted", select=True)
        self.remove_event_button = button("Remove the last note", self.remove_last_event, "quiet")
        self._typed = (self.gross, self.tare, self.at, self.scope, self.heat)
        self.editor = QWidget()
        self.kept = keep_entries(session, "weighing corrected", self.editor, lambda: self._typed)
        self._build()
        TableMenu(session, self.table, "Weighings", self._acts)
        self.table.opened.connect(self.edit)
        self.table.removed.connect(self.remove)
        self.table.left_out.connect(self.leave_out)
        self.table.currentCellChanged.connect(lambda *_: self._name_leaving())
        inner_key(self.editor, KEEP_KEY, lambda: self.save(keep=True))
        for field in (self.gross, self.tare, self.at, self.heat):
            field.accepted.connect(lambda: self.save())
        inner_key(self.editor, "Esc", self.leave)

    def _build(self) -> None:
        self.keep_button = button(f"Keep it, left out ({KEEP_KEY})", lambda: self.save(keep=True))
        self.question = text_label("", "problem")
        inside = column(self.editor, space=4)
        inside.addWidget(self.kept.offer)
        inside.addWidget(self.question)
        inside.addLayout(row(self.gross, self.tare, self.at, space=16))
        inside.addLayout(
            row(
                self.scope,
                self.heat,
                button("&Save", lambda: self.save(), "primary"),
                button("Close", self.leave),
                self.keep_button,
                space=16,
            )
        )
        for widget in (self.editor, self.keep_button, self.question):
            widget.hide()
        self.out_button = button("&Leave out", self.leave_out, hint="Space in the table; can be undone")
        self.edit_button = button("&Correct", self.edit, hint="Enter in the table")
        self.remove_button = button("Re&move", self.remove, hint="Del in the table; can be undone")
        outer = column(self, space=8)
        outer.addWidget(self.table, 1)
        outer.addLayout(row(self.edit_button, self.out_button, self.remove_button, 1, self.remove_event_button))
        outer.addWidget(self.events)
        outer.addWidget(self.editor)

    def show_run(self, run: DryingRun | None) -> None:
        """List the weighings of a run, the newest first. The chosen one stays chosen; who was at the newest comes
        to one that is newer."""
        same = self.run is not None and run is not None and self.run.batch.id == run.batch.id
        at, chosen = self.table.currentRow(), self.chosen() if same else None
        kept = None if at <= 0 or chosen is None else chosen.id
        self.run = run
        points = sorted((*run.points, *run.others, *run.left_out), key=lambda p: p.at, reverse=True) if run else []
        self.lines = [p for p in points if p.weighing is not None]
        self.table.setRowCount(len(self.lines))
        for line, point in enumerate(self.lines):
            for place, text in enumerate(self.cells(point, run) if run is not None else ()):
                item = QTableWidgetItem(text)
                if place in _FIGURES:
                    item.setTextAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
                self.table.setItem(line, place, item)
        for place in _SPARED:
            cells = (self.table.item(line, place) for line in range(len(self.lines)))
            self.table.setColumnHidden(place, not any(cell and cell.text() not in ("", "—") for cell in cells))
        across = self.table.horizontalHeader()
        across.setStretchLastSection(False)
        self.table.resizeColumnsToContents()
        across.setStretchLastSection(True)  # anew: the last one in view may be another
        if self.lines:
            ids = [p.weighing.id for p in self.lines if p.weighing is not None]
            gone = min(at, len(ids) - 1) if kept is not None else 0
            self.table.setCurrentCell(ids.index(kept) if kept in ids else gone, 0)
        for widget in (self.edit_button, self.out_button, self.remove_button):
            widget.setEnabled(bool(self.lines))
        self._name_leaving()
        events = run.events if run else ()
        said = [f"{show_moment(self.session, e.at)}: {event_words(e, self.session.style)}" for e in events]
        self.events.setText("\n".join(said))
        self.events.setVisible(bool(said))
        self.remove_event_button.setVisible(any(e.kind != TAKEN_OFF for e in events))
        if self.editing is not None and not any(p.weighing == self.editing for p in self.lines):
            self.leave()

    def cells(self, point: WeighedPoint, run: DryingRun) -> tuple[str, ...]:
        """The texts of one line, in the order of the headings."""
        weighing, style = point.weighing, self.session.style
        assert weighing is not None
        here = self.session.kitchen.local(weighing.at)
        moisture = "—"
        if point.mr is not None and run.load is not None:
            moisture = style.percent(100 * (1 - run.load.solids / point.net_g), 0)
        return (
            f"{weekday_words(here)}, {clock(here)}",
            style.number(point.hours, 1),
            scale_style(run, style).mass(point.net_g),
            moisture,
            weighing.gross.typed or style.mass(weighing.gross.si),
            (weighing.tare.typed or style.mass(weighing.tare.si)) if weighing.tare and weighing.tare.si else "—",
            weighing.vessel or SCOPE_WORDS.get(weighing.scope, weighing.scope),
            _air(weighing, style),
            ", ".join(filter(None, ("left out" if weighing.left_out else "", weighing.instrument, weighing.note))),
        )

    def chosen(self) -> Weighing | None:
        """The weighing of the line in focus."""
        line = self.table.currentRow()
        return self.lines[line].weighing if 0 <= line < len(self.lines) else None

    def _acts(self) -> list[tuple[str, Callable[[], None]]]:
        return [("&Correct…", self.edit), ("&Remove\tDel", self.remove)] if self.chosen() is not None else []

    # --- acts --------------------------------------------------------------------------------------------------

    def edit(self) -> None:
        """Open the entries below for the chosen line."""
        weighing = self.chosen()
        if weighing is None:
            return
        self.kept.rest()
        self.editing = weighing
        for field, value in ((self.gross, weighing.gross), (self.tare, weighing.tare)):
            field.set_unit(unit_typed(value) if value is not None and value.typed else self.session.style.mass_unit)
            field.set_value(value)
        self.at.set_value(weighing.at)
        self.scope.set_value(weighing.scope)
        self.heat.set_value(weighing.dryer_temperature)
        self.kept.shown(weighing.id)
        self.editor.show()
        self.gross.setFocus()
        self.gross.edit.selectAll()

    def save(self, *, keep: bool = False) -> None:
        """Write the corrected weighing; with `keep` also where it can't be true, left out of the curve."""
        before = self.editing
        if (
            before is None
            or not self.gross.require("What did the scale show?")
            or not self.at.require("When was it?")
        ):
            return
        if self.tare.problem is not None or self.heat.problem is not None:
            return
        at = self.at.value()
        same = self.at.write(before.at) == self.at.text()
        corrected = replace(
            before,
            gross=with_unit(self.gross.value(), self.gross.default_unit),
            tare=with_unit(self.tare.value(), self.tare.default_unit) if self.tare.value() else None,
            at=before.at if same else at,
            scope=self.scope.value(),
            dryer_temperature=self.heat.value(),
        )
        self.editing = None
        if self.session.act_on([before], correct_weighing, corrected, keep=keep) is None:
            self.editing = before
            problem = self.session.problem
            if isinstance(problem, DoubtfulWeight):
                self.question.setText(problem.doubt.question)
                self.session.told_beside(problem)
                for widget in (self.keep_button, self.question):
                    widget.show()
                self.gross.setFocus()
                return
            field = {"gross": self.gross, "tare": self.tare, "at": self.at}.get(problem.field if problem else "")
            if problem is not None and field is not None:
                field.show_problem(problem)
                field.setFocus()
            return
        self.kept.saved()
        self.leave()

    def leave(self) -> None:
        """Close the entries; what was typed there is kept."""
        self.kept.rest()
        self.editing = None
        for widget in (self.editor, self.keep_button, self.question):
            widget.hide()
        self.table.setFocus()

    def leave_out(self) -> None:
        """Leave the chosen weighing out of the curve, or take it in again."""
        weighing = self.chosen()
        if weighing is not None:
            self.session.act(leave_out, weighing.id, out=not weighing.left_out)

    def _name_leaving(self) -> None:
        weighing = self.chosen()
        self.out_button.setText("&Take in" if weighing is not None and weighing.left_out else "&Leave out")

    def remove(self) -> None:
        """Take the chosen weighing out."""
        weighing = self.chosen()
        if weighing is not None:
            self.session.act(remove_weighing, weighing.id)

    def remove_last_event(self) -> None:
        """Remove the last note."""
        notes = [e for e in self.run.events if e.kind != TAKEN_OFF] if self.run else []
        if notes:
            self.session.act(remove_event, notes[-1].id)


def _air(weighing: Weighing, style: Style) -> str:
    """The air in the dryer, as it was read with the weighing."""
    damp = weighing.dryer_humidity_pct
    if damp is None:
        return style.show(weighing.dryer_temperature)
    warmth = f"{style.show(weighing.dryer_temperature)}, " if weighing.dryer_temperature is not None else ""
    return f"{warmth}{style.percent(damp)} humidity"
