"""The day the shelf is looked at: today, the last day of a trip, or a day that is typed."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QWidget

from dryhouse.desk.measures import hold
from dryhouse.desk.places.shelf.date_field import DateField
from dryhouse.desk.places.shelf.state import ShelfState
from dryhouse.desk.session import Session
from dryhouse.desk.widgets.basics import text_label
from dryhouse.desk.widgets.choices import choice_box, may_be_narrow, offer
from dryhouse.desk.widgets.wrapping import Wrapping
from dryhouse.kitchen.records import Trip
from dryhouse.words.dates import full_day
from dryhouse.words.messages import problem_sentence

_TODAY, _TYPED = "today", "typed"


class DayBar(QWidget):
    """Sets the day the state looks at, and says which it is or what is wrong with what was typed."""

    changed = Signal()

    def __init__(self, session: Session, state: ShelfState) -> None:
        super().__init__()
        self.session, self.state = session, state
        self.days = choice_box("The day the shelf is shown as of")
        may_be_narrow(self.days, 11)
        self.days.setToolTip("What will be past its keep-by on another day  (Ctrl+G)")
        self.on = DateField(session, "Show the shelf as of", hint="in 6 weeks", future=True)
        self.on.label.hide()
        self.on.sentence.hide()
        hold(self.on, wide=130)
        self.said = text_label("", "muted", wrap=False)
        self.setLayout(Wrapping(self.days, self.on, self.said))
        self.setFocusProxy(self.days)
        self.on.hide()
        self.said.hide()
        self.on.changed.connect(self._look_at)
        self.days.activated.connect(self._chosen)
        self.offer_trips()

    def offer_trips(self) -> None:
        """List the trips there are, the latest first."""
        trips = sorted(self.session.kitchen.journal.where(Trip), key=lambda t: t.starts_on, reverse=True)
        ends = [(f"As of the end of {trip.name}", trip.ends_on) for trip in trips]
        offer(self.days, [("As of today", _TODAY), *ends, ("As of another day…", _TYPED)])

    def ask(self) -> None:
        """Put the keyboard into the entry of a day."""
        self.days.setCurrentIndex(self.days.count() - 1)
        self.on.show()
        self.on.setFocus()

    def _chosen(self, index: int) -> None:
        day = self.days.itemData(index)
        if day == _TYPED:
            self.ask()
            return
        self.on.hide()
        self.on.set_value(None if day == _TODAY else day)
        self._look_at()

    def _look_at(self) -> None:
        day, problem = self.on.value(), self.on.problem
        self.state.look_at(day)
        said = "" if day is None else full_day(self.state.day)
        self.said.setText(said if problem is None else problem_sentence(problem, self.session.style))
        self.said.setVisible(bool(self.said.text()))
        self.changed.emit()
