"""The lots a trip may eat: what each gives, its standing on the way, and the way to it on the shelf."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QAbstractItemView, QHeaderView, QTableWidget, QTableWidgetItem

from dryhouse.desk.session import Session
from dryhouse.desk.widgets.table_menu import TableMenu
from dryhouse.kitchen.trips.provisioning import Plan
from dryhouse.words.dates import day_words, weekday_words

_HEADS = ("Lot", "Left", "Drawn", "Serves until", "Keep-by", "Remark")


class LotsTable(QTableWidget):
    """Enter or a double click goes to the lot on the shelf."""

    def __init__(self, session: Session) -> None:
        super().__init__(0, len(_HEADS))
        self.session = session
        TableMenu(session, self, "Lots of the trip")
        self.setAccessibleName("Lots of the trip")
        self.setHorizontalHeaderLabels(_HEADS)
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.setTabKeyNavigation(False)
        self.setShowGrid(False)
        self.verticalHeader().hide()
        self.verticalHeader().setMinimumSectionSize(session.theme.tokens.target - 8)
        self.verticalHeader().setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
        for n in range(len(_HEADS)):
            wide = n in (0, len(_HEADS) - 1)
            mode = QHeaderView.ResizeMode.Stretch if wide else QHeaderView.ResizeMode.ResizeToContents
            self.horizontalHeader().setSectionResizeMode(n, mode)
        self.horizontalHeader().sectionResized.connect(lambda *_change: self.resizeRowsToContents())
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

    def _go(self, item: QTableWidgetItem) -> None:
        number = int(item.data(Qt.ItemDataRole.UserRole))
        if number > 0:
            self.session.open("shelf", "lot", number)
        else:
            self.session.open("journal", "batch", -number)
