"""A table of records, the line and the boxes that narrow it, and how many are listed."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QComboBox, QWidget

from dryhouse.desk.session import Session
from dryhouse.desk.widgets.basics import column, text_label
from dryhouse.desk.widgets.choices import FittingList
from dryhouse.desk.widgets.filter_bar import FilterBar
from dryhouse.desk.widgets.kept_columns import keep_columns
from dryhouse.desk.widgets.paged_table import PagedTable


class NarrowedList(QWidget):
    """The table and how many it lists; `filter` is a line of its own, to stand above them.

    `chosen` and `opened` give a record's number. A list of its own says in `list_again` what the filter leaves.
    """

    chosen = Signal(object)
    opened = Signal(object)
    counted = Signal(int, bool)
    """How many are listed, and whether the list is narrowed."""

    def __init__(self, session: Session, *, sort: str, descending: bool = False) -> None:
        super().__init__()
        self.session = session
        self._sort, self._descending = sort, descending
        self.count = text_label("", "small")

    def build(
        self,
        table: PagedTable,
        filter: FilterBar,
        boxes: tuple[QComboBox, ...],
        *,
        picture: str,
        none_fits: str,
    ) -> None:
        """Put the parts together; call it once they are made."""
        self.table, self.filter, self._boxes = table, filter, boxes
        table.show_sort(self._sort, self._descending)
        keep_columns(self.session, table)
        self.pages = FittingList(self.session, table, picture, none_fits, self.clear)
        inside = column(self, space=8)
        inside.addWidget(self.pages, 1)
        inside.addWidget(self.count)
        filter.changed.connect(lambda _text: self.list_again())
        filter.down.connect(table.setFocus)
        for box in boxes:
            box.currentIndexChanged.connect(lambda _i: self.list_again())
        table.sort_asked.connect(self._sort_by)
        table.chosen.connect(self.chosen)
        table.opened.connect(self.opened)
        self.session.style_changed.connect(table.rows.forget)

    def list_again(self) -> None:
        """List what the filter leaves, in the chosen order."""

    def clear(self) -> None:
        """Take every narrowing away."""
        self.filter.edit.clear()
        for box in self._boxes:
            box.setCurrentIndex(0)
        self.filter.tell()

    def show_row(self, id: int) -> None:
        """Choose a record, taking the filter away where it hides it."""
        if not self.table.choose(id):
            self.clear()
            self.list_again()
            self.table.choose(id)

    def _sort_by(self, key: str, descending: bool) -> None:
        self._sort, self._descending = key, descending
        self.list_again()
