"""A place that is a list: the list and what is chosen in it, a page in their stead, or what to do while empty."""

from __future__ import annotations

from typing import Any

from PySide6.QtWidgets import QWidget

from dryhouse.desk.place import DeskPlace
from dryhouse.desk.widgets.basics import Pages, column
from dryhouse.desk.widgets.empty_state import EmptyState


class ListPlace(DeskPlace):
    """`listing` has a `table`, a `filter` and `counted(number, narrowed)`; `lists` is the page it stands on."""

    listing: Any
    lists: QWidget
    empty_state: EmptyState
    pages: Pages
    _narrowed = False

    def stack_pages(self) -> None:
        """Put the list and the page for an empty place in; call it once both are built."""
        self.pages = Pages()
        for page in (self.lists, self.empty_state):
            self.pages.addWidget(page)
        column(self, margin=20).addWidget(self.pages)

    def is_bare(self, number: int, narrowed: bool) -> bool:
        """Whether nothing was ever recorded here, rather than that nothing fits."""
        return not number and not narrowed

    def arrive(self) -> None:
        if self.pages.currentWidget() is self.lists:
            self.listing.table.setFocus()
        elif self.pages.currentWidget() is self.empty_state:
            self.empty_state.buttons[0].setFocus()

    def show_list(self) -> None:
        """Back to the list."""
        self.pages.setCurrentWidget(self.lists)
        self.count(len(self.listing.table.rows.ids), self._narrowed)
        self.arrive()

    def look_for(self) -> None:
        """Put the keyboard into the line that narrows the list."""
        self.show_list()
        self.listing.filter.setFocus()
        self.listing.filter.edit.selectAll()

    def count(self, number: int, narrowed: bool) -> None:
        """How many are listed now: show the list, or what to do where there is none."""
        self._narrowed = narrowed
        if self.pages.currentWidget() in (self.lists, self.empty_state):
            self.pages.setCurrentWidget(self.empty_state if self.is_bare(number, narrowed) else self.lists)
