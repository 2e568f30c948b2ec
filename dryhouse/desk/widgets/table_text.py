"""A table as text: what is chosen in it for the clipboard, all of it for a file."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Sequence
from html import escape

from PySide6.QtCore import QMimeData, Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QTableView

Lines = Sequence[Sequence[str]]


def chosen_lines(table: QTableView) -> list[int]:
    """The lines that are chosen, from the top."""
    selected = table.selectionModel()
    return sorted({index.row() for index in selected.selectedIndexes()}) if selected is not None else []


def lines_of(table: QTableView, lines: Iterable[int]) -> list[list[str]]:
    """The headings and the texts of these lines, as the columns stand in view."""
    model, header = table.model(), table.horizontalHeader()
    across = [header.logicalIndex(at) for at in range(header.count())]
    shown = [column for column in across if not table.isColumnHidden(column)]
    across_names = [str(model.headerData(c, Qt.Orientation.Horizontal) or "") for c in shown]
    return [across_names, *([str(model.index(line, c).data() or "") for c in shown] for line in lines)]


def as_tsv(lines: Lines) -> str:
    """Tab-separated, as spreadsheets take it."""
    return "\n".join("\t".join(" ".join(cell.split()) for cell in line) for line in lines)


def as_html(lines: Lines) -> str:
    """A table, as letters and notes take it."""
    head, *body = (
        "".join(f"<{tag}>{escape(cell)}</{tag}>" for cell in line)
        for tag, line in zip(["th", *["td"] * (len(lines) - 1)], lines, strict=True)
    )
    return f"<table><tr>{head}</tr>" + "".join(f"<tr>{line}</tr>" for line in body) + "</table>"


def as_csv(lines: Lines) -> str:
    """Comma-separated, quoted where needed."""
    out = io.StringIO()
    csv.writer(out, lineterminator="\n").writerows(lines)
    return out.getvalue()


def copy(lines: Lines) -> None:
    """Put lines on the clipboard, both as text and as a table."""
    held = QMimeData()
    held.setText(as_tsv(lines))
    held.setHtml(as_html(lines))
    QGuiApplication.clipboard().setMimeData(held)
