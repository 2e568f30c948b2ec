"""A table over a `PagedModel`: lines chosen one or several at a time, sorted by its headings, its columns as the
person likes them, wholly by keyboard."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from typing import Any

from PySide6.QtCore import QEvent, QItemSelectionModel, QModelIndex, Qt, Signal
from PySide6.QtGui import QKeyEvent, QResizeEvent
from PySide6.QtWidgets import QAbstractItemView, QHeaderView, QMenu, QTableView

from dryhouse.desk.measures import hold_lines, scaled
from dryhouse.desk.models.paged import Column, PagedModel
from dryhouse.desk.widgets.table_text import chosen_lines

_ROW_HEIGHT = 40


class PagedTable(QTableView):
    """`chosen` follows the line in focus (None where there is none); `opened` is Enter or a double click;
    `sort_asked` is a click on a heading: the key and whether descending; `columns_chosen` is told what to keep."""

    chosen = Signal(object)
    opened = Signal(object)
    sort_asked = Signal(str, bool)
    columns_chosen = Signal(str)

    def __init__(
        self,
        name: str,
        columns: Sequence[Column],
        fetch: Callable[[Sequence[int]], Iterable[Any]],
        row_id: Callable[[Any], int],
    ) -> None:
        super().__init__()
        self.rows = PagedModel(columns, fetch, row_id, self)
        self._setting = False
        self._told: int | None = None
        self._shown: set[str] | None = None
        """Titles of the columns chosen by hand; None where nothing was chosen."""
        self.setModel(self.rows)
        self.setAccessibleName(name)
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.setSelectionMode(QAbstractItemView.SelectionMode.ExtendedSelection)
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.setTabKeyNavigation(False)
        self.setShowGrid(False)
        self.setWordWrap(False)
        self.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.setHorizontalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        lines = self.verticalHeader()
        lines.hide()
        lines.setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
        hold_lines(self, _ROW_HEIGHT)
        self._dress_headings()
        self.selectionModel().currentRowChanged.connect(self._moved)
        self.doubleClicked.connect(lambda index: self.opened.emit(self.rows.id_at(index.row())))

    @property
    def current_id(self) -> int | None:
        """The number of the chosen line."""
        return self.rows.id_at(self.currentIndex().row())

    def set_ids(self, ids: Sequence[int], *, same_list: bool = False) -> None:
        """List these; the chosen one stays chosen where it is still listed, else the first is; or, where it is
        the same list read again, the one that took the place of the one that went."""
        kept, before = self._told, self.currentIndex().row()
        self._setting = True
        self.rows.set_ids(ids)
        line = self.rows.line_of(kept) if kept is not None else -1
        if line < 0 and same_list:
            line = min(before, len(ids) - 1)
        if len(ids):
            self._go(max(line, 0))
        self._setting = False
        self._tell(self.current_id)

    def choose(self, id: int) -> bool:
        """Bring a record into view and choose it; False where it is not listed."""
        line = self.rows.line_of(id)
        if line >= 0:
            self._go(line)
        return line >= 0

    def show_sort(self, key: str, descending: bool) -> None:
        """Mark the heading the list is sorted by."""
        keys = [c.sort for c in self.rows.columns]
        if key in keys:
            order = Qt.SortOrder.DescendingOrder if descending else Qt.SortOrder.AscendingOrder
            header = self.horizontalHeader()
            header.blockSignals(True)
            header.setSortIndicator(keys.index(key), order)
            header.blockSignals(False)

    @property
    def chosen_ids(self) -> list[int]:
        """The numbers of the chosen lines: one, or many chosen with Shift or Ctrl."""
        return [id for line in chosen_lines(self) if (id := self.rows.id_at(line)) is not None]

    # --- columns ---------------------------------------------------------------------------------------

    def column_menu(self) -> QMenu:
        """Each column, to be shown or not. They are put in order by dragging their headings."""
        made = QMenu("C&olumns", self)
        for n, column in enumerate(self.rows.columns):
            action = made.addAction(column.title)
            action.setCheckable(True)
            action.setChecked(not self.isColumnHidden(n))
            action.setEnabled(not column.stretch)
            action.toggled.connect(lambda on, n=n: self._show_column(n, on))
        made.addSeparator()
        made.addAction("As at &first", lambda: self.set_columns("", tell=True))
        return made

    def set_columns(self, kept: str, *, tell: bool = False) -> None:
        """Show the columns as they were kept: titles in order, a minus before those that are hidden."""
        titles = [c.title for c in self.rows.columns]
        wanted = [title for title in kept.split("|") if title.removeprefix("-") in titles]
        self._shown = {t for t in wanted if not t.startswith("-")} if wanted else None
        header = self.horizontalHeader()
        header.blockSignals(True)
        order = [titles.index(t.removeprefix("-")) for t in wanted]
        for at, logical in enumerate([*order, *(n for n in range(len(titles)) if n not in order)]):
            header.moveSection(header.visualIndex(logical), at)
        header.blockSignals(False)
        self._fit_columns(self.viewport().width())
        if tell:
            self.columns_chosen.emit("")

    def _show_column(self, column: int, on: bool) -> None:
        self.setColumnHidden(column, not on)
        self._tell_columns()

    def _tell_columns(self) -> None:
        """Keep what is in view now as chosen by hand."""
        header = self.horizontalHeader()
        order = [header.logicalIndex(at) for at in range(header.count())]
        titles = [("-" if self.isColumnHidden(n) else "") + self.rows.columns[n].title for n in order]
        self._shown = {t for t in titles if not t.startswith("-")}
        self.columns_chosen.emit("|".join(titles))

    # --- inside ----------------------------------------------------------------------------------------

    def _dress_headings(self) -> None:
        header = self.horizontalHeader()
        header.setHighlightSections(False)
        header.setSectionsClickable(True)
        header.setSortIndicatorShown(True)
        header.setSortIndicator(-1, Qt.SortOrder.DescendingOrder)
        header.setMinimumSectionSize(56)
        for i, column in enumerate(self.rows.columns):
            if column.stretch:
                header.setSectionResizeMode(i, QHeaderView.ResizeMode.Stretch)
        self._size_columns()
        header.setSectionsMovable(True)
        header.setContextMenuPolicy(Qt.ContextMenuPolicy.CustomContextMenu)
        header.customContextMenuRequested.connect(lambda at: self.column_menu().popup(header.mapToGlobal(at)))
        header.sectionMoved.connect(lambda *_moved: self._tell_columns())
        header.sortIndicatorChanged.connect(self._sort)

    def _size_columns(self) -> None:
        for i, column in enumerate(self.rows.columns):
            self.setColumnWidth(i, scaled(column.width))

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.FontChange and hasattr(self, "rows"):
            self._size_columns()
            self._fit_columns(self.viewport().width())

    def resizeEvent(self, event: QResizeEvent) -> None:
        index = self.currentIndex()
        seen = index.isValid() and 0 <= self.visualRect(index).y() < event.oldSize().height()
        super().resizeEvent(event)
        self._fit_columns(event.size().width())
        if seen:
            self.scrollTo(index)

    def _fit_columns(self, width: int) -> None:
        """Hide what can be spared until the stretching column has the width it asks for."""
        columns = self.rows.columns
        for n, column in enumerate(columns):
            usual = column.usual if self._shown is None else column.title in self._shown
            self.setColumnHidden(n, not usual and not column.stretch)
        if self._shown is not None:
            return
        room = width - sum(scaled(c.width) for c in columns if c.usual)
        for spare in sorted((c for c in columns if c.spare and c.usual), key=lambda c: -c.spare):
            hidden = room < 0
            self.setColumnHidden(columns.index(spare), hidden)
            room += scaled(spare.width) if hidden else 0

    def _sort(self, column: int, order: Qt.SortOrder) -> None:
        if 0 <= column < len(self.rows.columns) and self.rows.columns[column].sort:
            self.sort_asked.emit(self.rows.columns[column].sort, order == Qt.SortOrder.DescendingOrder)

    def _go(self, line: int) -> None:
        index = self.rows.index(line, 0)
        self.setCurrentIndex(index)
        self.scrollTo(index)

    def _moved(self, current: QModelIndex, _before: QModelIndex) -> None:
        if not self._setting:
            self._tell(self.rows.id_at(current.row()))

    def _tell(self, id: int | None) -> None:
        if id != self._told:
            self._told = id
            self.chosen.emit(id)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and self.current_id is not None:
            self.opened.emit(self.current_id)
            return
        if event.key() in (Qt.Key.Key_Home, Qt.Key.Key_End) and len(self.rows.ids):
            self._go(0 if event.key() == Qt.Key.Key_Home else len(self.rows.ids) - 1)
            return
        super().keyPressEvent(event)


def choose_also(table: PagedTable, ids: Iterable[int]) -> None:
    """Choose these lines beside the one in focus."""
    flags = QItemSelectionModel.SelectionFlag
    for line in (table.rows.line_of(id) for id in ids):
        if line >= 0:
            table.selectionModel().select(table.rows.index(line, 0), flags.Select | flags.Rows)
