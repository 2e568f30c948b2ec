"""A table of numbers of records that fetches a page round the view, and never all of them.

Rows hold their final texts, so that `data` only looks them up.
"""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from typing import Any

from PySide6.QtCore import QAbstractTableModel, QModelIndex, QObject, QPersistentModelIndex, Qt

PAGE = 64
KEPT_PAGES = 32

_LEFT = int(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)
_RIGHT = int(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)


_Index = QModelIndex | QPersistentModelIndex
"""What Qt may ask with."""


@dataclass(frozen=True, slots=True)
class Column:
    """One column: its title, the text of a row, and the key the journal sorts by (empty: cannot be sorted)."""

    title: str
    text: Callable[[Any], str]
    sort: str = ""
    right: bool = False
    width: int = 120
    stretch: bool = False
    """It takes what is left, and `width` is the least it should have."""
    usual: bool = True
    """Shown before anything was chosen."""
    spare: int = 0
    """Columns with a number are hidden where the table is narrow, the highest first."""


class PagedModel(QAbstractTableModel):
    """`fetch(ids)` answers one row for each number it still finds; `row_id(row)` is the number of a row."""

    def __init__(
        self,
        columns: Sequence[Column],
        fetch: Callable[[Sequence[int]], Iterable[Any]],
        row_id: Callable[[Any], int],
        parent: QObject | None = None,
    ) -> None:
        super().__init__(parent)
        self.columns = tuple(columns)
        self._fetch, self._row_id = fetch, row_id
        self._ids: Sequence[int] = ()
        self._pages: OrderedDict[int, dict[int, tuple[Any, tuple[str, ...]]]] = OrderedDict()

    @property
    def ids(self) -> Sequence[int]:
        """Every number listed, in order."""
        return self._ids

    def set_ids(self, ids: Sequence[int]) -> None:
        """List other records."""
        self.beginResetModel()
        self._ids = ids
        self._pages.clear()
        self.endResetModel()

    def forget(self) -> None:
        """The same records changed: read the rows in view again."""
        self._pages.clear()
        if len(self._ids):
            self.dataChanged.emit(self.index(0, 0), self.index(len(self._ids) - 1, len(self.columns) - 1))

    def id_at(self, row: int) -> int | None:
        """The number in this line."""
        return self._ids[row] if 0 <= row < len(self._ids) else None

    def row_at(self, row: int) -> Any | None:
        """The record in this line; None where it is gone."""
        found = self._entry(row)
        return found[0] if found else None

    def line_of(self, id: int) -> int:
        """The line of a number; -1 where it is not listed."""
        try:
            return self._ids.index(id)
        except ValueError:
            return -1

    # --- what Qt asks ----------------------------------------------------------------------------------

    def rowCount(self, parent: _Index = QModelIndex()) -> int:  # noqa: B008
        return 0 if parent.isValid() else len(self._ids)

    def columnCount(self, parent: _Index = QModelIndex()) -> int:  # noqa: B008
        return 0 if parent.isValid() else len(self.columns)

    def data(self, index: _Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        if not index.isValid():
            return None
        if role in (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.ToolTipRole):
            found = self._entry(index.row())
            return found[1][index.column()] if found else ""
        if role == Qt.ItemDataRole.TextAlignmentRole:
            return _RIGHT if self.columns[index.column()].right else _LEFT
        return None

    def headerData(self, section: int, orientation: Qt.Orientation, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        if orientation == Qt.Orientation.Horizontal and 0 <= section < len(self.columns):
            column = self.columns[section]
            if role == Qt.ItemDataRole.DisplayRole:
                return column.title
            if role == Qt.ItemDataRole.TextAlignmentRole:
                return _RIGHT if column.right else _LEFT
        return None

    # --- pages -----------------------------------------------------------------------------------------

    def _entry(self, row: int) -> tuple[Any, tuple[str, ...]] | None:
        id = self.id_at(row)
        return None if id is None else self._page(row // PAGE).get(id)

    def _page(self, number: int) -> dict[int, tuple[Any, tuple[str, ...]]]:
        page = self._pages.get(number)
        if page is None:
            wanted = self._ids[number * PAGE : (number + 1) * PAGE]
            page = {self._row_id(r): (r, tuple(c.text(r) for c in self.columns)) for r in self._fetch(wanted)}
            self._pages[number] = page
            while len(self._pages) > KEPT_PAGES:
                self._pages.popitem(last=False)
        else:
            self._pages.move_to_end(number)
        return page
