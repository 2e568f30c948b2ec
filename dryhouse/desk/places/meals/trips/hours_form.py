"""The hours she keeps for drying: when she is up and away, on which days she dries, nights, and from which
month."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QFrame

from dryhouse.desk.session import Session
from dryhouse.desk.theme import set_role
from dryhouse.desk.widgets.basics import button, column, inner_key, row, text_label
from dryhouse.desk.widgets.draft import keep_entries
from dryhouse.desk.widgets.fields import ChoiceField, TextField, mark_problem
from dryhouse.desk.widgets.wrapping import Tiles
from dryhouse.kitchen.records import Trip
from dryhouse.kitchen.trips.household import (
    changed,
    days_words,
    drying_hours,
    read_month,
    set_drying_hours,
    span_words,
)
from dryhouse.kitchen.trips.trips import save_trip
from dryhouse.words.dates import MONTHS

_NIGHTS = (("yes", "may run through the night"), ("no", "none runs at night"))


class HoursForm(QFrame):
    """Enter saves; what cannot be is said at its entry."""

    left = Signal()

    def __init__(self, session: Session, trip: Callable[[], Trip | None]) -> None:
        super().__init__()
        set_role(self, "card")
        self.session, self._trip = session, trip
        self.awake = TextField(session, "Up", hint="7:00-22:00", name="awake")
        self.away = TextField(session, "Away on workdays", hint="8:00-17:30, or none", name="away")
        self.days = TextField(session, "Days you start loads", hint="every day, weekends, Sat Sun", name="days")
        self.nights = ChoiceField(session, "Dryers", _NIGHTS, name="nights")
        self.begin = TextField(session, "Spread the loads from", hint="now, or a month such as May", name="begin")
        self._fields = (self.awake, self.away, self.days, self.nights, self.begin)
        self.kept = keep_entries(session, "drying hours", self, lambda: self._fields)
        inside = column(self, margin=12, space=8)
        inside.addWidget(text_label("The hours you keep", "heading"))
        inside.addWidget(self.kept.offer)
        for field in self._fields:
            if isinstance(field, TextField):
                field.accepted.connect(self.save)
        inside.addLayout(Tiles(*self._fields, least=240, space=16))
        why = "Loads are started after you are home and taken off before you leave or go to bed."
        inside.addWidget(text_label(why, "small"))
        keep = button("Keep these hours", self.save, "primary", hint="Enter")
        inner_key(self, "Esc", self.left.emit)
        inside.addLayout(row(keep, button("Close", self.left.emit, hint="Esc"), 1))

    def begin_with_what_is_kept(self) -> None:
        """Fill the entries with her hours, and those of the trip in view."""
        hours, trip = drying_hours(self.session.kitchen), self._trip()
        self.kept.rest()
        self.awake.set_value(span_words(hours.awake))
        self.away.set_value(span_words(hours.away) or "none")
        self.days.set_value(days_words(hours.days))
        self.nights.set_value("yes" if hours.nights else "no")
        month = None if trip is None else trip.dry_from
        self.begin.set_value(None if month is None else f"{MONTHS[month.month - 1]} {month.year}")
        self.begin.setEnabled(trip is not None)
        self.kept.shown("" if trip is None else trip.id)
        self.awake.setFocus()

    def save(self) -> None:
        """Keep the hours, and the month with the trip."""
        kitchen, trip = self.session.kitchen, self._trip()
        typed = self.session.attempt(
            lambda: (
                changed(
                    drying_hours(kitchen),
                    awake=self.awake.text(),
                    away=self.away.text(),
                    days=self.days.text(),
                    nights=self.nights.value(),
                ),
                None if self.begin.text() in ("", "now") else read_month(kitchen, self.begin.text()),
            )
        )
        if typed is None:
            mark_problem(self.session.problem, self._fields)
            return
        hours, month = typed
        if hours != drying_hours(kitchen) and self.session.act(set_drying_hours, hours) is None:
            return
        if trip is not None and trip.dry_from != month:
            self.session.act(save_trip, replace(trip, dry_from=month))
        self.kept.saved()
        self.left.emit()
