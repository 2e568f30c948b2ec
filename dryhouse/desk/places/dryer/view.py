"""Drying now: a strip for each batch on a dryer, the chart of the one in focus, and what waits to be started."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtGui import QKeySequence, QShortcut, QTextDocument

from dryhouse.desk.place import DeskPlace
from dryhouse.desk.places.dryer.detail import CHART, FIGURES, WEIGHINGS, Detail
from dryhouse.desk.places.dryer.import_page import ImportPage
from dryhouse.desk.places.dryer.instrument_page import InstrumentPage
from dryhouse.desk.places.dryer.page import run_page
from dryhouse.desk.places.dryer.runs_read import RunsRead
from dryhouse.desk.places.dryer.start_form import StartForm
from dryhouse.desk.places.dryer.strip_column import StripColumn
from dryhouse.desk.places.dryer.take_off import TakeOffForm
from dryhouse.desk.session import Session
from dryhouse.desk.widgets.basics import Pages, button, column, row, text_label
from dryhouse.desk.widgets.beside import side_by_side
from dryhouse.desk.widgets.empty_state import EmptyState
from dryhouse.kitchen.dryer.runs import planned
from dryhouse.kitchen.ports import BatchQuery, Done, ReadByInstruments, Record
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


class DryingPlace(DeskPlace):
    """The strips at the left; at the right the batch in focus, or a form or page for it."""

    watches = frozenset({Weighing, BatchEvent, Batch, BatchPart, Dryer, OwnFigure, OwnFood, Trip})
    shortcuts = (
        ("Ctrl+N", "start a batch"),
        ("Enter", "record the scale reading"),
        ("Ctrl+Down, Ctrl+Up", "the next or the last batch"),
        ("Ctrl+T", "take the batch off"),
        ("F9", "keep a weight that can't be true, left out of the curve"),
        ("Ctrl+L", "its weighings; Space leaves one out or takes it in"),
        ("Ctrl+I", "weighings from a file"),
    )

    def __init__(self, session: Session) -> None:
        super().__init__(session)
        self.runs = RunsRead(session)
        self.column = StripColumn(session)
        self.strips = self.column.strips
        self.current: int | None = None
        self.past: int | None = None
        """A batch that is off the dryer and was asked for."""
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

    def _build(self) -> None:
        self.start_button = button("Start a &batch", self.start, "primary", hint="Ctrl+N")
        keeping = self.start_button.sizePolicy()
        keeping.setRetainSizeWhenHidden(True)
        self.start_button.setSizePolicy(keeping)
        self.side = Pages()
        for widget in (self.empty_state, self.detail, self.form, self.take_off, self.file, self.instrument):
            self.side.addWidget(widget)
        self.split = side_by_side(self.column, self.side, sizes=(470, 600), least=(380, 400))
        self.split.setStretchFactor(1, 1)
        self.side.currentChanged.connect(self._make_way)
        outer = column(self, margin=20, space=12)
        outer.addLayout(row(text_label("Drying now", "title", wrap=False), 1, self.start_button))
        outer.addWidget(self.split, 1)

    def _make_way(self) -> None:
        """Where it is narrow the strips make way for a form; while one is begun there is no other to begin."""
        self.split.give_way(self.side.currentWidget() not in (self.detail, self.empty_state))
        self.start_button.setVisible(self.side.currentWidget() is not self.form)

    def _connect(self) -> None:
        self.form.started.connect(lambda batch: self.show_record("batch", batch))
        self.form.left.connect(self._back)
        self.take_off.taken_off.connect(self._taken_off)
        self.take_off.left.connect(self._back)
        self.file.brought_in.connect(lambda _id: self._back())
        self.file.left.connect(self._back)
        self.instrument.left.connect(self._back)
        self.detail.left.connect(self._close_past)
        self.column.chosen.connect(self.choose)
        self.column.timer.timeout.connect(self.detail.tick)
        self.column.start_asked.connect(self.start)
        self.column.take_off_asked.connect(lambda batch: self.open_beside(self.take_off, batch))
        self.column.weighings_asked.connect(self.show_weighings)
        self.column.file_asked.connect(self.ask_file)
        self.column.instrument_asked.connect(lambda batch: self.open_beside(self.instrument, batch))
        for keys, act in (
            ("Ctrl+N", self.start),
            ("Ctrl+T", lambda: self.open_beside(self.take_off, self.current)),
            ("Ctrl+L", lambda: self.show_weighings(self.current)),
            ("Ctrl+I", lambda: self.ask_file(self.current)),
            ("Ctrl+Down", lambda: self.column.step(1, self.current)),
            ("Ctrl+Up", lambda: self.column.step(-1, self.current)),
        ):
            QShortcut(QKeySequence(keys), self, act)

    # --- the place -------------------------------------------------------------------------------------------

    def note_change(self, done: Done[Record]) -> None:
        if kinds := done.kinds & self.watches:
            self.runs.note(done, kinds)
            if isinstance(done, ReadByInstruments) and self.isVisible():
                self.runs.read_ahead(self, self.mark_stale)
            else:
                self.mark_stale()

    def refresh(self) -> None:
        kitchen = self.session.kitchen
        ids = list(kitchen.journal.batch_ids(BatchQuery(states=(DRYING,), descending=False)))
        self.runs.read(ids if self.past is None else [*ids, self.past])
        if self.past is not None and (self.past not in self.runs or self.past in ids):
            self.past = None
        self.column.show_runs(self.runs, [i for i in ids if i in self.runs], planned(kitchen))
        if self.current not in self.strips:
            self.current = next(iter(self.strips), None)
        self._show_current()

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
            self.runs.touch(batch.id)
            self.refresh()
            self.detail.turn_to(CHART)

    def printout(self) -> QTextDocument | None:
        return run_page(self.session, self.detail)

    def choose(self, batch: int) -> None:
        """Put a running batch in focus."""
        if batch == self.current and self.past is None and self.side.currentWidget() is self.detail:
            return
        self.current, self.past = batch, None
        if self.side.currentWidget() in (self.form, self.take_off, self.file, self.instrument):
            self.side.setCurrentWidget(self.detail)
        self._show_current()

    def _show_current(self) -> None:
        shown = self.past if self.past is not None else self.current
        self.column.mark(shown)
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

    def open_beside(self, page: TakeOffForm | InstrumentPage, batch: int | None) -> None:
        """The form that takes a batch off, or the page on which an instrument is set to follow it."""
        if batch in self.strips:
            self.choose(batch)
            self.side.setCurrentWidget(page)
            page.open(self.runs[batch])

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

    def _taken_off(self, batch: int) -> None:
        self.side.setCurrentWidget(self.detail)
        self.past = batch
        self.runs.touch(batch)
        self.refresh()
        self.detail.turn_to(FIGURES)
        self.detail.pages.setFocus()

    def _close_past(self) -> None:
        self.past = None
        self.side.setCurrentWidget(self.detail)
        self._show_current()
        self.arrive()
