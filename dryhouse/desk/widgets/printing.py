"""Pages on paper: a text document through a preview to the printer."""

from __future__ import annotations

from PySide6.QtCore import QMarginsF
from PySide6.QtGui import QPageLayout, QTextDocument
from PySide6.QtWidgets import QWidget

_MARGIN_MM = 15.0


def preview_print(parent: QWidget, page: QTextDocument) -> None:
    """Show the pages as they will be printed, with the printer one click away."""
    from PySide6.QtPrintSupport import QPrinter, QPrintPreviewDialog

    printer = QPrinter(QPrinter.PrinterMode.HighResolution)
    printer.setPageMargins(_margins(), QPageLayout.Unit.Millimeter)
    dialog = QPrintPreviewDialog(printer, parent)
    dialog.paintRequested.connect(page.print_)
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
