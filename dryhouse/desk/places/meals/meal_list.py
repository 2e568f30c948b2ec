"""The list of meals, narrowed by what one types."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QMimeData, Qt, Signal
from PySide6.QtWidgets import QListWidget, QListWidgetItem, QWidget

from dryhouse.desk.session import Session
from dryhouse.desk.widgets.basics import column
from dryhouse.desk.widgets.filter_bar import FilterBar
from dryhouse.kitchen.meals.meals import meals

MEAL_MIME = "application/x-dryhouse-meal"


class _List(QListWidget):
    """A list whose lines can be dragged onto a day."""

    def mimeTypes(self) -> list[str]:
        return [MEAL_MIME]

    def mimeData(self, items: Sequence[QListWidgetItem]) -> QMimeData:
        data = QMimeData()
        if items:
            data.setData(MEAL_MIME, str(items[0].data(Qt.ItemDataRole.UserRole)).encode())
            data.setText(items[0].text())
        return data


class MealList(QWidget):
    """`chosen` gives the number of the meal the cursor is on, `opened` the one Enter was pressed on."""

    chosen = Signal(int)
    opened = Signal(int)

    def __init__(self, session: Session, name: str = "Meals") -> None:
        super().__init__()
        self.session = session
        self.filter = FilterBar(f"Find among {name.lower()}", "Find a meal")
        self.list = _List()
        self.list.setAccessibleName(name)
        self.list.setDragEnabled(True)
        self.list.setSpacing(1)
        self.list.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.list.setTextElideMode(Qt.TextElideMode.ElideRight)
        inside = column(self, space=8)
        inside.addWidget(self.filter)
        inside.addWidget(self.list, 1)
        self.filter.changed.connect(lambda _t: self.refresh())
        self.filter.down.connect(self.list.setFocus)
        self.list.currentItemChanged.connect(self._choose)
        self.list.itemActivated.connect(lambda item: self.opened.emit(self._id(item)))

    def _choose(self, item: QListWidgetItem | None, _before: QListWidgetItem | None) -> None:
        if item is not None:
            self.chosen.emit(self._id(item))

    def refresh(self) -> int:
        """Read the list again, keeping the cursor; answers how many there are before narrowing."""
        known = meals(self.session.kitchen)
        wanted = self.filter.text().casefold().split()
        before = self.current()
        self.list.blockSignals(True)
        self.list.clear()
        for meal in known:
            if all(word in meal.name.casefold() for word in wanted):
                item = QListWidgetItem(meal.name, self.list)
                item.setData(Qt.ItemDataRole.UserRole, meal.id)
        self.choose(before)
        self.list.blockSignals(False)
        return len(known)

    def current(self) -> int:
        """The meal the cursor is on; 0 for none."""
        item = self.list.currentItem()
        return 0 if item is None else self._id(item)

    def choose(self, meal: int) -> bool:
        """Put the cursor on a meal."""
        for n in range(self.list.count()):
            if self._id(self.list.item(n)) == meal:
                self.list.setCurrentRow(n)
                return True
        return False

    def _id(self, item: QListWidgetItem) -> int:
        return int(item.data(Qt.ItemDataRole.UserRole))
