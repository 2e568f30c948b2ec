"""What the small tables of the window have in common: headings, and cells whose words go on in further lines."""

from __future__ import annotations

from collections.abc import Collection, Sequence

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, QSize, Qt, QTimer
from PySide6.QtWidgets import QStyledItemDelegate, QStyleOptionViewItem, QTableWidget, QTableWidgetItem

from dryhouse.desk.measures import hold_lines
from dryhouse.plots.tokens import LIGHT

_LINE = 30
"""Pixels that a line of a table takes, at our usual text."""
_ABOVE = 4
"""Pixels between the words of a cell and the line above or below it."""


class WrappedCells(QStyledItemDelegate):
    """Asks for the height that the words of a cell take beside its margins; Qt forgets the margins of the style."""

    def sizeHint(self, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex) -> QSize:
        inner = QStyleOptionViewItem(option)
        inner.rect.setWidth(option.rect.width() - 2 * LIGHT.space - 4)
        asked = super().sizeHint(inner, index)
        return QSize(asked.width(), asked.height() + 2 * _ABOVE)


def dress(table: QTableWidget, titles: Sequence[str], *, figures: Collection[int] = (), line: int = _LINE) -> None:
    """Put headings over a table, each where the words below begin; those of `figures` end where the figures do."""
    table.setShowGrid(False)
    hold_lines(table, line)
    table.setItemDelegate(WrappedCells(table))
    for n, title in enumerate(titles):
        heading = QTableWidgetItem(title)
        side = Qt.AlignmentFlag.AlignRight if n in figures else Qt.AlignmentFlag.AlignLeft
        heading.setTextAlignment(side | Qt.AlignmentFlag.AlignVCenter)
        table.setHorizontalHeaderItem(n, heading)


def fit_lines(table: QTableWidget) -> None:
    """Keep each line as high as its words, whenever its columns have come to another width."""
    later = QTimer(table, singleShot=True, interval=0)
    later.timeout.connect(table.resizeRowsToContents)
    table.horizontalHeader().sectionResized.connect(lambda *_change: later.start())
