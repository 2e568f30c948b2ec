"""Pages on paper: a text document through a preview to the printer."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from PySide6.QtCore import QMarginsF
from PySide6.QtGui import QPageLayout, QTextDocument
from PySide6.QtWidgets import QWidget

if TYPE_CHECKING:
    from PySide6.QtPrintSupport import QPrinter

_MARGIN_MM = 15.0
_WIDE, _HIGH, _BESIDE = 900, 1000, 40
"""Pixels of a preview, and what is left of the screen round it at least."""


def preview_print(parent: QWidget, page: QTextDocument) -> None:
    """Show the pages as they will be printed, with the printer one click away."""
    from PySide6.QtPrintSupport import QPrinter

    printer = QPrinter(QPrinter.PrinterMode.HighResolution)
    printer.setPageMargins(_margins(), QPageLayout.Unit.Millimeter)
    preview(parent, printer, page.print_)


def preview(parent: QWidget, printer: QPrinter, paint: Callable[[QPrinter], object]) -> None:
    """Show what `paint` prints, as large as the screen has room for: it is read before it is printed."""
    from PySide6.QtPrintSupport import QPrintPreviewDialog, QPrintPreviewWidget

    dialog = QPrintPreviewDialog(printer, parent)
    dialog.paintRequested.connect(paint)
    room = parent.screen().availableSize()
    dialog.resize(min(_WIDE, room.width() - _BESIDE), min(_HIGH, room.height() - _BESIDE))
    for pages in dialog.findChildren(QPrintPreviewWidget):
        pages.setZoomMode(QPrintPreviewWidget.ZoomMode.FitToWidth)
    dialog.exec()


def document(title: str, body: str) -> QTextDocument:
    """A page of simple HTML in black on white, whatever the window's look."""
    made = QTextDocument()
    made.setMetaInformation(QTextDocument.MetaInformation.DocumentTitle, title)
    made.setDefaultStyleSheet(
        "body { color: #000000; font-size: 10pt; } h1 { font-size: 16pt; } h2 { font-size: 12pt; }"
        "td, th { padding: 2px 8px 2px 0; text-align: left; } .small { font-size: 8pt; }"
    )
    made.setHtml(f"<body>{body}</body>")
    return made


def _margins() -> QMarginsF:
    return QMarginsF(_MARGIN_MM, _MARGIN_MM, _MARGIN_MM, _MARGIN_MM)
