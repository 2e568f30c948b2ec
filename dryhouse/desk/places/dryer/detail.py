"""The batch in focus: its chart, its weighings, its figures, its curves; a past batch looks the same."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QTabWidget, QWidget

from dryhouse.desk.places.dryer.chart import ChartPane, CurvesPane
from dryhouse.desk.places.dryer.figures import FiguresPane
from dryhouse.desk.places.dryer.weighings import WeighingsPane
from dryhouse.desk.session import Session
from dryhouse.desk.widgets.basics import button, column, row, text_label
from dryhouse.desk.widgets.moment_field import show_moment
from dryhouse.desk.widgets.table_menu import TableMenu
from dryhouse.kitchen.dryer.drying import reopen
from dryhouse.kitchen.dryer.run_words import again_words, how_words
from dryhouse.kitchen.dryer.runs import DryingRun
from dryhouse.kitchen.records.batches import FINISHED
from dryhouse.kitchen.shelf.packing import may_be_packed
from dryhouse.science.display import duration

CHART, WEIGHINGS, FIGURES, CURVES = range(4)


class Detail(QWidget):
    """Only the page in view is filled; the others catch up when they are turned to."""

    left = Signal()
    """A past batch is put away again."""

    def __init__(self, session: Session) -> None:
        super().__init__()
        self.session = session
        self.run: DryingRun | None = None
        self.heading = text_label("", "heading")
        self.facts = text_label("", "muted")
        self.again = button("Put bac&k on the dryer", self._reopen, hint="It was not dry yet; can be undone")
        self.pack = button("P&ack it", self._pack, "primary", hint="Into jars and bags, on the Shelf")
        self.like = button("Same again", self._same_again, hint="Start a batch as this one was done")
        self.journal = button("Open in &Journal", self._journal, "quiet")
        self.away = button("Close", self.left.emit, "quiet", name="Close this past batch")
        self.chart, self.weighings = ChartPane(session), WeighingsPane(session)
        self.figures, self.curves = FiguresPane(session), CurvesPane(session)
        TableMenu(session, self.curves.table, "Curves")
        self.pages = QTabWidget()
        self.pages.setAccessibleName("What is known of this batch")
        self._stale: set[int] = set()
        for page, title in (
            (self.chart, "Chart"),
            (self.weighings, "Weighings"),
            (self.figures, "Figures"),
            (self.curves, "Curves"),
        ):
            page.setContentsMargins(0, 12, 0, 0)
            self.pages.addTab(page, title)
        inside = column(self, space=6)
        head = row(self.heading, self.journal, self.away)
        head.setStretch(0, 1)
        inside.addLayout(head)
        inside.addWidget(self.facts)
        inside.addLayout(row(self.pack, self.like, self.again, 1))
        inside.addWidget(self.pages, 1)
        self.pages.currentChanged.connect(self._fill)

    def show_run(self, run: DryingRun | None) -> None:
        """Show a run; None shows nothing."""
        self.run = run
        self.setVisible(run is not None)
        if run is None:
            return
        self.tick()
        finished = run.batch.state == FINISHED
        self.heading.setText(f"{run.title[:1].upper()}{run.title[1:]}, batch {run.batch.id}")
        for widget in (self.heading, self.like, self.again, self.journal, self.away):
            widget.setVisible(finished)  # of a running one the strip has them
        self.pack.setVisible(may_be_packed(self.session.kitchen, run.batch))
        self._stale = {CHART, WEIGHINGS, FIGURES, CURVES}
        self._fill(self.pages.currentIndex())

    def tick(self) -> None:
        """Say how it was dried; of a running one, how it is, and when the scale would tell most."""
        run = self.run
        if run is None:
            return
        kitchen, style = self.session.kitchen, self.session.style
        if run.batch.state == FINISHED:
            began, hours = show_moment(self.session, run.clock.started), duration(run.hours * 3600)
            dried = f", {style.show(run.batch.dried_mass)} dried" if run.batch.dried_mass else ""
            self.facts.setText(f"Started {began}, off after {hours} of drying{dried}")
        else:
            again = again_words(kitchen, run)
            self.facts.setText(f"{how_words(kitchen, run, style)}.{f' {again}' if again else ''}")

    def turn_to(self, page: int) -> None:
        """Bring one page to the front."""
        self.pages.setCurrentIndex(page)

    def _fill(self, page: int) -> None:
        if page in self._stale:
            self._stale.discard(page)
            (self.chart, self.weighings, self.figures, self.curves)[page].show_run(self.run)

    def _pack(self) -> None:
        if self.run is not None:
            self.session.open("shelf", "batch", self.run.batch.id)

    def _same_again(self) -> None:
        if self.run is not None:
            self.session.open("drying", "like", self.run.batch.id)

    def _reopen(self) -> None:
        if self.run is not None:
            self.session.act(reopen, self.run.batch.id)

    def _journal(self) -> None:
        if self.run is not None:
            self.session.open("journal", "batch", self.run.batch.id)
