"""Pages on paper that are laid out here: a heading stays with what it heads, a table breaks between its lines and
says its head again, and each page has its number."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from pathlib import Path

from PySide6.QtCore import QMarginsF, QPointF, QRectF, QSizeF, Qt
from PySide6.QtGui import QFont, QPagedPaintDevice, QPageSize, QPainter, QPdfWriter, QTextDocument

LETTER, A4 = QPageSize.PageSizeId.Letter, QPageSize.PageSizeId.A4
_DOTS = 300
_MARGIN_MM = 15.0
_FOOT_MM = 6.0
_GAP_MM, _HEADING_GAP_MM = 1.5, 4.5
_HEADING = "<h2"
_POINTS = 9.5
_STYLE = (
    "body { color: #000000; } .small { font-size: 8pt; }"
    "h1 { font-size: 17pt; margin-top: 0px; margin-bottom: 6px; }"
    "h2 { font-size: 12pt; margin-top: 14px; margin-bottom: 3px; }"
    "p { margin-top: 6px; margin-bottom: 3px; }"
    "td, th { padding: 2px 6px 2px 0; text-align: left; vertical-align: top; }"
)


@dataclass(frozen=True, slots=True)
class Table:
    """A table that may break between its lines. `widths` are shares of the page in percent, so that it looks the
    same on the next page; `before` stands above its first line."""

    head: Sequence[str]
    rows: Sequence[Sequence[str]]
    widths: Sequence[int]
    before: str = ""

    def html(self, first: int, last: int) -> str:
        """Its lines from `first` to before `last`, under its head. The cells are HTML."""
        lines = [self._line("th", self.head)] if any(self.head) else []
        lines += [self._line("td", row) for row in self.rows[first:last]]
        table = f"<table width='100%' cellspacing='0'>{''.join(lines)}</table>"
        return (self.before if first == 0 else "") + table

    def _line(self, tag: str, cells: Sequence[str]) -> str:
        each = zip(cells, self.widths, strict=True)
        return "<tr>" + "".join(f"<{tag} width='{width}%'>{cell}</{tag}>" for cell, width in each) + "</tr>"


Block = str | Table
"""What stays on one page, where it fits on one: HTML, or a table."""


@dataclass(frozen=True, slots=True)
class Section:
    """What begins on a page of its own: its title and its blocks; or, in their place, pages that are painted."""

    title: str
    blocks: Sequence[Block] = ()
    painted: Callable[[QPagedPaintDevice], Sequence[Callable[[QPainter], None]]] | None = None


@dataclass(slots=True)
class _Page:
    title: str
    pieces: list[tuple[float, QTextDocument]] = field(default_factory=list)
    paint: Callable[[QPainter], None] | None = None


class Layout:
    """Sections laid out for a device that has its page size: `pages` is what there is to draw."""

    def __init__(self, sections: Sequence[Section], device: QPagedPaintDevice) -> None:
        self._device = device
        size = device.pageLayout().pageSize().size(QPageSize.Unit.Millimeter)
        across, down = device.logicalDpiX() / 25.4, device.logicalDpiY() / 25.4
        self._corner = QPointF(_MARGIN_MM * across, _MARGIN_MM * down)
        self._wide = (size.width() - 2 * _MARGIN_MM) * across
        self._high = (size.height() - 2 * _MARGIN_MM - _FOOT_MM) * down
        self._foot = QRectF(
            self._corner + QPointF(0, self._high + (_FOOT_MM - 4) * down), QSizeF(self._wide, 4 * down)
        )
        self._down = down
        self.pages: list[_Page] = []
        self._used = 0.0
        for section in sections:
            self._section(section)

    def _section(self, section: Section) -> None:
        if section.painted is not None:
            self.pages += [_Page(section.title, paint=paint) for paint in section.painted(self._device)]
            return
        self._turn(section.title)
        for block in section.blocks:
            if isinstance(block, Table):
                self._table(section.title, block)
            else:
                self._put(section.title, block)

    def _turn(self, title: str) -> None:
        self.pages.append(_Page(title))
        self._used = 0.0

    def _put(self, title: str, html: str) -> None:
        made = self._document(html)
        if self._used and self._room(html) < made.size().height():
            self._turn(title)
        self._add(html, made)

    def _add(self, html: str, made: QTextDocument) -> None:
        top = self._high - self._room(html)
        self.pages[-1].pieces.append((top, made))
        self._used = top + made.size().height()

    def _room(self, html: str) -> float:
        """What is left of the page for this, below a little air."""
        gap = _HEADING_GAP_MM if html.startswith(_HEADING) else _GAP_MM
        return self._high - self._used - (gap * self._down if self._used else 0.0)

    def _table(self, title: str, table: Table) -> None:
        first = 0
        while first < len(table.rows):
            fits, made = self._most(table, first)
            if made is None:
                self._turn(title)
                continue
            self._add(table.html(first, first + 1), made)
            first = fits
        if not table.rows and table.before:
            self._put(title, table.before)

    def _most(self, table: Table, first: int) -> tuple[int, QTextDocument | None]:
        """As many lines as fit on this page; none where not even one does and the page has something already."""
        low, high, kept = first, len(table.rows), None
        while low < high:
            middle = (low + high + 1) // 2
            html = table.html(first, middle)
            made = self._document(html)
            if made.size().height() <= self._room(html):
                low, kept = middle, made
            else:
                high = middle - 1
        if kept is None and not self._used:
            return first + 1, self._document(table.html(first, first + 1))
        return low, kept

    def _document(self, html: str) -> QTextDocument:
        made = QTextDocument()
        made.setUndoRedoEnabled(False)
        made.documentLayout().setPaintDevice(self._device)
        made.setDocumentMargin(0)
        font = QFont()
        font.setPointSizeF(_POINTS)
        made.setDefaultFont(font)
        made.setDefaultStyleSheet(_STYLE)
        made.setHtml(f"<body>{html}</body>")
        made.setTextWidth(self._wide)
        return made

    def draw(self, painter: QPainter, page: int, whole: str) -> None:
        """One page, with `whole`, its section and its number at the foot."""
        mine = self.pages[page]
        if mine.paint is not None:
            mine.paint(painter)
            return
        for top, made in mine.pieces:
            painter.save()
            painter.translate(self._corner + QPointF(0, top))
            made.drawContents(painter)
            painter.restore()
        font = QFont()
        font.setPointSizeF(8)
        painter.setFont(font)
        painter.setPen(Qt.GlobalColor.black)
        foot = f"{whole} · {mine.title}" if mine.title else whole
        painter.drawText(self._foot, Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignBottom, foot)
        number = f"{page + 1} of {len(self.pages)}"
        painter.drawText(self._foot, Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignBottom, number)


def print_sections(sections: Sequence[Section], device: QPagedPaintDevice, whole: str) -> int:
    """Draw every page on a printer or a PDF, whose page size is set; how many there were."""
    device.setPageMargins(QMarginsF(0, 0, 0, 0))
    layout = Layout(sections, device)
    painter = QPainter()
    if not painter.begin(device):
        raise OSError("the page could not be begun")
    for page in range(len(layout.pages)):
        if page:
            device.newPage()
        layout.draw(painter, page, whole)
    painter.end()
    return len(layout.pages)


def write_sections(sections: Sequence[Section], path: Path, whole: str, size: QPageSize.PageSizeId) -> int:
    """Write them to a PDF file; how many pages it has. Raises OSError where it cannot be written."""
    with path.open("wb"):
        pass
    writer = QPdfWriter(str(path))
    writer.setResolution(_DOTS)
    writer.setPageSize(QPageSize(size))
    writer.setTitle(whole)
    return print_sections(sections, writer, whole)
