"""Labels onto paper: a PDF file, a printer, or a picture for the preview."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import partial
from pathlib import Path

from PySide6.QtCore import QMarginsF, QPointF, QRectF, QSizeF, Qt
from PySide6.QtGui import QImage, QPagedPaintDevice, QPageSize, QPaintDevice, QPainter, QPdfWriter, QPen

from dryhouse.desk.labels.layout import Fitted, fit, paint
from dryhouse.desk.labels.sheets import LabelSheet, label_sheets
from dryhouse.kitchen.shelf.labels import Label

_DOTS = 600
_PREVIEW_DOTS = 110
_EDGE_MM = 15.0
_CUT_DOWN = 4


@dataclass(frozen=True, slots=True)
class LabelJob:
    """Labels for one kind of sheet. `skip` labels of the first page are already used up."""

    labels: tuple[Label, ...]
    sheet: LabelSheet
    copies: int = 1
    skip: int = 0
    outlines: bool = False

    def fitted(self, device: QPaintDevice) -> tuple[Fitted, ...]:
        """Every label as it stands on paper, copies and continuations included."""
        return tuple(
            one
            for label in self.labels
            for _ in range(self.copies)
            for one in fit(label, self.sheet.label_mm, device)
        )

    def roomier(self, device: QPaintDevice) -> LabelSheet | None:
        """The next larger kind of sheet on which each of these takes one label, on the same paper where there is
        one; None where each does now, or on no sheet."""
        if all(len(fit(label, self.sheet.label_mm, device)) == 1 for label in self.labels):
            return None
        larger = [s for s in label_sheets() if s.area_mm2 > self.sheet.area_mm2]
        larger.sort(key=lambda s: (s.page != self.sheet.page, s.area_mm2))
        one_each = (s for s in larger if all(len(fit(label, s.label_mm, device)) == 1 for label in self.labels))
        return next(one_each, None)

    def pages(self, fitted: Sequence[Fitted]) -> int:
        """How many pages that takes."""
        skip = self.skip % self.sheet.count
        return max(1, -(-(len(fitted) + skip) // self.sheet.count))


def page_size(sheet: LabelSheet) -> QPageSize:
    """The page of a sheet, as a printer knows it."""
    known = {"A4": QPageSize.PageSizeId.A4, "Letter": QPageSize.PageSizeId.Letter}
    if sheet.page in known:
        return QPageSize(known[sheet.page])
    exact = QPageSize.SizeMatchPolicy.ExactMatch
    return QPageSize(QSizeF(*sheet.page_mm), QPageSize.Unit.Millimeter, sheet.id, exact)


def write_pdf(job: LabelJob, path: Path) -> int:
    """Write the labels to a PDF file; how many pages it has. Raises OSError where it cannot be written."""
    with path.open("wb"):
        pass
    writer = QPdfWriter(str(path))
    writer.setResolution(_DOTS)
    writer.setTitle("Labels")
    return print_on(job, writer)


def print_on(job: LabelJob, device: QPagedPaintDevice) -> int:
    """Draw every page on a printer or a PDF; how many there were."""
    device.setPageSize(page_size(job.sheet))
    device.setPageMargins(QMarginsF(0, 0, 0, 0))
    fitted = job.fitted(device)
    pages = job.pages(fitted)
    painter = QPainter()
    if not painter.begin(device):
        raise OSError("the page could not be begun")
    for page in range(pages):
        if page:
            device.newPage()
        _draw_page(painter, job, fitted, page, device)
    painter.end()
    return pages


def paper_like() -> QImage:
    """What labels are laid out for where nothing is printed: the dots of paper."""
    paper = QImage(1, 1, QImage.Format.Format_RGB32)
    paper.setDotsPerMeterX(round(_DOTS / 0.0254))
    paper.setDotsPerMeterY(round(_DOTS / 0.0254))
    return paper


def cut_outs(labels: Sequence[Label], device: QPagedPaintDevice) -> list[Callable[[QPainter], None]]:
    """Labels to cut out of plain paper of the device's size, two beside each other: each page, as it is painted."""
    size = device.pageLayout().pageSize().size(QPageSize.Unit.Millimeter)
    wide, high = (size.width() - 2 * _EDGE_MM) / 2, (size.height() - 2 * _EDGE_MM) / _CUT_DOWN
    page = (size.width(), size.height())
    sheet = LabelSheet("cut", "", "custom", page, (wide, high), 2, _CUT_DOWN, (_EDGE_MM,) * 2, (wide, high))
    job = LabelJob(tuple(labels), sheet, outlines=True)
    fitted = job.fitted(device)
    return [
        partial(_draw_page, job=job, fitted=fitted, page=number, device=device)
        for number in range(job.pages(fitted))
    ]


def label_preview(job: LabelJob, page: int = 0) -> tuple[QImage, int]:
    """A picture of one page (the last, where there are fewer), laid out as on paper, and how many there are."""
    shown = _PREVIEW_DOTS / 25.4
    wide, high = job.sheet.page_mm
    image = QImage(round(wide * shown), round(high * shown), QImage.Format.Format_RGB32)
    image.fill(Qt.GlobalColor.white)
    paper = paper_like()
    fitted = job.fitted(paper)
    pages = job.pages(fitted)
    painter = QPainter(image)
    painter.setRenderHints(QPainter.RenderHint.TextAntialiasing | QPainter.RenderHint.Antialiasing)
    painter.scale(_PREVIEW_DOTS / paper.logicalDpiX(), _PREVIEW_DOTS / paper.logicalDpiY())
    _draw_page(painter, job, fitted, max(0, min(page, pages - 1)), paper, outlines=True)
    painter.end()
    return image, pages


def _draw_page(
    painter: QPainter,
    job: LabelJob,
    fitted: Sequence[Fitted],
    page: int,
    device: QPaintDevice,
    *,
    outlines: bool = False,
) -> None:
    sheet = job.sheet
    across, down = device.logicalDpiX() / 25.4, device.logicalDpiY() / 25.4
    skip = job.skip % sheet.count
    first = page * sheet.count - skip
    for n in range(sheet.count):
        x, y = sheet.place_mm(n)
        corner = QPointF(x * across, y * down)
        if outlines or job.outlines:
            painter.setPen(QPen(Qt.GlobalColor.lightGray, 0.2 * across))
            painter.drawRect(QRectF(corner, QSizeF(sheet.label_mm[0] * across, sheet.label_mm[1] * down)))
        if 0 <= first + n < len(fitted):
            painter.setPen(Qt.GlobalColor.black)
            paint(painter, fitted[first + n], corner, sheet.label_mm, device)
