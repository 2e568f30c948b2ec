"""The page of labels: choose the sheet, see it as it will print, print or save it. For jars and meal bags."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from PySide6.QtCore import QEvent, QObject, QSignalBlocker, QSize, Qt, Signal
from PySide6.QtGui import QPixmap
from PySide6.QtWidgets import QCheckBox, QFileDialog, QLabel, QScrollArea, QWidget

from dryhouse.desk.labels.paper import LabelJob, label_preview, paper_like, print_on, write_pdf
from dryhouse.desk.labels.sheets import label_sheets, sheet_named, usual_sheet
from dryhouse.desk.measures import hold
from dryhouse.desk.session import Session
from dryhouse.desk.widgets.basics import button, column, inner_key, row, text_label
from dryhouse.desk.widgets.fields import ChoiceField, NumberField
from dryhouse.desk.widgets.wrapping import headed
from dryhouse.kitchen.settings import preference, set_preference
from dryhouse.kitchen.shelf.labels import Label

SHEET_KEY = "labels.sheet"
_BESIDE = 16
"""Pixels that are left beside the preview."""


class LabelsPage(QWidget):
    """Preview, print, save. The sheet chosen is remembered."""

    left = Signal()

    def __init__(self, session: Session) -> None:
        super().__init__()
        self.session = session
        self.labels: tuple[Label, ...] = ()
        self.page = 0
        self.sheet = ChoiceField(session, "Sheet", [(s.id, s.words) for s in label_sheets()], name="sheet")
        self.copies = NumberField(session, "Copies of each", whole=True, what="number of copies", name="copies")
        self.skip = NumberField(
            session, "Labels already used on the first sheet", whole=True, what="number of labels", name="skip"
        )
        self.outlines = QCheckBox("Print cutting lines")
        self.picture = QLabel()
        self.picture.setAccessibleName("Preview of the labels")
        self.picture.setAlignment(Qt.AlignmentFlag.AlignHCenter | Qt.AlignmentFlag.AlignTop)
        self.said = text_label("", "muted")
        self.back_page = button("‹ Page", lambda: self._turn(-1), name="The page before")
        self.next_page = button("Page ›", lambda: self._turn(1), name="The next page")
        self.save_button = button("&Save as PDF", self.ask_save, "primary", hint="Ctrl+S")
        self.print_button = button("P&rint", self.ask_print, hint="Ctrl+P")
        self._build()
        self.sheet.changed.connect(self._sheet_chosen)
        for field in (self.copies, self.skip):
            field.changed.connect(self._draw)
        self.outlines.toggled.connect(lambda _on: self._draw())
        for keys, act in (("Ctrl+S", self.ask_save), ("Esc", self.left.emit)):
            inner_key(self, keys, act)
        self.setFocusProxy(self.sheet)

    def _build(self) -> None:
        choices = column(space=4)
        for widget in (self.sheet, self.copies, self.skip, self.outlines, self.said):
            choices.addWidget(widget)
        choices.addStretch(1)
        choices.addLayout(row(self.back_page, self.next_page, 1))
        choices.addSpacing(4)
        choices.addLayout(row(self.save_button, self.print_button, 1))
        beside = QWidget()
        hold(beside, wide=340)
        beside.setLayout(choices)
        self.area = QScrollArea()
        self.area.setWidgetResizable(True)
        self.area.setAccessibleName("Preview of the labels")
        self.area.setWidget(self.picture)
        self.area.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.area.viewport().installEventFilter(self)
        across = row(beside, space=24)
        across.addWidget(self.area, 1)
        inside = column(self, space=12)
        back = button("&Back", self.left.emit, hint="Esc")
        inside.addLayout(headed("Labels", 1, back))
        inside.addLayout(across, 1)

    def show_labels(self, labels: Sequence[Label]) -> None:
        """Preview these labels."""
        self.labels = tuple(labels)
        self.page = 0
        usual = usual_sheet(self.session.style.system).id  # until she chose one, the one of her units
        with QSignalBlocker(self.sheet):
            self.sheet.set_value(preference(self.session.kitchen, SHEET_KEY, usual))
        self.copies.set_value(1)
        self.skip.set_value(None)
        self._draw()

    def job(self) -> LabelJob:
        """What would be printed now."""
        return LabelJob(
            self.labels,
            sheet_named(self.sheet.value()),
            copies=max(1, min(100, int(self.copies.value() or 1))),
            skip=int(self.skip.value() or 0),
            outlines=self.outlines.isChecked(),
        )

    def save(self, path: Path) -> bool:
        """Write the PDF; a failure is said."""
        try:
            pages = write_pdf(self.job(), path)
        except OSError as problem:
            why = problem.strerror or problem
            self.session.say(f"The labels were not saved: {why}. Choose another folder.", "world")
            return False
        self.session.say(f"Saved {pages} {'page' if pages == 1 else 'pages'} of labels to {path}", "done")
        return True

    def ask_save(self) -> None:
        """Ask where to, and save there."""
        path, _ = QFileDialog.getSaveFileName(self, "Save the labels", "labels.pdf", "PDF page (*.pdf)")
        if path:
            self.save(Path(path))

    def ask_print(self) -> None:
        """Choose a printer and print at the exact size."""
        from PySide6.QtPrintSupport import QPrintDialog, QPrinter

        printer = QPrinter(QPrinter.PrinterMode.HighResolution)
        if QPrintDialog(printer, self).exec():
            try:
                print_on(self.job(), printer)
            except OSError as problem:
                self.session.say(f"The labels were not printed: {problem}.", "world")

    # --- inside -----------------------------------------------------------------------------------------

    def _sheet_chosen(self) -> None:
        if self.sheet.value() != preference(self.session.kitchen, SHEET_KEY):
            self.session.attempt(set_preference, self.session.kitchen, SHEET_KEY, self.sheet.value())
        self.page = 0
        self._draw()

    def _turn(self, by: int) -> None:
        self.page += by
        self._draw()

    def _draw(self) -> None:
        if not self.labels:
            return
        job = self.job()
        image, pages = label_preview(job, self.page)
        self.page = max(0, min(self.page, pages - 1))
        self._image = image
        self._fit()
        paper = paper_like()
        count = len(job.fitted(paper))
        roomier = job.roomier(paper)
        larger = (
            ""
            if roomier is None
            else f" The cautions need more than one label of this size. One label is enough on: {roomier.words}."
        )
        self.said.setText(
            f"{count} {'label' if count == 1 else 'labels'}, page {self.page + 1} of {pages}. "
            f"Print at full size (100 %), without fitting to the page.{larger}"
        )
        self.back_page.setEnabled(self.page > 0)
        self.next_page.setEnabled(self.page < pages - 1)
        for turn in (self.back_page, self.next_page):
            turn.setVisible(pages > 1)

    def _fit(self) -> None:
        """The preview as wide as there is room for, sharp on every screen."""
        dots = self.devicePixelRatioF()
        room = round((self.area.viewport().width() - _BESIDE) * dots)
        made = QPixmap.fromImage(self._image)
        if made.width() > room > 0:
            made = made.scaledToWidth(room, Qt.TransformationMode.SmoothTransformation)
            made.setDevicePixelRatio(dots)
        self.picture.setPixmap(made)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() == QEvent.Type.Resize and self.labels:
            self._fit()
        return super().eventFilter(watched, event)

    def sizeHint(self) -> QSize:
        return QSize(900, 600)
