"""Trips: days against meals, what each day comes to, and everything the trip asks of shelf, market and dryers."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

from PySide6.QtGui import QTextDocument
from PySide6.QtWidgets import QWidget

from dryhouse.desk.measures import hold
from dryhouse.desk.places.meals.meal_list import MealList
from dryhouse.desk.places.meals.trips.plan_view import PlanView
from dryhouse.desk.places.meals.trips.trip_form import TripForm
from dryhouse.desk.places.meals.trips.trip_grid import TripGrid
from dryhouse.desk.session import Session
from dryhouse.desk.widgets.basics import Pages, button, column, fill, row, scrolling, text_label
from dryhouse.desk.widgets.beside import side_by_side
from dryhouse.desk.widgets.cautions_view import CautionsView
from dryhouse.desk.widgets.choice_box import ChoiceBox
from dryhouse.desk.widgets.empty_state import EmptyState
from dryhouse.kitchen.meals.meals import meals
from dryhouse.kitchen.records import Trip
from dryhouse.kitchen.trips.bag_labels import bag_labels
from dryhouse.kitchen.trips.fuel import fuel_words
from dryhouse.kitchen.trips.provisioning import Plan, plan, plan_batches
from dryhouse.kitchen.trips.trips import move_meal, put_meal, remove_trip, serve_meal, trips, unplan_meal
from dryhouse.science.display import Style, counted, duration
from dryhouse.words.dates import day_words, short_day
from dryhouse.words.sums import energy_words

if TYPE_CHECKING:
    from dryhouse.desk.labels.page import LabelsPage

_DAYS_HIGH = 180
"""Pixels that the days take at least."""
_CAUTIONS_HIGH = 160
"""Pixels that the cautions of a trip take below its days, at most; they scroll."""


class TripsPage(QWidget):
    """One trip in view; the others are a choice away."""

    def __init__(self, session: Session) -> None:
        super().__init__()
        self.session = session
        self.trip: Trip | None = None
        self.labels: LabelsPage | None = None
        self.choice = ChoiceBox()
        self.choice.setAccessibleName("Trip")
        self.choice.setSizeAdjustPolicy(ChoiceBox.SizeAdjustPolicy.AdjustToContents)
        self.summary = text_label("", "muted")
        self.form = TripForm(session)
        self.list = MealList(session, "Meals to put on a day")
        self.grid, self.cautions = TripGrid(session), CautionsView(session, moment="pot")
        self.plan_view = PlanView(session, self._days(), self.write_batches, self.print_labels)
        self.empty_state = EmptyState(
            session.theme,
            "meals",
            "No trip yet",
            "Enter dates, people and calories per day; then put meals on its days, and the lists follow.",
            ("Plan a trip", self.new),
        )
        self._build()
        self.choice.currentIndexChanged.connect(lambda _i: self.show_trip(self.choice.currentData()))
        self.grid.put_asked.connect(self._put_here)
        self.grid.dropped.connect(self._put)
        self.grid.moved.connect(lambda id, day, slot: self.session.act(move_meal, id, day, slot))
        self.grid.taken_off.connect(lambda id: self.session.act(unplan_meal, id))
        self.grid.servings_asked.connect(lambda id, served: self.session.act(serve_meal, id, served))
        self.list.opened.connect(self._put_chosen)
        self.form.saved.connect(self._saved)
        self.plan_view.after.planned.connect(self._planned)
        self.form.left.connect(self._leave_form)

    def _days(self) -> QWidget:
        """The meals beside the days they are put on."""
        left = QWidget()
        inside = column(left, space=8)
        inside.addWidget(self.list)
        inside.addWidget(
            text_label("Drag a meal onto a day, or choose one here and press Enter on the day.", "small")
        )
        right = QWidget()
        held = QWidget()
        fill(column(held), self.cautions, 1)
        below = scrolling(held, keeps=True)
        days = QWidget()
        column(days).addWidget(self.grid)
        hold(days, least_high=_DAYS_HIGH)
        hold(below, most_high=_CAUTIONS_HIGH)
        self.cautions.seen.connect(below.setVisible)
        below.hide()
        fill(column(right, space=8), days, below)
        both = side_by_side(left, right, sizes=(212, 832), least=(180, 480), gap=16)
        both.setStretchFactor(1, 1)
        return both

    def _build(self) -> None:
        self.change_button = button("Edit", self.change, name="Edit the trip")
        self.remove_button = button("Remove", self.remove, name="Remove the trip")
        body = QWidget()
        outer = column(body, space=8)
        top = row(self.choice, self.change_button, self.remove_button, 1)
        outer.addLayout(top)
        held = QWidget()
        fill(column(held), self.form, 1)
        self.form_area = scrolling(held)
        outer.addWidget(self.form_area, 2)
        outer.addWidget(self.form.save_or_close)
        outer.addWidget(self.summary)
        outer.addWidget(self.plan_view, 1)
        self.body = body
        self.pages = Pages()
        self.pages.addWidget(body)
        self.pages.addWidget(self.empty_state)
        column(self).addWidget(self.pages)
        self._show_form(False)

    # --- showing ---------------------------------------------------------------------------------------------

    def refresh(self) -> None:
        """Read everything again."""
        known = trips(self.session.kitchen)
        self.list.refresh()
        chosen = self.trip.id if self.trip is not None else 0
        self.choice.blockSignals(True)
        self.choice.clear()
        for trip in known:
            days = f"{short_day(trip.starts_on)} to {day_words(trip.ends_on)}"
            self.choice.addItem(f"{trip.name}, {days}", trip.id)
        at = next((n for n, trip in enumerate(known) if trip.id == chosen), 0)
        self.choice.setCurrentIndex(at if known else -1)
        self.choice.blockSignals(False)
        if not self.form.isVisible() and self.pages.currentWidget() is not self.labels:
            self.pages.setCurrentWidget(self.body if known else self.empty_state)
        self.show_trip(known[at].id if known else None)

    def show_trip(self, id: int | None) -> None:
        """Show one trip, its days and its plan."""
        kitchen = self.session.kitchen
        self.trip = kitchen.journal.get(Trip, id) if id else None
        for piece in (self.change_button, self.remove_button):
            piece.setEnabled(self.trip is not None)
        worked: Plan | None = None
        if self.trip is not None:
            worked = self.session.attempt(plan, kitchen, self.trip.id)
        if worked is not None:
            self.grid.show_plan(worked)
        self.cautions.set_cautions(c for bag in (worked.bags if worked is not None else ()) for c in bag.cautions)
        self.plan_view.show_plan(worked)
        self.summary.setText("" if worked is None else _told(worked, self.session.style))
        self.summary.setToolTip("" if worked is None else fuel_words(worked.fuel, self.session.style))
        at = self.choice.findData(id) if id else -1
        if at >= 0 and at != self.choice.currentIndex():
            self.choice.blockSignals(True)
            self.choice.setCurrentIndex(at)
            self.choice.blockSignals(False)

    # --- acts ------------------------------------------------------------------------------------------------

    def new(self) -> None:
        """An empty form."""
        self._open_form(None)

    def change(self) -> None:
        """The form of the trip in view."""
        if self.trip is not None:
            self._open_form(self.trip)

    def _open_form(self, trip: Trip | None) -> None:
        self.pages.setCurrentWidget(self.body)
        self._show_form(True)
        self.plan_view.hide()
        self.summary.hide()
        self.form.begin(trip)

    def remove(self) -> None:
        """Remove the trip in view; the message offers to take it back."""
        if self.trip is not None:
            self.session.act(remove_trip, self.trip.id)

    def write_batches(self) -> None:
        """Put the plan's loads among the planned batches."""
        if self.trip is not None:
            self.session.act(plan_batches, self.trip.id)

    def print_labels(self) -> None:
        """The bag labels of this trip, on the page of labels."""
        worked = self.plan_view.plan
        if worked is None or not worked.bags:
            return
        if self.labels is None:
            from dryhouse.desk.labels.page import LabelsPage

            self.labels = LabelsPage(self.session)
            self.labels.left.connect(lambda: self.pages.setCurrentWidget(self.body))
            self.pages.addWidget(self.labels)
        self.labels.show_labels(bag_labels(worked, self.session.style))
        self.pages.setCurrentWidget(self.labels)
        self.labels.setFocus()

    def printout(self) -> QTextDocument | None:
        """The list in front."""
        return self.plan_view.printout()

    def _put_here(self, day: date, slot: str) -> None:
        meal = self.list.current()
        if not meal:
            known = meals(self.session.kitchen)
            if not known:
                self.session.say("There is no meal yet; build one first.", "input")
                return
            meal = known[0].id
            self.list.choose(meal)
        self._put(meal, day, slot)

    def _put(self, meal: int, day: date, slot: str) -> None:
        if self.trip is not None:
            self.session.act(put_meal, self.trip.id, meal, day, slot)

    def _put_chosen(self, meal: int) -> None:
        here = self.grid.here()
        if here is not None:
            self._put(meal, *here)

    def _saved(self, id: int) -> None:
        self._close_form()
        if id:
            self.trip = self.session.kitchen.journal.get(Trip, id)
        self.refresh()
        self.list.list.setFocus()
        if self.list.list.count() and self.list.list.currentRow() < 0:
            self.list.list.setCurrentRow(0)

    def _planned(self, id: int) -> None:
        """The next trip is in view, its days first."""
        self.show_trip(id)
        self.plan_view.tabs.setCurrentIndex(0)
        self.grid.setFocus()

    def _leave_form(self) -> None:
        self._close_form()
        if self.trip is None:
            self.refresh()
        (self.grid if self.trip is not None else self.empty_state.buttons[0]).setFocus()

    def _show_form(self, shown: bool) -> None:
        for piece in (self.form_area, self.form.save_or_close):
            piece.setVisible(shown)

    def _close_form(self) -> None:
        self._show_form(False)
        self.plan_view.show()
        self.summary.show()


def _told(worked: Plan, style: Style) -> str:
    """A trip in one line: who, how long, what each eats and carries, the water and the flame."""
    sheet, trip = worked.sheet, worked.trip
    wish = trip.energy_kcal_per_person_day
    energy = sheet.energy_per_person_day
    eaten = "" if energy is None else f" and {energy_words(energy.value, sheet.energy_lacks, wish)}"
    fuel = worked.fuel.grams
    who = f"{counted(trip.people, 'person', 'people')}, {counted(len(sheet.days), 'day')}"
    if not any(day.meals for day in sheet.days):
        return f"{who}. {trip.notes}".strip()
    parts = [
        who,
        f"{style.load(sheet.grams_per_person_day.value)} of dry food{eaten} a day each",
        f"{style.load(sheet.days[0].carried_per_person)} each to carry at first",
        f"{style.figure(sheet.water)} of water, {duration(sheet.flame_minutes * 60)} on the stove"
        + ("" if fuel is None else f", {style.mass(fuel.value)} of fuel"),
        "" if trip.temperature is not None else "Trail temperature not recorded",
    ]
    return ". ".join(part for part in parts if part) + "." + (f" {trip.notes}" if trip.notes else "")
