"""Taking a batch off the dryer: what it weighs now, and what else is worth writing down."""

from __future__ import annotations

from datetime import timedelta

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QWidget

from dryhouse.desk.places.dryer.strip import with_unit
from dryhouse.desk.session import Session
from dryhouse.desk.widgets.basics import button, column, inner_key, row, scrolling, text_label
from dryhouse.desk.widgets.cautions_view import CautionsView
from dryhouse.desk.widgets.draft import keep_entries
from dryhouse.desk.widgets.fields import ChoiceField, NumberField, QuantityField, TextField, mark_problem
from dryhouse.desk.widgets.moment_field import MomentField
from dryhouse.desk.widgets.record_fields import NOT_SAID
from dryhouse.kitchen.batches.log import parts_of
from dryhouse.kitchen.cards.batch_card import card_of
from dryhouse.kitchen.cautions.cautions import batch_facts
from dryhouse.kitchen.dryer.drying import CameOff, take_off
from dryhouse.kitchen.dryer.learned import as_taken_off
from dryhouse.kitchen.dryer.run_words import judged_words
from dryhouse.kitchen.dryer.runs import DryingRun
from dryhouse.kitchen.records import Batch, BatchEvent
from dryhouse.kitchen.records.batches import FEELS
from dryhouse.kitchen.records.shapes import label_of
from dryhouse.kitchen.records.weighings import LOAD
from dryhouse.science.quantities import Mass, Volume, unit_typed
from dryhouse.science.safety.unfolded import most_for

FRESH_WEIGHING = timedelta(minutes=30)
"""A weighing of the load this recent stands ready as the dried weight."""
_RATINGS = [(None, "not rated"), *((n, str(n)) for n in range(5, 0, -1))]


class TakeOffForm(QWidget):
    """Enter takes the batch off; Esc leaves it on."""

    taken_off = Signal(int)
    left = Signal()

    def __init__(self, session: Session) -> None:
        super().__init__()
        self.session = session
        self.run: DryingRun | None = None
        self.heading = text_label("", "title")
        self.standing = text_label("", "label")
        self.cautions = CautionsView(session)
        self.mass = QuantityField(session, label_of(Batch, "dried_mass"), Mass, name="dried_mass")
        self.felt = ChoiceField(
            session, label_of(Batch, "felt"), [("", NOT_SAID), *((f, f) for f in FEELS)], name="felt"
        )
        self.volume = QuantityField(
            session, label_of(Batch, "dried_volume"), Volume, hint="such as 3 cups", name="dried_volume"
        )
        self.at = MomentField(session, label_of(BatchEvent, "at"), hint="now", name="at")
        self.energy = NumberField(
            session, label_of(Batch, "energy_kwh"), what="number of kilowatt-hours", name="energy_kwh"
        )
        self.rating = ChoiceField(session, label_of(Batch, "rating"), _RATINGS, name="rating")
        self.notes = TextField(session, label_of(Batch, "notes"))
        self.off = button("F&inish batch", self.take_off, "primary", hint="Enter")
        self.leave = button("&Keep drying", self.left.emit, hint="Esc")
        page = QWidget()
        inside = column(page, space=8)
        inside.addWidget(self.heading)
        inside.addWidget(self.standing)
        inside.addWidget(self.cautions)
        for pair in ((self.mass, self.felt), (self.volume, self.at), (self.energy, self.rating)):
            across = row(*pair, space=16)
            for place, share in enumerate((3, 2)):
                across.setStretch(place, share)
            inside.addLayout(across)
        inside.addWidget(self.notes)
        inside.addStretch(1)
        outer = column(self, space=12)
        outer.addWidget(scrolling(page), 1)
        outer.addLayout(row(self.off, self.leave, 1))
        for field in (self.mass, self.volume, self.at, self.energy, self.notes):
            field.accepted.connect(self.take_off)
        self.mass.edit.textChanged.connect(self._judge)
        self.felt.changed.connect(self._judge)
        inner_key(self, "Esc", self.left.emit)
        entries = (self.mass, self.felt, self.volume, self.at, self.energy, self.rating, self.notes)
        self.kept = keep_entries(session, "take off", self, lambda: entries)
        inside.insertWidget(1, self.kept.offer)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter takes it off from a choice too."""
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.take_off()
        else:
            super().keyPressEvent(event)

    def open(self, run: DryingRun) -> None:
        """For this batch. A weighing of the load just made stands ready as its dried weight."""
        self.kept.rest()
        self.run = run
        self.heading.setText(f"Take {run.title} off the dryer, batch {run.batch.id}")
        self.cautions.set_cautions(run.cautions, most_for(batch_facts(self.session.kitchen, run.batch).kinds))
        for field in (self.mass, self.volume, self.at, self.energy, self.notes):
            field.set_value(None)
        self.rating.set_value(None)
        self.felt.set_value(run.batch.felt)
        self.notes.set_value(run.batch.notes or None)
        last = run.points[-1] if run.points and run.points[-1].weighing else None
        if last is not None and last.weighing is not None:
            typed = last.weighing.gross.typed
            self.mass.set_unit(unit_typed(last.weighing.gross) if typed else self.session.style.mass_unit)
            fresh = self.session.kitchen.now() - last.at <= FRESH_WEIGHING
            if run.scope == LOAD and fresh:
                tared = last.weighing.tare is not None and last.weighing.tare.si > 0
                self.mass.set_value(Mass(last.net_g, "" if tared else typed))
        self.mass.set_hint("leave empty if it was not weighed")
        self.kept.shown(run.batch.id)
        self.mass.setFocus()
        self.mass.edit.selectAll()
        self._judge()

    def _judge(self) -> None:
        """Say how dry it is by what is typed so far: as its card will say it."""
        if self.run is None:
            return
        mass = self.mass.value()
        said = judged_words(self.run, self.session.style) or "Its dryness is not known from weights."
        if mass is not None:
            kitchen, batch = self.session.kitchen, self.run.batch
            dried = with_unit(mass, self.mass.default_unit)
            finished = CameOff(dried, felt=self.felt.value() or "").finished(batch)
            card = card_of(kitchen, as_taken_off(self.run, finished), parts_of(kitchen, batch.id))
            said = card.judgement(self.session.style)
        self.standing.setText(said)

    def take_off(self) -> None:
        """Finish the batch."""
        fields = (self.mass, self.volume, self.at, self.energy)
        wrong = next((f for f in fields if f.problem is not None), None)
        if self.run is None or wrong is not None:
            if wrong is not None:
                wrong.point_out()
            return
        mass = self.mass.value()
        done = self.session.act(
            take_off,
            self.run.batch.id,
            CameOff(
                with_unit(mass, self.mass.default_unit) if mass else None,
                self.volume.value(),
                self.energy.value(),
                self.notes.text(),
                self.rating.value(),
                self.felt.value(),
            ),
            at=self.at.value(),
        )
        if done is None:
            mark_problem(self.session.problem, fields)
            return
        self.kept.saved()
        self.taken_off.emit(self.run.batch.id)
