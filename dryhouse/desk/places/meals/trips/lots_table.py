"""The lots a trip may eat: what each gives, its standing on the way, and the way to it on the shelf."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QAbstractItemView, QHeaderView, QTableWidget, QTableWidgetItem

from dryhouse.desk.measures import scaled
from dryhouse.desk.session import Session
from dryhouse.desk.widgets.item_table import dress, fit_lines
from dryhouse.desk.widgets.table_menu import TableMenu
from dryhouse.kitchen.trips.provisioning import Plan
from dryhouse.words.dates import day_words, weekday_words

_HEADS = ("Lot", "Left", "Drawn", "Serves until", "Keep-by", "Remark")

_IN_WORDS = (0, len(_HEADS) - 1)
_SPARED = (2, 3)
"""Columns that are shown only where something stands in them: drawn, serves until."""
_LEAST_WIDE = 150
"""Pixels, at our usual text, of a column of words at least."""


class LotsTable(QTableWidget):
    """Enter or a double click goes to the lot on the shelf."""

    def __init__(self, session: Session) -> None:
        super().__init__(0, len(_HEADS))
        self.session = session
        TableMenu(session, self, "Lots of the trip")
        self.setAccessibleName("Lots of the trip")
        dress(self, _HEADS)
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.setTabKeyNavigation(False)
        self.verticalHeader().hide()
        self.verticalHeader().setMinimumSectionSize(session.theme.tokens.target - 8)
        self.verticalHeader().setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
        for n in range(len(_HEADS)):
            mode = QHeaderView.ResizeMode.Fixed if n in _IN_WORDS else QHeaderView.ResizeMode.ResizeToContents
            self.horizontalHeader().setSectionResizeMode(n, mode)
        fit_lines(self)
        self.itemActivated.connect(self._go)

    def show_plan(self, plan: Plan | None) -> None:
        """A line for each lot of the foods the trip eats."""
        lots = () if plan is None else plan.lots
        style = self.session.style
        self.setRowCount(len(lots))
        for row, lot in enumerate(lots):
            drawn = sum(d.grams for d in plan.cover.draws if d.lot == lot.number) if plan is not None else 0.0
            texts = (
                lot.name,
                "—" if lot.grams is None else style.mass(lot.grams),
                style.mass(drawn) if drawn else "—",
                "—" if lot.last_day is None else weekday_words(lot.last_day),
                "—" if lot.keep_by is None else day_words(lot.keep_by),
                lot.why,
            )
            for column, text in enumerate(texts):
                item = QTableWidgetItem(text)
                item.setData(Qt.ItemDataRole.UserRole, lot.number)
                item.setToolTip(text)
                self.setItem(row, column, item)
        for column in _SPARED:
            cells = (self.item(row, column) for row in range(self.rowCount()))
            self.setColumnHidden(column, not any(cell and cell.text() != "—" for cell in cells))
        self._share_width()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._share_width()

    def _share_width(self) -> None:
        """What is said in words has half each of what the figures leave; where that is too little it scrolls."""
        figures = sum(self.columnWidth(n) for n in range(len(_HEADS)) if n not in _IN_WORDS)
        each = max((self.viewport().width() - figures) // len(_IN_WORDS), scaled(_LEAST_WIDE))
        for n in _IN_WORDS:
            self.setColumnWidth(n, each)

    def _go(self, item: QTableWidgetItem) -> None:
        number = int(item.data(Qt.ItemDataRole.UserRole))
        if number > 0:
            self.session.open("shelf", "lot", number)
        else:
            self.session.open("journal", "batch", -number)
