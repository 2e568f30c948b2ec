"""Those who go: a line each with appetite, what they don't eat, and whether they fall ill more easily."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QAbstractItemView, QHeaderView, QTableWidget, QTableWidgetItem, QWidget

from dryhouse.desk.session import Session
from dryhouse.desk.widgets.basics import button, column, row, text_label
from dryhouse.desk.widgets.item_table import dress
from dryhouse.kitchen.records import TripPerson
from dryhouse.science.errors import InputProblem

_HEADS = ("Who", "Appetite, %", "Does not eat", "At risk")
_NAME, _APPETITE, _AVOIDS, _RISK = range(4)
_ROWS_HIGH = 150


class PeopleTable(QWidget):
    """Typed as in a table; an empty name takes the line off."""

    def __init__(self, session: Session) -> None:
        super().__init__()
        self.session = session
        self._ids: list[int] = []
        self.table = QTableWidget(0, len(_HEADS))
        self.table.setAccessibleName("Who goes")
        dress(self.table, _HEADS, line=session.theme.tokens.target - 8)
        self.table.verticalHeader().hide()
        self.table.setMaximumHeight(_ROWS_HIGH)
        self.table.setTabKeyNavigation(False)
        self.table.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        for n, mode in enumerate(("Stretch", "ResizeToContents", "Stretch", "ResizeToContents")):
            self.table.horizontalHeader().setSectionResizeMode(n, QHeaderView.ResizeMode[mode])
        self.add = button("Add a &person", self.add_person)
        said = "Only for those who eat more or less than usual, avoid something, or fall ill more easily."
        inside = column(self, space=4)
        head = row(text_label(said, "small"), self.add)
        head.setStretch(0, 1)
        inside.addLayout(head)
        inside.addWidget(self.table)

    def show_people(self, people: Sequence[TripPerson]) -> None:
        """A line for each of these."""
        self.table.setRowCount(0)
        self._ids = []
        for person in people:
            self._line(person)
        self.table.setVisible(bool(people))

    def typed(self) -> list[list[Any]]:
        """What stands in each line, to be put back."""
        return [
            [id, *(self._text(line, n) for n in (_NAME, _APPETITE, _AVOIDS)), self._is_at_risk(line)]
            for line, id in enumerate(self._ids)
        ]

    def put_back(self, typed: list[list[Any]]) -> None:
        """Lines as they were typed."""
        self.show_people([TripPerson(0, name, 100.0, avoids, risk, id) for id, name, _, avoids, risk in typed])
        for line, (_, _, appetite, _, _) in enumerate(typed):
            item = self.table.item(line, _APPETITE)
            if item is not None:
                item.setText(appetite)

    def _is_at_risk(self, line: int) -> bool:
        box = self.table.item(line, _RISK)
        return box is not None and box.checkState() == Qt.CheckState.Checked

    def add_person(self) -> None:
        """An empty line, ready to type a name."""
        self._line(TripPerson(0, ""))
        self.table.show()
        line = self.table.rowCount() - 1
        self.table.setCurrentCell(line, _NAME)
        self.table.setFocus()
        self.table.edit(self.table.model().index(line, _NAME))

    def people(self) -> list[TripPerson]:
        """Those who are named. Raises InputProblem where an appetite is no number."""
        found = []
        for line, id in enumerate(self._ids):
            name, appetite, avoids = (self._text(line, n) for n in (_NAME, _APPETITE, _AVOIDS))
            if not name:
                continue
            found.append(TripPerson(0, name, _percent(appetite), avoids, self._is_at_risk(line), id))
        return found

    def _text(self, line: int, at: int) -> str:
        item = self.table.item(line, at)
        return "" if item is None else item.text().strip()

    def _line(self, person: TripPerson) -> None:
        line = self.table.rowCount()
        self.table.insertRow(line)
        self._ids.append(person.id)
        for n, text in ((_NAME, person.name), (_APPETITE, f"{person.appetite_pct:g}"), (_AVOIDS, person.avoids)):
            self.table.setItem(line, n, QTableWidgetItem(text))
        box = QTableWidgetItem()
        box.setFlags(Qt.ItemFlag.ItemIsUserCheckable | Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable)
        box.setCheckState(Qt.CheckState.Checked if person.at_risk else Qt.CheckState.Unchecked)
        box.setToolTip("Under 5, pregnant, older, or with a weak immune system")
        self.table.setItem(line, _RISK, box)


def _percent(text: str) -> float:
    try:
        return float(text.rstrip("% ").replace(",", ".")) if text else 100.0
    except ValueError:
        raise InputProblem(f"“{text}” is no appetite; write it in percent of a usual one, such as 120.") from None
