"""Bringing weighings in from a file: what its columns mean, what each line says, then all of it at once."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QComboBox, QFileDialog, QHeaderView, QTableWidget, QTableWidgetItem, QWidget

from dryhouse.desk.measures import hold
from dryhouse.desk.places.dryer.strip import with_unit
from dryhouse.desk.session import Session
from dryhouse.desk.widgets.basics import button, column, inner_key, row, text_label
from dryhouse.desk.widgets.fields import ChoiceField
from dryhouse.desk.widgets.item_table import dress
from dryhouse.desk.widgets.moment_field import show_moment
from dryhouse.desk.widgets.table_menu import TableMenu
from dryhouse.desk.widgets.wrapping import Wrapping
from dryhouse.kitchen.dryer.runs import DryingRun
from dryhouse.kitchen.dryer.weigh_in import OF
from dryhouse.kitchen.dryer.weighing_files import SheetWeighings, import_weighings, read_weighings
from dryhouse.kitchen.dryer.weighing_sheets import (
    HOURS,
    MINUTES,
    MOMENTS,
    Sheet,
    SheetColumns,
    guess,
    read_file,
)
from dryhouse.kitchen.records import Weighing
from dryhouse.kitchen.records.shapes import label_of
from dryhouse.science.quantities import Mass

_SHOWN = 400
_KINDS = ((HOURS, "hours since start"), (MINUTES, "minutes since start"), (MOMENTS, "clock times or dates"))
_UNITS = (("g", "grams"), ("kg", "kilograms"), ("oz", "ounces"), ("lb", "pounds"))
_COLUMN_WIDE = 250


class ImportPage(QWidget):
    """Every choice shows at once what it makes of the file; nothing is written before “Bring in”."""

    brought_in = Signal(int)
    left = Signal()

    def __init__(self, session: Session) -> None:
        super().__init__()
        self.session = session
        self.run: DryingRun | None = None
        self.sheet: Sheet | None = None
        self.mapped: SheetWeighings | None = None
        self.guessed = SheetColumns()
        self.heading = text_label("", "heading")
        self.summary = text_label("", "label")
        self.time = ChoiceField(session, "Time column")
        self.kind = ChoiceField(session, "Times are", _KINDS)
        self.mass = ChoiceField(session, "Weight column")
        self.unit = ChoiceField(session, "Weights are in", _UNITS)
        self.tare = ChoiceField(session, "Tare column")
        self.heat = ChoiceField(session, "Temperature column")
        self.degrees = ChoiceField(session, "Degrees are", (("F", "Fahrenheit"), ("C", "Celsius")))
        self.scope = ChoiceField(session, label_of(Weighing, "scope"), OF.items())
        self.choices = (self.time, self.kind, self.mass, self.unit, self.tare, self.heat, self.degrees, self.scope)
        self.table = QTableWidget(0, 4)
        TableMenu(session, self.table, "Lines")
        dress(self.table, ("Line", "When", "Scale reading", "What is wrong"))
        self.table.verticalHeader().hide()
        self.table.setEditTriggers(QTableWidget.EditTrigger.NoEditTriggers)
        self.table.setSelectionBehavior(QTableWidget.SelectionBehavior.SelectRows)
        self.table.setTabKeyNavigation(False)
        self.table.setAccessibleName("Lines of the file")
        self.table.horizontalHeader().setStretchLastSection(True)
        self.table.setWordWrap(True)
        self.table.verticalHeader().setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
        self.go = button("&Import", self.bring_in, "primary")
        self.leave = button("Close", self.left.emit, hint="Esc")
        inside = column(self, space=12)
        inside.addWidget(self.heading)
        for choice in self.choices:
            choice.box.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToContents)
            hold(choice, most_wide=_COLUMN_WIDE)
        inside.addLayout(Wrapping(*self.choices, space=16))
        inside.addWidget(self.summary)
        inside.addWidget(self.table, 1)
        inside.addLayout(row(self.go, self.leave, 1))
        for choice in self.choices:
            choice.changed.connect(self.show_preview)
        inner_key(self, "Esc", self.left.emit)

    def choose_file(self, run: DryingRun) -> bool:
        """Ask for a file and open it; False where none was chosen or it could not be read."""
        path, _ = QFileDialog.getOpenFileName(
            self, "A file of weighings", "", "Tables (*.csv *.tsv *.txt);;All files (*)"
        )
        return bool(path) and self.open(run, Path(path))

    def open(self, run: DryingRun, path: Path) -> bool:
        """Show what a file holds."""
        sheet = self.session.attempt(read_file, path)
        if sheet is None:
            return False
        self.run, self.sheet, self.guessed = run, sheet, guess(sheet)
        self.heading.setText(f"Weighings from {path.name} into {run.title}, batch {run.batch.id}")
        columns = [(n, name) for n, name in enumerate(sheet.header)]
        absent = [(None, "no column"), *columns]
        g = self.guessed
        values = (g.time, g.time_kind, g.mass, g.mass_unit, g.tare, g.temperature, g.temperature_unit, g.scope)
        for choice, value in zip(self.choices, values, strict=True):
            choice.blockSignals(True)
            if choice in (self.time, self.mass, self.tare, self.heat):
                choice.set_choices(absent)
            choice.set_value(value)
            choice.blockSignals(False)
        self.show_preview()
        self.go.setFocus()
        return True

    def mapping(self) -> SheetColumns:
        """What the choices say."""
        return replace(
            self.guessed,
            time=self.time.value(),
            time_kind=self.kind.value(),
            mass=self.mass.value(),
            mass_unit=self.unit.value(),
            tare=self.tare.value(),
            temperature=self.heat.value(),
            temperature_unit=self.degrees.value(),
            scope=self.scope.value(),
        )

    def show_preview(self) -> None:
        """Read every line again by the present choices."""
        if self.run is None or self.sheet is None:
            return
        self.mapped = self.session.attempt(
            read_weighings, self.session.kitchen, self.run.batch.id, self.sheet, self.mapping()
        )
        read, wrong = (self.mapped.rows, self.mapped.errors) if self.mapped else ((), ())
        lines = [(r.line, show_moment(self.session, r.at), self._read_as(r.gross), "") for r in read]
        lines += [(e.line, "", "", e.sentence) for e in wrong]
        lines.sort()
        self.table.setRowCount(min(len(lines), _SHOWN))
        for place, line in enumerate(lines[:_SHOWN]):
            for n, text in enumerate(line):
                self.table.setItem(place, n, QTableWidgetItem(str(text)))
        for place in range(self.table.columnCount() - 1):
            self.table.resizeColumnToContents(place)
        said = f"{len(read)} {'weighing' if len(read) == 1 else 'weighings'} can be imported"
        if wrong:
            lines_said = "1 line cannot" if len(wrong) == 1 else f"{len(wrong)} lines cannot"
            said += f"; {lines_said} be read and would be left out"
        said += "."
        self.summary.setText(said + (f" The first {_SHOWN} are shown." if len(lines) > _SHOWN else ""))
        self.go.setText(f"&Import {len(read)}")
        self.go.setEnabled(bool(read))

    def _read_as(self, gross: Mass) -> str:
        """A reading with its unit, as it stands in the file."""
        return with_unit(gross, self.unit.value() or "g").typed or self.session.style.show(gross)

    def bring_in(self) -> None:
        """Write them."""
        if self.run is None or self.mapped is None:
            return
        if self.session.act(import_weighings, self.run.batch.id, self.mapped) is not None:
            self.brought_in.emit(self.run.batch.id)
