"""A batch that was planned and waits to be started."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QFrame

from dryhouse.desk.session import Session
from dryhouse.desk.theme import set_role
from dryhouse.desk.widgets.basics import button, column, row, text_label
from dryhouse.desk.widgets.cautions_view import CautionsView
from dryhouse.desk.widgets.moment_field import show_moment
from dryhouse.kitchen.batches.naming import batch_name
from dryhouse.kitchen.cautions.cautions import batch_facts, cautions_for
from dryhouse.kitchen.records import Batch, Trip
from dryhouse.science.safety.unfolded import most_while_drying
from dryhouse.words.names import capital


class WaitingCard(QFrame):
    """What it is, for which trip, by when it should be on the dryer, its stops, and a button that starts it."""

    start_asked = Signal(int)

    def __init__(self, session: Session, batch: Batch) -> None:
        super().__init__()
        self.batch = batch
        set_role(self, "card")
        name = capital(batch_name(session.kitchen, batch))
        trip = session.kitchen.journal.get(Trip, batch.trip) if batch.trip is not None else None
        said = [
            f"{session.style.show(batch.prepared_mass)} to load" if batch.prepared_mass else "",
            f"for {trip.name}" if trip else "",
            f"on the dryer by {show_moment(session, batch.started)}" if batch.started else "",
        ]
        self.start = button(
            "Start", lambda: self.start_asked.emit(batch.id), name=f"Start {name}, batch {batch.id}"
        )
        inside = column(self, margin=12, space=4)
        beside = column(space=2)
        beside.addWidget(text_label(name, "label"))
        beside.addWidget(text_label(", ".join(s for s in said if s), "muted"))
        across = row(space=8)
        across.addLayout(beside, 1)
        across.addWidget(self.start)
        inside.addLayout(across)
        facts = batch_facts(session.kitchen, batch)
        found = cautions_for(facts)
        self.cautions = CautionsView(session, found, most=most_while_drying(found, facts.kinds))
        inside.addWidget(self.cautions)
