"""A small window for the scale: each running batch in three lines and one entry, on top of others if she likes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QByteArray, QSettings, Qt, QTimer
from PySide6.QtGui import QCloseEvent, QHideEvent, QShowEvent
from PySide6.QtWidgets import QCheckBox, QFrame, QWidget

from dryhouse.desk.places.dryer.reading_entry import ReadingEntry
from dryhouse.desk.session import Session
from dryhouse.desk.theme import set_role
from dryhouse.desk.widgets.basics import button, column, hairline, inner_key, row, scrolling, text_label
from dryhouse.desk.widgets.draft import keep_entries
from dryhouse.kitchen.dryer.by_now import by_now_words
from dryhouse.kitchen.dryer.run_words import bands_words, finish_words, paused_words
from dryhouse.kitchen.dryer.runs import DryingRun, running
from dryhouse.kitchen.ports import Done, Record
from dryhouse.kitchen.records import Batch, BatchEvent, BatchPart, OwnFigure, Weighing

if TYPE_CHECKING:
    from dryhouse.desk.window import DeskWindow

_KEPT, _ON_TOP = "small/geometry", "small/on_top"
_WIDE, _HIGH = 300, 200
_TICK_MS = 20_000
WATCHED = frozenset({Batch, BatchEvent, BatchPart, OwnFigure, Weighing})


class SmallStrip(QFrame):
    """One batch: what it is, what it weighs by now, when it will be dry, and the entry."""

    def __init__(self, session: Session, run: DryingRun) -> None:
        super().__init__()
        self.session, self.run = session, run
        self.name = text_label("", "label", wrap=False)
        self.now, self.finish = text_label("", "small"), text_label("", "small")
        self.entry = ReadingEntry(session, run, label="")
        self.entry.field.label.hide()
        self.entry.field.accepted.connect(self.entry.weigh)
        self.kept = keep_entries(session, "weighing in small", self, lambda: [self.entry.field])
        self.entry.recorded.connect(self.kept.saved)
        inside = column(self, space=2)
        for widget in (self.name, self.now, self.finish, self.kept.offer, self.entry.field, self.entry.asked):
            inside.addWidget(widget)
        self.show_run(run)
        self.kept.shown(run.batch.id)

    def show_run(self, run: DryingRun) -> None:
        """Show where the batch stands; what is being typed stays."""
        self.run = run
        name = f"{run.title[:1].upper()}{run.title[1:]}, batch {run.batch.id}"
        self.name.setText(name)
        self.entry.show_run(run)
        self.entry.field.edit.setAccessibleName(f"What the scale shows for {name}")
        self.tick()

    def tick(self) -> None:
        """Move what is said of the time."""
        kitchen, style = self.session.kitchen, self.session.style
        self.now.setText(by_now_words(kitchen, self.run, style) + paused_words(kitchen, self.run))
        said = finish_words(kitchen, self.run).removesuffix(bands_words(kitchen, self.run)).strip()
        self.finish.setText(said)
        self.setAccessibleName(f"{self.name.text()}: {self.now.text()}. {said}")


class SmallWindow(QWidget):
    """Every running batch, one below the other. Up and Down go from entry to entry, Esc puts the window away."""

    def __init__(self, session: Session, settings: QSettings) -> None:
        super().__init__(None)
        self.session, self.settings = session, settings
        self.strips: dict[int, SmallStrip] = {}
        set_role(self, "page")
        session.theme.dress(self)
        self.setWindowTitle("At the scale – Dryhouse")
        self.setAccessibleName("At the scale")
        self.on_top = QCheckBox("Stay on &top")
        self.on_top.setChecked(settings.value(_ON_TOP, "yes") == "yes")
        self.on_top.toggled.connect(self.set_on_top)
        self.nothing = text_label("Nothing is on the dryer.", "muted")
        page = QWidget()
        inside = column(page, space=8)
        self._list = column(space=8)
        inside.addWidget(self.nothing)
        inside.addLayout(self._list)
        inside.addStretch(1)
        outer = column(self, margin=10, space=6)
        outer.addWidget(scrolling(page), 1)
        outer.addLayout(row(self.on_top, 1, button("Close", self.close, "quiet", hint="Esc")))
        self.setWindowFlag(Qt.WindowType.WindowStaysOnTopHint, self.on_top.isChecked())
        kept = settings.value(_KEPT)
        if not (isinstance(kept, QByteArray) and self.restoreGeometry(kept)):
            self.resize(_WIDE, _HIGH)
        for keys, act in (("Down", lambda: self._step(1)), ("Up", lambda: self._step(-1)), ("Esc", self.close)):
            inner_key(self, keys, act)
        session.changed.connect(self._note)
        session.style_changed.connect(self.read)
        self.timer = QTimer(self, interval=_TICK_MS)
        self.timer.timeout.connect(self.tick)

    def read(self) -> None:
        """Read the running batches anew."""
        found = {run.batch.id: run for run in running(self.session.kitchen)}
        if list(found) != list(self.strips):
            self._lay_out(found)
        for id, run in found.items():
            self.strips[id].show_run(run)
        self.nothing.setVisible(not found)

    def _lay_out(self, found: dict[int, DryingRun]) -> None:
        while (item := self._list.takeAt(0)) is not None:
            if (widget := item.widget()) is not None and widget not in self.strips.values():
                widget.deleteLater()
        for gone in set(self.strips) - set(found):
            strip = self.strips.pop(gone)
            strip.hide()
            strip.deleteLater()
        kept = self.strips
        self.strips = {id: kept.get(id) or SmallStrip(self.session, run) for id, run in found.items()}
        for place, strip in enumerate(self.strips.values()):
            if place:
                self._list.addWidget(hairline())
            self._list.addWidget(strip)

    def tick(self) -> None:
        """Move every clock on."""
        for strip in self.strips.values():
            strip.tick()

    def set_on_top(self, on: bool) -> None:
        """Keep the window above others, or let it go below."""
        self.settings.setValue(_ON_TOP, "yes" if on else "no")
        shown = self.isVisible()
        self.setWindowFlag(Qt.WindowType.WindowStaysOnTopHint, on)
        if shown:
            self.show()
            self.activateWindow()

    def come(self) -> None:
        """Show the window with the keyboard in the first entry."""
        self.read()
        self.show()
        self.raise_()
        self.activateWindow()
        if self.strips:
            next(iter(self.strips.values())).entry.field.setFocus()

    def _note(self, done: Done[Record]) -> None:
        if self.isVisible() and done.kinds & WATCHED:
            self.read()

    def _step(self, by: int) -> None:
        strips = list(self.strips.values())
        if strips:
            here = next((n for n, strip in enumerate(strips) if strip.entry.field.edit.hasFocus()), -by)
            strips[(here + by) % len(strips)].entry.field.setFocus()

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self.timer.start()

    def hideEvent(self, event: QHideEvent) -> None:
        self.timer.stop()
        super().hideEvent(event)

    def closeEvent(self, event: QCloseEvent) -> None:
        self.settings.setValue(_KEPT, self.saveGeometry())
        super().closeEvent(event)


def show_small(window: DeskWindow) -> None:
    """The small window of this desk, with the keyboard in its first entry."""
    if window.session is None:
        return
    if not isinstance(window.small, SmallWindow):
        window.small = SmallWindow(window.session, window.settings)
    window.small.come()
