"""The ingredients of a meal, line by line, each editable in place; a new line opens when the last is used."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QGridLayout, QWidget

from dryhouse.desk.places.meals.part_row import PartRow
from dryhouse.desk.session import Session
from dryhouse.desk.widgets.basics import tab_through, text_label
from dryhouse.kitchen.meals.sheet import MealSheet
from dryhouse.kitchen.records import MealPart
from dryhouse.kitchen.settings import preference, set_preference
from dryhouse.kitchen.shelf.lines import ShelfLine

_HEADS = ("Ingredient", "Amount, dry", "From", "Volume", "Water", "Energy")
_WIDEST = (3, 2, 3, 1, 1, 1)
_LEAST = (140, 84, 120, 56, 56, 60)
_OF_EACH = (4, 5)
"""The columns of water and energy: shown where they are asked for, the sums stand above the meal."""
_OF_EACH_KEY = "columns.ingredients"


class PartsTable(QWidget):
    """Lines as typed; `parts()` answers those that are understood."""

    changed = Signal()
    swap_asked = Signal(object)
    lot_asked = Signal(int)

    def __init__(self, session: Session) -> None:
        super().__init__()
        self.session = session
        self.rows: list[PartRow] = []
        self._shelf: dict[str, list[ShelfLine]] = {}
        self._next_line = 1
        self.grid = QGridLayout(self)
        self.grid.setContentsMargins(0, 0, 0, 0)
        self.grid.setHorizontalSpacing(5)
        self.grid.setVerticalSpacing(6)
        self._heads = [text_label(head, "small", wrap=False) for head in _HEADS]
        for n, head in enumerate(self._heads):
            self.grid.addWidget(head, 0, n)
        self._of_each = preference(session.kitchen, _OF_EACH_KEY) == "yes"
        self._show_columns()
        self.set_parts(())

    def show_of_each(self, shown: bool) -> None:
        """Show the water and the energy of each ingredient, or not; it stays so."""
        self._of_each = shown
        self._show_columns()
        self.session.attempt(set_preference, self.session.kitchen, _OF_EACH_KEY, "yes" if shown else "")

    def _show_columns(self) -> None:
        for n, wide in enumerate(_WIDEST):
            shown = self._of_each or n not in _OF_EACH
            self.grid.setColumnStretch(n, wide if shown else 0)
            self.grid.setColumnMinimumWidth(n, _LEAST[n] if shown else 0)
            self._heads[n].setVisible(shown)
        for row in self.rows:
            row.show_of_each(self._of_each)

    def set_parts(self, parts: Sequence[MealPart]) -> None:
        """Show these parts and one empty line."""
        for row in list(self.rows):
            self._drop(row)
        for part in parts:
            self._add(part)
        self._add()

    def typed(self) -> list[list[str]]:
        """What stands in each line, to be put back."""
        return [[row.name.text().strip(), row.amount.text().strip()] for row in self.rows if not row.is_empty()]

    def put_back(self, typed: Sequence[Sequence[str]]) -> None:
        """Lines as they were typed; a line that names the same as before keeps all that was recorded of it."""
        for row in [row for row in self.rows[len(typed) :] if not row.is_empty()]:
            self._drop(row)
        for place, (name, amount) in enumerate(typed):
            row = self.rows[place] if place < len(self.rows) else self._add()
            if row.name.text().strip() != name:
                row.name.setText(name)
                row.name.settle()
            row.amount.setText(amount)
        if not self.rows or not self.rows[-1].is_empty():
            self._add()
        self.changed.emit()

    def more_of(self, line: int) -> QWidget:
        """The button of a line that opens what else can be done with it; the last line's where it is gone."""
        return self.rows[min(line, len(self.rows) - 1)].more

    def set_shelf(self, shelf: dict[str, list[ShelfLine]]) -> None:
        """The lots that may be chosen, by food."""
        self._shelf = shelf
        for row in self.rows:
            row.offer_lots(shelf)

    def parts(self) -> tuple[MealPart, ...]:
        """Every line that is understood, in order."""
        return tuple(part for row in self.rows if (part := row.part()) is not None)

    def problems(self) -> tuple[str, ...]:
        """What is wrong in the lines, a sentence each."""
        for row in self.rows:
            row.part()
        return tuple(row.problem for row in self.rows if row.problem)

    def point_out(self) -> None:
        """Put the keyboard into the first line that is not understood, or the empty one; what is wrong stands below
        the lines."""
        line = next((row for row in self.rows if row.problem), self.first_empty())
        (line.name if line.name.choice is None else line.amount).setFocus()

    def show_sheet(self, sheet: MealSheet | None) -> None:
        """What each line comes to; lines without a part stay blank."""
        lines = iter(sheet.parts if sheet is not None else ())
        for row in self.rows:
            row.show_line(next(lines, None) if row.part() is not None else None)

    def first_empty(self) -> PartRow:
        """The line a new ingredient goes into."""
        return self.rows[-1]

    def _add(self, part: MealPart | None = None) -> PartRow:
        row = PartRow(self.session, len(self.rows) + 1, part)
        at = self._next_line
        self._next_line += 2
        for n, cell in enumerate(row.cells()):
            self.grid.addWidget(cell, at, n, Qt.AlignmentFlag.AlignVCenter)
            cell.show()  # the line has its height at once, also where the page is shown only later
        row.show_of_each(self._of_each)
        row.of_each_asked.connect(self.show_of_each)
        self.grid.addWidget(row.labels, at + 1, 0, 1, len(row.cells()))
        row.offer_lots(self._shelf)
        self.rows.append(row)
        row.changed.connect(lambda: self._changed(row))
        row.used.connect(lambda: self._used(row))
        row.remove_asked.connect(self.remove)
        row.swap_asked.connect(self.swap_asked)
        row.lot_asked.connect(self.lot_asked)
        row.label_asked.connect(lambda r: r.labels.setVisible(not r.labels.isVisible()))
        self._enable(row)
        return row

    def _changed(self, row: PartRow) -> None:
        row.offer_lots(self._shelf)
        self._enable(row)
        self.changed.emit()

    def _enable(self, row: PartRow) -> None:
        for piece in (row.label, row.swap, row.remove):
            piece.setEnabled(not row.is_empty())
        row.swap.setEnabled(row.number > 0)

    def _used(self, row: PartRow) -> None:
        if row is self.rows[-1] and not row.is_empty():
            before = row.name if row.name.hasFocus() else row.amount
            self._add()
            self.in_order(row.more, self.rows[-1])
            before.setFocus()

    def in_order(self, after: QWidget, *rows: PartRow) -> None:
        """Tab goes from there along each line and on to the next; without lines it is all of them."""
        cells = [cell for row in rows or self.rows for cell in row.cells()]
        tab_through(after, *(cell for cell in cells if cell.focusPolicy() != Qt.FocusPolicy.NoFocus))

    def remove(self, row: PartRow) -> None:
        """Take a line away."""
        at = self.rows.index(row)
        self._drop(row)
        if not self.rows or not self.rows[-1].is_empty():
            self._add()
        self.rows[min(at, len(self.rows) - 1)].name.setFocus()
        self.changed.emit()

    def _drop(self, row: PartRow) -> None:
        self.rows.remove(row)
        for cell in (*row.cells(), row.labels):
            self.grid.removeWidget(cell)
            cell.hide()
            cell.setParent(None)
            cell.deleteLater()
        row.deleteLater()
