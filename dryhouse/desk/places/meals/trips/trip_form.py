"""The form of a trip: when, who, how hungry, how warm, how high, and what is expected to be lost."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QFrame, QWidget

from dryhouse.desk.places.meals.note_form import DayField
from dryhouse.desk.places.meals.trips.people_table import PeopleTable
from dryhouse.desk.session import Session
from dryhouse.desk.theme import set_role
from dryhouse.desk.widgets.basics import button, column, inner_key, row, text_label
from dryhouse.desk.widgets.draft import Draft, KeptForm, kept_entries, put_back
from dryhouse.desk.widgets.fields import NumberField, QuantityField, TextField, mark_problem
from dryhouse.desk.widgets.record_fields import altitude_field
from dryhouse.desk.widgets.wrapping import Tiles
from dryhouse.kitchen.calendar import today
from dryhouse.kitchen.meals.heat import fuel_per_liter, set_fuel_per_liter
from dryhouse.kitchen.records import Trip
from dryhouse.kitchen.records.shapes import label_of
from dryhouse.kitchen.trips.trips import people_of, save_trip
from dryhouse.science.quantities import Mass, Temperature


class TripDayField(DayField):
    """A day of a trip: a day without a year is the next one."""

    def read(self, text: str) -> date:
        day: date = super().read(text)
        now = today(self.session.kitchen)
        written = any(str(year) in text for year in (day.year, day.year % 100) if year > 31)
        if day < now - timedelta(days=60) and not written:
            return day.replace(year=day.year + 1)
        return day


class TripForm(QFrame):
    """`saved` gives the number of the trip."""

    saved = Signal(int)
    left = Signal()

    def __init__(self, session: Session) -> None:
        super().__init__()
        set_role(self, "card")
        self.session = session
        self._trip: Trip | None = None
        self.name = TextField(session, label_of(Trip, "name"), hint="such as lake circuit", name="name")
        self.starts = TripDayField(session, label_of(Trip, "starts_on"), hint="2026-08-22", name="starts_on")
        self.ends = TripDayField(session, label_of(Trip, "ends_on"), hint="2026-08-30", name="ends_on")
        self.people = NumberField(session, label_of(Trip, "people"), hint="4", whole=True, name="people")
        self.energy = NumberField(
            session, label_of(Trip, "energy_kcal_per_person_day"), hint="2500", name="energy_kcal_per_person_day"
        )
        self.warmth = QuantityField(
            session, label_of(Trip, "temperature"), Temperature, hint="77 F", name="temperature"
        )
        self.altitude = altitude_field(session, Trip)
        self.margin = NumberField(
            session, label_of(Trip, "spoilage_margin_pct"), hint="0", percent=True, name="spoilage_margin_pct"
        )
        self.spare = NumberField(session, label_of(Trip, "spare_days"), hint="0", whole=True, name="spare_days")
        self.layovers = TextField(
            session, label_of(Trip, "layovers"), hint="by number, such as 3 6", name="layovers"
        )
        self.fuel = QuantityField(session, "Fuel for a liter boiled", Mass, hint="what you weighed", name="fuel")
        self.people_table = PeopleTable(session)
        self.title = text_label("A new trip", "heading")
        inside = column(self, margin=16, space=8)
        inside.addWidget(self.title)
        self._fields = (
            *(self.name, self.starts, self.ends, self.people),
            *(self.energy, self.warmth, self.altitude, self.margin),
            *(self.spare, self.layovers, self.fuel),
        )
        for field in self._fields:
            field.accepted.connect(self.save)
        inside.addLayout(Tiles(*self._fields, least=200, space=16))
        why = (
            "Heat on the way shortens how long each lot keeps; without a temperature no home-dried lot is counted."
        )
        inside.addWidget(text_label(why, "small"))
        inside.addWidget(self.people_table)
        save = button("&Save the trip", self.save, "primary", hint="Enter")
        self.kept = KeptForm(session, "trip", self, self._typed, self._put_back)
        inside.insertWidget(1, self.kept.offer)
        self.kept.offer.stand_before(self.name)
        self.draft = Draft()
        inner_key(self, "Esc", self._leave)
        self.save_or_close = QWidget()
        """Save and Close, for who shows the form to put where they stay in view."""
        self.save_or_close.setLayout(row(save, button("Close", self._leave, hint="Esc; what you typed is kept"), 1))
        inner_key(self.save_or_close, "Esc", self._leave)

    def begin(self, trip: Trip | None) -> None:
        """A recorded trip, or an empty form."""
        self.kept.rest(trip.id if trip else "")
        self._trip = trip
        if self.draft.stands(trip):
            self.name.setFocus()
            return
        self.title.setText("A new trip" if trip is None else f"Change {trip.name}")
        self.name.set_value(None if trip is None else trip.name)
        self.starts.set_value(None if trip is None else trip.starts_on)
        self.ends.set_value(None if trip is None else trip.ends_on)
        self.people.set_value(None if trip is None else trip.people)
        self.energy.set_value(None if trip is None else trip.energy_kcal_per_person_day)
        self.warmth.set_value(None if trip is None else trip.temperature)
        self.altitude.set_value(None if trip is None else trip.altitude)
        self.margin.set_value(None if trip is None or not trip.spoilage_margin_pct else trip.spoilage_margin_pct)
        self.spare.set_value(None if trip is None or not trip.spare_days else trip.spare_days)
        self.layovers.set_value(None if trip is None or not trip.layovers else trip.layovers)
        own = fuel_per_liter(self.session.kitchen)
        self.fuel.set_value(None if own is None else Mass(own))
        self.people_table.show_people(() if trip is None else people_of(self.session.kitchen, trip.id))
        self.kept.shown(trip.id if trip else "")
        self.name.setFocus()

    def _typed(self) -> Any:
        """What stands here: the entries, and those who go."""
        return [kept_entries(self._fields), self.people_table.typed()]

    def _put_back(self, kept: Any) -> None:
        put_back(self._fields, kept[0])
        self.people_table.put_back(kept[1])

    def _leave(self) -> None:
        self.draft.leave(self._trip)
        self.left.emit()

    def save(self) -> None:
        """Save the trip; what is wrong is marked where it stands."""
        named = self.name.require("A trip needs a name.")
        if not self.starts.require("Say on which day it starts, such as 2026-08-22.") or not named:
            return
        if any(field.problem is not None for field in self._fields):
            return
        base = self._trip or Trip("", self.starts.value(), self.starts.value())
        trip = replace(
            base,
            name=self.name.text(),
            starts_on=self.starts.value(),
            ends_on=self.ends.value() or self.starts.value(),
            people=self.people.value() or 1,
            energy_kcal_per_person_day=self.energy.value(),
            temperature=self.warmth.value(),
            altitude=self.altitude.value(),
            spoilage_margin_pct=self.margin.value() or 0.0,
            spare_days=self.spare.value() or 0,
            layovers=" ".join(self.layovers.text().replace(",", " ").split()),
        )
        people = self.session.attempt(self.people_table.people)
        shown = [self._trip] if self._trip else ()
        done = None if people is None else self.session.act_on(shown, save_trip, trip, people)
        if done is None or not self._keep_fuel():
            mark_problem(self.session.problem, self._fields)
            return
        self.kept.saved()
        self.saved.emit(trip.id or (done.record.id if done.changes else 0))

    def _keep_fuel(self) -> bool:
        """Keep the fuel of her stove, where it was changed; it belongs to her and not to the trip."""
        own, said = fuel_per_liter(self.session.kitchen), self.fuel.value()
        if (said is None and own is None) or (said is not None and own == said.si):
            return True
        return self.session.act(set_fuel_per_liter, said) is not None
