"""The day the shelf is looked at: typed, or the last day of a trip; today while nothing is entered."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QWidget

from dryhouse.desk.measures import hold
from dryhouse.desk.places.shelf.date_field import DateField
from dryhouse.desk.places.shelf.state import ShelfState
from dryhouse.desk.session import Session
from dryhouse.desk.widgets.basics import text_label
from dryhouse.desk.widgets.choice_box import ChoiceBox
from dryhouse.desk.widgets.wrapping import Wrapping
from dryhouse.kitchen.records import Trip
from dryhouse.words.dates import full_day
from dryhouse.words.messages import problem_sentence


class DayBar(QWidget):
    """Sets the day the state looks at, and says which it is or what is wrong with what was typed."""

    changed = Signal()

    def __init__(self, session: Session, state: ShelfState) -> None:
        super().__init__()
        self.session, self.state = session, state
        self.on = DateField(session, "Show shelf on", hint="today; in 6 weeks", future=True)
        self.on.label.hide()
        self.on.sentence.hide()
        hold(self.on, wide=150)
        self.trips = ChoiceBox()
        self.trips.setAccessibleName("The last day of a trip")
        self.said = text_label("", "muted", wrap=False)
        named = text_label("Show shelf on", "label", wrap=False)
        named.setBuddy(self.on.edit)
        self.setLayout(Wrapping(named, self.on, self.trips, self.said, 1))
        self.setFocusProxy(self.on)
        self.on.changed.connect(self._look_at)
        self.trips.activated.connect(self._trip_chosen)

    def offer_trips(self) -> None:
        """List the trips there are, the latest first."""
        trips = sorted(self.session.kitchen.journal.where(Trip), key=lambda t: t.starts_on, reverse=True)
        self.trips.clear()
        self.trips.addItem("or the last day of a trip", None)
        for trip in trips:
            self.trips.addItem(trip.name, trip.ends_on)
        self.trips.setVisible(bool(trips))

    def _trip_chosen(self, index: int) -> None:
        self.on.set_value(self.trips.itemData(index))
        self._look_at()

    def _look_at(self) -> None:
        day, problem = self.on.value(), self.on.problem
        self.state.look_at(day)
        if problem is not None:
            self.said.setText(problem_sentence(problem, self.session.style))
        else:
            self.said.setText("" if day is None else full_day(self.state.day))
        self.changed.emit()
