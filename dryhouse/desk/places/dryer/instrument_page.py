"""Following an instrument: where its lines come from, how they are read, and what they say at this moment."""

from __future__ import annotations

from PySide6.QtCore import QTimer, Signal
from PySide6.QtGui import QHideEvent, QShowEvent
from PySide6.QtWidgets import QFileDialog, QWidget

from dryhouse.desk.instruments import source_of
from dryhouse.desk.session import Session
from dryhouse.desk.widgets.basics import button, column, inner_key, row, text_label
from dryhouse.desk.widgets.draft import Kept, KeptForm, put_back
from dryhouse.desk.widgets.fields import ChoiceField, Field, QuantityField, TextField
from dryhouse.kitchen.dryer.runs import DryingRun
from dryhouse.kitchen.instruments.follower import Instrument
from dryhouse.kitchen.instruments.growing_file import GrowingFile
from dryhouse.kitchen.instruments.lines import PATTERNS, LineReader, Way
from dryhouse.kitchen.instruments.serial_port import BAUDS, SerialPort, ports
from dryhouse.science.errors import InputProblem, WorldProblem
from dryhouse.science.quantities import Mass
from dryhouse.words.messages import problem_sentence

_LOOK_MS = 400
_SHOWN = 6


class InstrumentPage(QWidget):
    """The preview lives while the page is in view; the port is let go when it is left."""

    left = Signal()

    def __init__(self, session: Session) -> None:
        super().__init__()
        self.session = session
        self.run: DryingRun | None = None
        self.heading = text_label("", "heading")
        self.source = ChoiceField(session, "Port or file", name="source", editable=True)
        self.baud = ChoiceField(session, "Port speed, baud", [(b, str(b)) for b in BAUDS], name="baud")
        self.name = TextField(session, "Name of the scale", hint="the pantry scale", name="name")
        self.pattern = ChoiceField(
            session,
            "How a line is read",
            [(name, said) for name, (said, _) in PATTERNS.items()],
            name="pattern",
            editable=True,
        )
        units = [(unit, unit) for unit in ("g", "kg", "oz", "lb")]
        self.unit = ChoiceField(session, "A number without a unit is", units, name="unit")
        self.tare = QuantityField(session, "Empty tray (tare)", Mass, hint="none", name="tare", allow_zero=True)
        self.preview = text_label("", select=True)
        self.preview.setAccessibleName("What it sends now")
        self._fields = (self.source, self.baud, self.pattern, self.unit, self.tare, self.name)
        self.kept = KeptForm(session, "instrument", self, self._typed, lambda kept: put_back(self._fields, kept))
        self.follow_button = button("&Start reading", self.follow, "primary", hint="Enter")
        self.stop_button = button("S&top reading", self.stop_following)
        self._source: GrowingFile | SerialPort | None = None
        self._sent: list[str] = []
        self._build()
        self.timer = QTimer(self, interval=_LOOK_MS)
        self.timer.timeout.connect(self.look)
        for changed in (self.source.changed, self.baud.changed, self.pattern.changed, self.unit.changed):
            changed.connect(self._begin_again)
        for field in (self.name, self.tare):
            field.accepted.connect(self.follow)
        inner_key(self, "Esc", self.left.emit)

    def _build(self) -> None:
        inside = column(self, space=12)
        inside.addWidget(self.heading)
        inside.addWidget(self.kept.offer)
        inside.addLayout(row(self.source, self.baud, button("Choose a file…", self.choose_file), space=16))
        inside.addWidget(self.pattern)
        inside.addLayout(row(self.unit, self.tare, self.name, space=16))
        inside.addWidget(text_label("What it sends now", "label"))
        inside.addWidget(self.preview)
        inside.addStretch(1)
        inside.addLayout(row(self.follow_button, self.stop_button, button("Close", self.left.emit, hint="Esc"), 1))

    def open(self, run: DryingRun) -> None:
        """Ask which instrument weighs this batch."""
        self.kept.rest()
        self.run = run
        self.heading.setText(f"A scale or logger for {run.title}, batch {run.batch.id}")
        self.source.set_choices([*((port, port) for port in ports())])
        known = self._followed()
        self.stop_button.setVisible(known is not None)
        way = Way("unit", "g") if known is None else known.way
        self.source.set_value(None if known is None else known.source)
        self.baud.set_value(BAUDS[0] if known is None else known.baud)
        self.pattern.set_value(way.pattern)
        self.unit.set_value(way.unit)
        self.tare.set_value(Mass(known.tare_g) if known is not None and known.tare_g else None)
        self.name.set_value(None if known is None else known.name)
        self.kept.shown(run.batch.id)
        self.source.setFocus()

    def _typed(self) -> Kept:
        """Everything that stands here: an instrument is chosen as much as it is typed."""
        return {field.name: field.text() if isinstance(field, Field) else field.value() for field in self._fields}

    def choose_file(self) -> None:
        """Choose the file that the instrument writes."""
        path, _ = QFileDialog.getOpenFileName(self, "The file that grows", "", "Text and tables (*);;All files (*)")
        if path:
            self.source.set_value(path)
            if path.lower().endswith((".csv", ".tsv")):
                self.pattern.set_value("table")

    def instrument(self) -> Instrument | None:
        """The instrument as it is entered, or None where it does not say where its lines come from."""
        source = str(self.source.value() or "").strip()
        if not source or self.run is None:
            return None
        tare = self.tare.value()
        return Instrument(
            self.name.text() or "the scale",
            source,
            self.run.batch.id,
            Way(str(self.pattern.value()), self.unit.value()),
            tare.si if tare is not None else 0.0,
            self.run.scope,
            serial=source in ports() or source.startswith(("/dev/", "COM")),
            baud=int(self.baud.value() or BAUDS[0]),
            journal=str(self.session.kitchen.journal.path),
        )

    def _followed(self) -> Instrument | None:
        following = self.session.instruments
        if following is None or self.run is None:
            return None
        mine = [f.instrument for f in following.all if f.instrument.batch == self.run.batch.id]
        return mine[0] if mine else None

    # --- preview -------------------------------------------------------------------------------------------

    def _begin_again(self) -> None:
        self._let_go()
        self._sent.clear()
        self.preview.setText("")

    def look(self) -> None:
        """Show the last lines and what is read from them."""
        found = self.instrument()
        if found is None:
            return
        if problem := found.way.problem():
            self.preview.setText(problem)
            return
        if self._followed() is not None and self._source is None:
            self.preview.setText("It is followed.")
            return
        try:
            if self._source is None:
                self._source = source_of(found)
            lines = self._source.lines(self.session.kitchen.now())
        except (InputProblem, WorldProblem) as refused:
            self.preview.setText(problem_sentence(refused, self.session.style))
            return
        self._sent = (self._sent + lines)[-_SHOWN:]
        reader, style = LineReader(found.way, self.session.kitchen), self.session.style
        said = []
        for line in self._sent:
            sample = reader.read(line)
            said.append(f"{line.strip()[:50]}   →   {style.mass(sample.grams) if sample else 'no steady weight'}")
        self.preview.setText("\n".join(said) or "Nothing has come yet.")

    def _let_go(self) -> None:
        if self._source is not None:
            self._source.close()
            self._source = None

    # --- acts ------------------------------------------------------------------------------------------------

    def follow(self) -> None:
        """Follow the instrument from now on."""
        found = self.instrument()
        if found is None or self.session.instruments is None:
            self.preview.setText("Choose the port, or the file, that the readings come from.")
            self.source.setFocus()
            return
        if problem := found.way.problem():
            self.preview.setText(problem)
            self.pattern.setFocus()
            return
        self._let_go()
        self.session.instruments.follow(found)
        self.kept.saved()
        self.session.say(f"Following {found.name} for batch {found.batch}.", "done")
        self.left.emit()

    def stop_following(self) -> None:
        """Follow it no more."""
        found = self._followed()
        if found is not None and self.session.instruments is not None:
            self.session.instruments.leave(found.name)
            self.session.say(f"{found.name} is let go.", "done")
        self.left.emit()

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self.timer.start()

    def hideEvent(self, event: QHideEvent) -> None:
        self.timer.stop()
        self._let_go()
        super().hideEvent(event)
