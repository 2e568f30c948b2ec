"""Drying now: a strip for each batch on a dryer, the chart of the one in focus, and what waits to be started."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import QTimer
from PySide6.QtGui import QHideEvent, QKeySequence, QShortcut, QShowEvent, QTextDocument
from PySide6.QtWidgets import QWidget

from dryhouse.desk.place import DeskPlace
from dryhouse.desk.places.dryer.detail import CHART, FIGURES, WEIGHINGS, Detail
from dryhouse.desk.places.dryer.import_page import ImportPage
from dryhouse.desk.places.dryer.instrument_page import InstrumentPage
from dryhouse.desk.places.dryer.page import run_page
from dryhouse.desk.places.dryer.start_form import StartForm
from dryhouse.desk.places.dryer.strip import Strip
from dryhouse.desk.places.dryer.take_off import TakeOffForm
from dryhouse.desk.places.dryer.waiting import WaitingCard
from dryhouse.desk.session import Session
from dryhouse.desk.widgets.basics import Pages, button, column, empty, row, scrolling, side_by_side, words
from dryhouse.desk.widgets.empty_state import EmptyState
from dryhouse.kitchen.dryer.runs import DryingRun, planned, run_of
from dryhouse.kitchen.ports import BatchQuery, Done, Record
from dryhouse.kitchen.records import (
    Batch,
    BatchEvent,
    BatchPart,
    Dryer,
    OwnFigure,
    OwnFood,
    Trip,
    Weighing,
)
from dryhouse.kitchen.records.batches import DRYING
from dryhouse.science.errors import InputProblem
from dryhouse.words.messages import problem_sentence

_TICK_MS = 20_000
_ONE_BATCH = (Weighing, BatchEvent, Batch)


class DryingPlace(DeskPlace):
    """Runs are read once and again only where an act touched their batch; the clock moves by itself."""

    watches = frozenset({Weighing, BatchEvent, Batch, BatchPart, Dryer, OwnFigure, OwnFood, Trip})
    shortcuts = (
        ("Ctrl+N", "start a batch"),
        ("Enter", "record the scale reading"),
        ("Ctrl+Down, Ctrl+Up", "the next or the last batch"),
        ("Ctrl+T", "take the batch off"),
        ("Ctrl+L", "its weighings"),
        ("Ctrl+I", "weighings from a file"),
    )

    def __init__(self, session: Session) -> None:
        super().__init__(session)
        self.runs: dict[int, DryingRun] = {}
        self.strips: dict[int, Strip] = {}
        self.current: int | None = None
        self.past: int | None = None
        """A batch that is off the dryer and was asked for."""
        self._unread: set[int] | None = None
        """Batches to read again; None means all."""
        self.detail = Detail(session)
        self.form = StartForm(session)
        self.take_off = TakeOffForm(session)
        self.file = ImportPage(session)
        self.instrument = InstrumentPage(session)
        self.empty_state = EmptyState(
            session.theme,
            "drying",
            "Nothing is drying",
            "Start a batch when its trays go in. Weigh it now and then, and this page says when it will be done.",
            ("Start a batch", self.start),
        )
        self._build()
        self._connect()
        self.timer = QTimer(self, interval=_TICK_MS)
        self.timer.timeout.connect(self.tick)

    def _build(self) -> None:
        page = QWidget()
        self._cards = column(page, space=12)
        self._strips, self._waiting = column(space=12), column(space=8)
        self.waiting_heading = words("Planned, waiting to be started", "heading")
        self._cards.addLayout(self._strips)
        self._cards.addWidget(self.waiting_heading)
        self._cards.addLayout(self._waiting)
        self._cards.addStretch(1)
        self.area = scrolling(page)
        self.side = Pages()
        for widget in (self.empty_state, self.detail, self.form, self.take_off, self.file, self.instrument):
            self.side.addWidget(widget)
        self.split = side_by_side(self.area, self.side, sizes=(470, 600), least=(380, 400))
        self.split.setStretchFactor(1, 1)
        self.start_button = button("Start a &batch", self.start, "primary", hint="Ctrl+N")
        outer = column(self, margin=20, space=12)
        outer.addLayout(row(words("Drying now", "title", wrap=False), 1, self.start_button))
        outer.addWidget(self.split, 1)

    def _connect(self) -> None:
        self.form.started.connect(self._started)
        self.form.left.connect(self._back)
        self.take_off.taken_off.connect(self._taken_off)
        self.take_off.left.connect(self._back)
        self.file.brought_in.connect(lambda _id: self._back())
        self.file.left.connect(self._back)
        self.instrument.left.connect(self._back)
        self.detail.left.connect(self._close_past)
        for keys, act in (
            ("Ctrl+N", self.start),
            ("Ctrl+T", lambda: self.ask_take_off(self.current)),
            ("Ctrl+L", lambda: self.show_weighings(self.current)),
            ("Ctrl+I", lambda: self.ask_file(self.current)),
            ("Ctrl+Down", lambda: self._step(1)),
            ("Ctrl+Up", lambda: self._step(-1)),
        ):
            QShortcut(QKeySequence(keys), self, act)

    # --- the place -------------------------------------------------------------------------------------------

    def note_change(self, done: Done[Record]) -> None:
        kinds = done.kinds & self.watches
        if not kinds:
            return
        if kinds <= set(_ONE_BATCH) and self._unread is not None:
            records = [r for c in done.changes for r in (c.before, c.after) if isinstance(r, _ONE_BATCH)]
            self._unread |= {r.id if isinstance(r, Batch) else r.batch for r in records}
        else:
            self._unread = None
        self.mark_stale()

    def refresh(self) -> None:
        kitchen = self.session.kitchen
        ids = list(kitchen.journal.batch_ids(BatchQuery(states=(DRYING,), descending=False)))
        wanted = ids if self.past is None else [*ids, self.past]
        fresh = self._unread
        self.runs = {i: run for i in wanted if (run := self._read(i, fresh)) is not None}
        self._unread = set()
        if self.past is not None and (self.past not in self.runs or self.past in ids):
            self.past = None
        self._show_strips([i for i in ids if i in self.runs])
        self._show_waiting()
        if self.current not in self.strips:
            self.current = next(iter(self.strips), None)
        self._show_current()

    def _read(self, batch: int, fresh: set[int] | None) -> DryingRun | None:
        if fresh is not None and batch not in fresh and batch in self.runs:
            return self.runs[batch]
        try:
            return run_of(self.session.kitchen, batch)
        except InputProblem as problem:
            self.session.say(
                f"Batch {batch} cannot be shown: {problem_sentence(problem, self.session.style)}", "input"
            )
            return None

    def arrive(self) -> None:
        self.freshen()
        if self.side.currentWidget() in (self.detail, self.empty_state):
            strip = self.strips.get(self.current or 0)
            if strip is not None:
                strip.reading.setFocus()
            else:
                self.start_button.setFocus()

    def show_record(self, kind: str, id: int | str) -> None:
        if kind == "like" and (former := self.session.kitchen.journal.get(Batch, int(id))) is not None:
            self.side.setCurrentWidget(self.form)
            self.form.open(like=former)
        if kind != "batch":
            return
        self.freshen()
        batch = self.session.kitchen.journal.get(Batch, int(id))
        if batch is None:
            return
        if batch.id in self.strips:
            self.past = None
            self.choose(batch.id)
            self.strips[batch.id].reading.setFocus()
        elif batch.state == "planned":
            self.start(batch.id)
        else:
            self.past = batch.id
            if self._unread is not None:
                self._unread.add(batch.id)
            self.refresh()
            self.detail.turn_to(CHART)

    def printout(self) -> QTextDocument | None:
        return run_page(self.session, self.detail)

    def leave(self) -> None:
        self.timer.stop()

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self.timer.start()
        self.tick()

    def hideEvent(self, event: QHideEvent) -> None:
        self.timer.stop()
        super().hideEvent(event)

    def tick(self) -> None:
        """Move every clock on."""
        for strip in self.strips.values():
            strip.tick()

    # --- strips ------------------------------------------------------------------------------------------------

    def _show_strips(self, ids: list[int]) -> None:
        for gone in set(self.strips) - set(ids):
            strip = self.strips.pop(gone)
            self._strips.removeWidget(strip)
            strip.hide()
            strip.deleteLater()
        for place, id in enumerate(ids):
            known = self.strips.get(id)
            if known is None:
                self._strips.insertWidget(place, self._make_strip(self.runs[id]))
            elif known.run is not self.runs[id]:
                known.show_run(self.runs[id])
        self.strips = {id: self.strips[id] for id in ids}

    def _make_strip(self, run: DryingRun) -> Strip:
        strip = Strip(self.session, run)
        strip.chosen.connect(self.choose)
        strip.take_off_asked.connect(self.ask_take_off)
        strip.weighings_asked.connect(self.show_weighings)
        strip.file_asked.connect(self.ask_file)
        strip.instrument_asked.connect(self.ask_instrument)
        self.strips[run.batch.id] = strip
        return strip

    def _show_waiting(self) -> None:
        empty(self._waiting)
        batches = planned(self.session.kitchen)
        self.waiting_heading.setVisible(bool(batches))
        for batch in batches:
            card = WaitingCard(self.session, batch)
            card.start_asked.connect(self.start)
            self._waiting.addWidget(card)
        self.area.setVisible(bool(batches) or bool(self.strips))

    def choose(self, batch: int) -> None:
        """Put a running batch in focus."""
        if batch == self.current and self.past is None and self.side.currentWidget() is self.detail:
            return
        self.current, self.past = batch, None
        if self.side.currentWidget() in (self.form, self.take_off, self.file, self.instrument):
            self.side.setCurrentWidget(self.detail)
        self._show_current()

    def _step(self, by: int) -> None:
        ids = list(self.strips)
        if ids:
            place = ids.index(self.current) if self.current in ids else 0
            strip = self.strips[ids[(place + by) % len(ids)]]
            strip.reading.setFocus()
            self.area.ensureWidgetVisible(strip)

    def _show_current(self) -> None:
        shown = self.past if self.past is not None else self.current
        for id, strip in self.strips.items():
            strip.set_chosen(id == shown)
        run = self.runs.get(shown) if shown is not None else None
        if run is not self.detail.run or run is None:
            self.detail.show_run(run)
        if self.side.currentWidget() in (self.detail, self.empty_state):
            self.side.setCurrentWidget(self.detail if run is not None else self.empty_state)

    # --- pages beside the strips ------------------------------------------------------------------------------

    def start(self, batch: int | None = None) -> None:
        """Open the form for a new batch, or for a planned one."""
        waiting = self.session.kitchen.journal.get(Batch, batch) if batch else None
        self.side.setCurrentWidget(self.form)
        self.form.open(waiting)

    def ask_take_off(self, batch: int | None) -> None:
        """Open the form that takes a batch off."""
        if batch in self.strips:
            self.choose(batch)
            self.side.setCurrentWidget(self.take_off)
            self.take_off.open(self.runs[batch])

    def show_weighings(self, batch: int | None) -> None:
        """The table of a batch's weighings."""
        if batch in self.runs or self.past is not None:
            self.side.setCurrentWidget(self.detail)
            if batch in self.strips and self.past is None:
                self.choose(batch)
            self.detail.turn_to(WEIGHINGS)
            self.detail.weighings.table.setFocus()

    def ask_file(self, batch: int | None) -> None:
        """Choose a file of weighings for a batch."""
        run = self.runs.get(self.past if self.past is not None else batch or 0)
        if run is not None and self.file.choose_file(run):
            self.side.setCurrentWidget(self.file)

    def ask_instrument(self, batch: int) -> None:
        """The page on which an instrument is set to follow a batch."""
        if batch in self.runs:
            self.choose(batch)
            self.side.setCurrentWidget(self.instrument)
            self.instrument.open(self.runs[batch])

    def takes(self, path: Path) -> bool:
        return path.suffix.lower() in (".csv", ".tsv", ".txt")

    def take_file(self, path: Path) -> None:
        """Weighings from a file, into the batch in focus."""
        run = self.runs.get(self.past if self.past is not None else self.current or 0)
        if run is None:
            self.session.say("Start the batch first that these weighings are of.", "input")
        elif self.file.open(run, path):
            self.side.setCurrentWidget(self.file)

    def _back(self) -> None:
        self.side.setCurrentWidget(self.detail)
        self._show_current()
        self.arrive()

    def _started(self, batch: int) -> None:
        self.side.setCurrentWidget(self.detail)
        self.past = None
        self.freshen()
        self.current = batch
        self._show_current()
        self.arrive()

    def _taken_off(self, batch: int) -> None:
        self.side.setCurrentWidget(self.detail)
        self.past = batch
        if self._unread is not None:
            self._unread.add(batch)
        self.refresh()
        self.detail.turn_to(FIGURES)
        self.detail.pages.setFocus()

    def _close_past(self) -> None:
        self.past = None
        self.side.setCurrentWidget(self.detail)
        self._show_current()
        self.arrive()
