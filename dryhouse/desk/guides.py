"""The guides that F1 opens: short pages of plain text with pictures; the overview of keys is the last of them."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import Qt, QUrl
from PySide6.QtGui import QImage, QResizeEvent, QTextBlockFormat, QTextCursor, QTextDocument
from PySide6.QtWidgets import QDialog, QHBoxLayout, QListWidget, QTextBrowser

from dryhouse.desk.help import SHARE, keys_page
from dryhouse.desk.measures import scaled
from dryhouse.desk.widgets.basics import button, column, row

if TYPE_CHECKING:
    from dryhouse.desk.window import DeskWindow

GUIDES = SHARE / "guides"
FIRST = {"drying": 1, "meals": 2}
"""The guide that belongs to a place; the first evening to all others."""


def pages() -> tuple[tuple[str, Path], ...]:
    """The title and the file of each guide, in their order; the title is the file's first line."""
    files = sorted(GUIDES.glob("*.md"))
    return tuple((path.read_text(encoding="utf-8").partition("\n")[0].removeprefix("# "), path) for path in files)


class Page(QTextBrowser):
    """A page whose pictures are as wide as itself, and whose commands go on in the next line where it is narrow."""

    _drawn_for = 0

    def show_file(self, path: Path) -> None:
        """Show the page in this file."""
        self.setSource(QUrl.fromLocalFile(str(path)), QTextDocument.ResourceType.MarkdownResource)
        self._wrap_commands()

    def _wrap_commands(self) -> None:
        at = QTextCursor(self.document())
        wrapped = QTextBlockFormat()
        wrapped.setNonBreakableLines(False)
        at.select(QTextCursor.SelectionType.Document)
        at.mergeBlockFormat(wrapped)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        if self.viewport().width() - 24 < self._drawn_for:
            self._drawn_for = 0
            self.reload()
            self._wrap_commands()

    def loadResource(self, kind: int, name: QUrl | str) -> Any:
        """The text or the picture that the page names, the picture scaled to the page."""
        found = super().loadResource(kind, name)
        if kind != QTextDocument.ResourceType.ImageResource.value:
            return found
        path = self.source().resolved(QUrl(name)).toLocalFile()
        picture = QImage(path)
        width = self._drawn_for = self.viewport().width() - 24
        return (
            picture.scaledToWidth(width, Qt.TransformationMode.SmoothTransformation)
            if width < picture.width()
            else picture
        )


class Guides(QDialog):
    """Titles on the left, the page on the right."""

    def __init__(self, window: DeskWindow, first: int) -> None:
        super().__init__(window)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.setWindowTitle("Guides")
        self._pages = pages()
        self._keys = keys_page(window)
        self.titles = QListWidget()
        self.titles.setAccessibleName("Guides")
        self.titles.addItems([*(title for title, _ in self._pages), "Keys"])
        self.titles.ensurePolished()
        self.titles.setFixedWidth(self.titles.sizeHintForColumn(0) + 32)
        self.text = Page()
        self.text.setOpenExternalLinks(True)
        sides = QHBoxLayout()
        sides.addWidget(self.titles)
        sides.addWidget(self.text, 1)
        inside = column(self, margin=16, space=12)
        inside.addLayout(sides, 1)
        inside.addLayout(row(1, button("Close", self.accept, "primary")))
        room = window.screen().availableSize()
        self.resize(min(scaled(920), room.width() - 40), min(scaled(680), room.height() - 80))
        self.titles.currentRowChanged.connect(self._show)
        self.titles.setCurrentRow(first)

    def _show(self, at: int) -> None:
        if at < len(self._pages):
            title, path = self._pages[at]
            self.text.show_file(path)
        else:
            title = "Keys"
            self.text.setHtml(self._keys)
        self.text.setAccessibleName(title)


def show_guides(window: DeskWindow) -> Guides:
    """The guides, on the one that belongs to the place in view."""
    dialog = Guides(window, FIRST.get(window.here, 0))
    dialog.show()
    dialog.titles.setFocus()
    return dialog
