"""The column of Drying now: a strip for each batch on a dryer, and under them what waits to be started."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import timedelta

from PySide6.QtCore import QTimer, Signal
from PySide6.QtGui import QHideEvent, QShowEvent
from PySide6.QtWidgets import QWidget

from dryhouse.desk.places.dryer.strip import Strip
from dryhouse.desk.places.dryer.waiting import WaitingCard
from dryhouse.desk.session import Session
from dryhouse.desk.widgets.basics import column, empty, scrolling, show_all
from dryhouse.desk.widgets.fold import Unfolding
from dryhouse.kitchen.dryer.runs import DryingRun
from dryhouse.kitchen.records import Batch

_TICK_MS = 20_000
_A_STRIP = 284
"""Pixels that a strip takes: the first is seen whole."""
SOON = timedelta(days=7)
"""What is planned to start within this time is not folded."""


class StripColumn(QWidget):
    """Says by its signals what is asked of which batch. Its clocks move by themselves while it is seen."""

    chosen = Signal(int)
    start_asked = Signal(int)
    take_off_asked = Signal(int)
    weighings_asked = Signal(int)
    file_asked = Signal(int)
    instrument_asked = Signal(int)

    def __init__(self, session: Session) -> None:
        super().__init__()
        self.session = session
        self.strips: dict[int, Strip] = {}
        """By the number of their batch, in the order shown."""
        page = QWidget()
        self._strips, self._waiting = column(space=12), column(space=8)
        waiting = QWidget()
        waiting.setLayout(self._waiting)
        self.waiting = Unfolding(session, "", waiting)
        """What is planned is folded while something is drying and nothing of it is due soon."""
        cards = column(page, space=12)
        cards.addLayout(self._strips)
        cards.addWidget(self.waiting)
        cards.addStretch(1)
        self.area = scrolling(page, least=_A_STRIP)
        column(self).addWidget(self.area)
        self.timer = QTimer(self, interval=_TICK_MS)
        self.timer.timeout.connect(self.tick)

    def show_runs(self, runs: Mapping[int, DryingRun], ids: Sequence[int], waiting: Sequence[Batch]) -> None:
        """Show the runs of these batches in this order, and the batches that wait."""
        for gone in set(self.strips) - set(ids):
            strip = self.strips.pop(gone)
            self._strips.removeWidget(strip)
            strip.hide()
            strip.deleteLater()
        for place, id in enumerate(ids):
            known = self.strips.pop(id, None)
            if known is None:
                known = self._made(runs[id])
                self._strips.insertWidget(place, known)
            elif known.run is not runs[id]:
                known.show_run(runs[id])
            self.strips[id] = known
        show_all(self._strips)
        self._show_waiting(waiting)

    def _made(self, run: DryingRun) -> Strip:
        strip = Strip(self.session, run)
        strip.chosen.connect(self.chosen)
        strip.take_off_asked.connect(self.take_off_asked)
        strip.weighings_asked.connect(self.weighings_asked)
        strip.file_asked.connect(self.file_asked)
        strip.instrument_asked.connect(self.instrument_asked)
        return strip

    def _show_waiting(self, batches: Sequence[Batch]) -> None:
        empty(self._waiting)
        self.waiting.setVisible(bool(batches))
        self._name_waiting(batches)
        for batch in batches:
            card = WaitingCard(self.session, batch)
            card.start_asked.connect(self.start_asked)
            self._waiting.addWidget(card)
        show_all(self._waiting)
        self.setVisible(bool(batches) or bool(self.strips))

    def _name_waiting(self, batches: Sequence[Batch]) -> None:
        """What has to start within days is not folded."""
        starts = [batch.started for batch in batches if batch.started is not None]
        due = bool(starts) and min(starts) - self.session.kitchen.now() < SOON
        self.waiting.name(f"{len(batches)} planned")
        if batches and (due or not self.strips):
            self.waiting.open()

    def mark(self, batch: int | None) -> None:
        """Mark the strip in focus."""
        for id, strip in self.strips.items():
            strip.set_chosen(id == batch)

    def step(self, by: int, since: int | None) -> None:
        """Put the keyboard into the strip so many further on."""
        ids = list(self.strips)
        if ids:
            place = ids.index(since) if since in ids else 0
            strip = self.strips[ids[(place + by) % len(ids)]]
            strip.reading.setFocus()
            self.area.ensureWidgetVisible(strip)

    def tick(self) -> None:
        """Move every clock on."""
        for strip in self.strips.values():
            strip.tick()

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self.timer.start()
        self.tick()

    def hideEvent(self, event: QHideEvent) -> None:
        self.timer.stop()
        super().hideEvent(event)
