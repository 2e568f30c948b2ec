"""The shopping list on the screen: ticked off as it is bought, each food in the form she buys it in."""

from __future__ import annotations

from PySide6.QtCore import QSize, Qt
from PySide6.QtWidgets import QAbstractItemView, QComboBox, QHeaderView, QTableWidget, QTableWidgetItem, QWidget

from dryhouse.desk.session import Session
from dryhouse.desk.widgets.basics import column, scrolling, text_label
from dryhouse.desk.widgets.cautions_view import CautionsView
from dryhouse.desk.widgets.choice_box import ChoiceBox
from dryhouse.desk.widgets.item_table import dress, fit_lines
from dryhouse.desk.widgets.table_menu import TableMenu
from dryhouse.kitchen.trips.plan_rows import BuyRow, buy_rows
from dryhouse.kitchen.trips.provisioning import Plan
from dryhouse.kitchen.trips.shopping import buy_as, tick
from dryhouse.words.shopping import caption

_HEADS = ("Bought", "What", "How much", "Of", "Bought as")
_CAUTIONS_HIGH = 160
_CELL_KEEPS = 20
NAME, AMOUNT, NOTE, FORM = 1, 2, 3, 4


class _InCell(ChoiceBox):
    """A box in a cell of a table, which keeps some of the column's width for itself."""

    def sizeHint(self) -> QSize:
        return super().sizeHint() + QSize(_CELL_KEEPS, 0)


class ShoppingPage(QWidget):
    """Space ticks a line off; the form of a food is chosen in its last column and remembered."""

    def __init__(self, session: Session) -> None:
        super().__init__()
        self.session = session
        self.plan: Plan | None = None
        self.table = QTableWidget(0, len(_HEADS))
        TableMenu(session, self.table, "Shopping")
        self.table.setAccessibleName("Shopping list")
        dress(self.table, _HEADS)
        self.table.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.table.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.table.setTabKeyNavigation(False)
        self.table.verticalHeader().hide()
        self.table.verticalHeader().setMinimumSectionSize(session.theme.tokens.target - 8)
        modes = QHeaderView.ResizeMode
        for n in range(len(_HEADS)):
            self.table.horizontalHeader().setSectionResizeMode(
                n, modes.Stretch if n in (NAME, NOTE) else modes.ResizeToContents
            )
        fit_lines(self.table)
        self.nothing = text_label("Nothing to buy.", "muted")
        self.cautions = CautionsView(session)
        below = scrolling(self.cautions, keeps=True)
        below.setMaximumHeight(_CAUTIONS_HIGH)
        self.cautions.seen.connect(below.setVisible)
        inside = column(self, space=8)
        inside.addWidget(self.nothing)
        inside.addWidget(self.table, 1)
        inside.addWidget(below)
        self.table.itemChanged.connect(self._ticked)

    def show_plan(self, plan: Plan | None) -> None:
        """Show the list of a plan, the cursor where it was."""
        self.plan = plan
        at = self.table.currentRow()
        self.table.blockSignals(True)
        self.table.setRowCount(0)
        for aisle, rows in () if plan is None else buy_rows(plan, self.session.style):
            self._add_aisle(aisle)
            for row in rows:
                self._add(row)
        self.table.blockSignals(False)
        self.table.resizeRowsToContents()
        if at >= 0:
            self.table.setCurrentCell(min(at, self.table.rowCount() - 1), 0)
        self.nothing.setVisible(not self.table.rowCount())
        self.table.setVisible(bool(self.table.rowCount()))
        self.cautions.set_cautions(c for buy in (plan.shopping if plan is not None else ()) for c in buy.cautions)

    def _add_aisle(self, name: str) -> None:
        line = self.table.rowCount()
        self.table.insertRow(line)
        item = QTableWidgetItem(name)
        font = item.font()
        font.setBold(True)
        item.setFont(font)
        item.setFlags(Qt.ItemFlag.ItemIsEnabled)
        self.table.setItem(line, 0, item)
        self.table.setSpan(line, 0, 1, len(_HEADS))

    def _add(self, row: BuyRow) -> None:
        line = self.table.rowCount()
        self.table.insertRow(line)
        box = QTableWidgetItem()
        box.setFlags(Qt.ItemFlag.ItemIsUserCheckable | Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable)
        box.setCheckState(Qt.CheckState.Checked if row.buy.ticked else Qt.CheckState.Unchecked)
        box.setData(Qt.ItemDataRole.UserRole, row.buy.key)
        box.setData(Qt.ItemDataRole.AccessibleTextRole, row.line)
        self.table.setItem(line, 0, box)
        for at, text in ((NAME, row.name), (AMOUNT, row.amount), (NOTE, row.note)):
            item = QTableWidgetItem(text)
            item.setToolTip(f"The trip needs {row.needs}." if at == AMOUNT and row.needs else text)
            self.table.setItem(line, at, item)
        if row.buy.forms:
            self.table.setCellWidget(line, FORM, self._choice(row))

    def _choice(self, row: BuyRow) -> QComboBox:
        food = row.buy.key.removeprefix("dry ")
        box = _InCell()
        box.setAccessibleName(f"{row.name}, bought as")
        box.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToContents)
        for form in row.buy.forms:
            box.addItem(caption(food, form), form)
        box.setCurrentIndex(row.buy.forms.index(row.buy.form))
        box.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        box.wheelEvent = lambda event: event.ignore()  # type: ignore[method-assign]
        box.activated.connect(lambda _n, b=box, f=food: self.session.act(buy_as, f, b.currentData()))
        return box

    def _ticked(self, item: QTableWidgetItem) -> None:
        key = item.data(Qt.ItemDataRole.UserRole)
        if self.plan is not None and key and item.column() == 0:
            self.session.act(tick, self.plan.trip.id, key, item.checkState() == Qt.CheckState.Checked)
