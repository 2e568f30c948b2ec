"""Counting the words of a page as it stands in the window."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from PySide6.QtCore import QPoint, QRect, Qt
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractItemView,
    QComboBox,
    QLabel,
    QLineEdit,
    QListWidget,
    QPlainTextEdit,
    QTabBar,
    QTableView,
    QTableWidget,
    QWidget,
)

from dryhouse.desk.widgets.cautions_view import CautionRow
from dryhouse.desk.widgets.plot_pane import PlotCanvas, _figure
from dryhouse.plots.tokens import LIGHT

_INCHES = (5.0, 4.0)


def words_in(text: str) -> int:
    """The words of a text: what has a letter or a digit in it."""
    return sum(any(c.isalnum() for c in word) for word in text.replace("&", "").split())


def count(page: QWidget) -> tuple[int, int]:
    """Words in view, and all there are once the page is scrolled."""
    said = list(texts(page))
    return sum(words_in(t) for t, seen in said if seen), sum(words_in(t) for t, _seen in said)


def texts(page: QWidget) -> Iterator[tuple[str, bool]]:
    """Every text that is shown on a page, and whether any of it is in view. Of a list of records only its headings
    and its first line: the rows are hers. Stops are left out: they are said in full wherever they stand."""
    for widget in page.findChildren(QWidget):
        if widget.isVisible() and not _of_a_stop(widget):
            seen = not widget.visibleRegion().isEmpty()
            for text in _of(widget):
                yield text, seen
            if isinstance(widget, QTableView):
                yield from ((text, seen and inside) for text, inside in _cells(widget))


def _of_a_stop(widget: QWidget) -> bool:
    inside: Any = widget
    while inside is not None and not isinstance(inside, CautionRow):
        inside = inside.parentWidget()
    return inside is not None and inside.caution.severity == "stop"


def _of(widget: QWidget) -> Iterator[str]:
    if isinstance(widget, QLabel | QAbstractButton):
        yield widget.text()
    elif isinstance(widget, QComboBox):
        yield widget.currentText()
    elif isinstance(widget, QLineEdit):
        if not isinstance(widget.parentWidget(), QComboBox):
            yield widget.text() or widget.placeholderText()
    elif isinstance(widget, QPlainTextEdit):
        yield widget.toPlainText() or widget.placeholderText()
    elif isinstance(widget, QTabBar):
        yield from (widget.tabText(n) for n in range(widget.count()))
    elif isinstance(widget, QListWidget):
        yield widget.item(0).text() if widget.count() else ""
    elif isinstance(widget, PlotCanvas) and widget.draw is not None:
        yield from _of_chart(widget)


def _cells(table: QTableView) -> Iterator[tuple[str, bool]]:
    """The headings and the first line of a list of records; every line of a table of ours."""
    model = table.model()
    across = [n for n in range(model.columnCount()) if not table.isColumnHidden(n)]
    for n in across:
        yield str(model.headerData(n, Qt.Orientation.Horizontal) or ""), True
    ours = isinstance(table, QTableWidget)
    for line in range(model.rowCount() if ours else min(model.rowCount(), 1)):
        for n in across:
            index = model.index(line, n)
            yield str(index.data() or ""), not ours or _in_view(table, table.visualRect(index))


def _in_view(table: QAbstractItemView, box: QRect) -> bool:
    return table.viewport().visibleRegion().intersects(box.translated(QPoint(0, 0)))


def _of_chart(canvas: PlotCanvas) -> Iterator[str]:
    """What is written in a chart: axes with their numbers, labels, legends."""
    figure: Any = _figure(canvas.draw, canvas.result, LIGHT, _INCHES, 100.0)
    figure.canvas.draw()
    for axes in figure.axes:
        if axes.axison:
            yield from (axes.get_title(), axes.get_xlabel(), axes.get_ylabel())
            for axis in (axes.xaxis, axes.yaxis):
                yield from (t.get_text() for t in axis.get_ticklabels() if t.get_visible())
        yield from (t.get_text() for t in axes.texts)
        if axes.get_legend() is not None:
            yield from (t.get_text() for t in axes.get_legend().get_texts())
