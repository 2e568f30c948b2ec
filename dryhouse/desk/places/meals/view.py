"""The Meals: meals and trips, side by side as two pages of one place."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtGui import QKeySequence, QShortcut, QTextDocument
from PySide6.QtWidgets import QButtonGroup, QPushButton

from dryhouse.desk.place import DeskPlace
from dryhouse.desk.places.meals.meals_page import MealsPage
from dryhouse.desk.places.meals.trips.trips_page import TripsPage
from dryhouse.desk.session import Session
from dryhouse.desk.widgets.basics import Pages, button, column
from dryhouse.desk.widgets.wrapping import headed
from dryhouse.kitchen.exchange.meal_files import ENDING
from dryhouse.kitchen.records import (
    AfterTrip,
    Batch,
    CookingNote,
    CookingNotePart,
    Dryer,
    Lot,
    LotCheck,
    LotDraw,
    LotMove,
    Meal,
    MealPart,
    OwnFigure,
    OwnFood,
    PlaceTemperature,
    Trip,
    TripMeal,
)

MEALS, TRIPS = 0, 1


class MealsPlace(DeskPlace):
    """Meals from the shelf to the pot, trips from the days back to the shopping list."""

    watches = frozenset(
        {Meal, MealPart, CookingNote, CookingNotePart, Trip, TripMeal, AfterTrip, Lot, LotDraw, LotCheck, LotMove}
        | {Batch, Dryer, OwnFood, OwnFigure, PlaceTemperature}
    )
    shortcuts = (
        ("Ctrl+N", "build a meal, or plan a trip"),
        ("Ctrl+F", "find a meal"),
        ("Ctrl+S", "save the meal"),
        ("Ctrl+Shift+M", "save it as a new meal, beside the old one"),
        ("Enter", "in Servings, once changed: choose whether the amounts change too"),
        ("Ctrl+K", "note how it came out"),
        ("Ctrl+PgUp", "the meals"),
        ("Ctrl+PgDown", "the trips"),
        ("Enter", "on a day: put the chosen meal there"),
        ("Del", "on a day: take a meal off"),
        ("Alt+arrows", "on a day: move a meal"),
        ("+ and −", "on a day: more or fewer servings"),
    )

    def __init__(self, session: Session) -> None:
        super().__init__(session)
        self.meals = MealsPage(session)
        self.trips = TripsPage(session)
        self.pages = Pages()
        self.pages.addWidget(self.meals)
        self.pages.addWidget(self.trips)
        self._which = QButtonGroup(self)
        self.to_meals = self._page_button("Meals", MEALS)
        self.to_trips = self._page_button("Trips", TRIPS)
        self.to_meals.setChecked(True)
        self.new_button = button("Build a meal", self.new, "primary", hint="Ctrl+N")
        inside = column(self, margin=20, space=12)
        self.print_button = button("Print", self.print_page, hint="Ctrl+P")
        inside.addLayout(headed("Meals", self.to_meals, self.to_trips, 1, self.print_button, self.new_button))
        inside.addWidget(self.pages, 1)
        for keys, act in (
            ("Ctrl+N", self.new),
            ("Ctrl+S", self._save),
            ("Ctrl+Shift+M", self._save_as_new),
            ("Ctrl+K", self._note),
            ("Ctrl+PgUp", lambda: self.turn(MEALS)),
            ("Ctrl+PgDown", lambda: self.turn(TRIPS)),
        ):
            QShortcut(QKeySequence(keys), self, act)

    def _page_button(self, text: str, page: int) -> QPushButton:
        made = button(text, lambda: self.turn(page), hint="Ctrl+PgUp" if page == MEALS else "Ctrl+PgDown")
        made.setCheckable(True)
        self._which.addButton(made)
        return made

    @property
    def here(self) -> int:
        """The page in view."""
        return self.pages.currentIndex()

    def turn(self, page: int) -> None:
        """Show the meals or the trips."""
        self.pages.setCurrentIndex(page)
        (self.to_trips if page == TRIPS else self.to_meals).setChecked(True)
        self.new_button.setText("Plan a trip" if page == TRIPS else "Build a meal")
        self.print_button.setVisible(page == MEALS)
        self.refresh()
        self.arrive()

    # --- the place -------------------------------------------------------------------------------------------

    def refresh(self) -> None:
        (self.trips if self.here == TRIPS else self.meals).refresh()

    def arrive(self) -> None:
        if self.here == TRIPS:
            self.trips.grid.setFocus()
        elif self.meals.pages.currentWidget() is self.meals.empty_state:
            self.meals.empty_state.buttons[0].setFocus()
        else:
            self.meals.list.list.setFocus()

    def show_record(self, kind: str, id: int | str) -> None:
        if kind == "meal":
            self.turn(MEALS)
            self.meals.show_meal(int(id))
        elif kind == "trip":
            self.turn(TRIPS)
            self.trips.show_trip(int(id))

    def takes(self, path: Path) -> bool:
        return path.name.endswith(ENDING)

    def take_file(self, path: Path) -> None:
        """A meal that another kitchen wrote."""
        self.turn(MEALS)
        self.meals.read(path)

    def printout(self) -> QTextDocument | None:
        return (self.trips if self.here == TRIPS else self.meals).printout()

    def leave(self) -> None:
        if self.meals.card.meal.id and self.meals.card.is_changed():
            self.meals.card.save()

    # --- acts ------------------------------------------------------------------------------------------------

    def new(self) -> None:
        """A new meal, or a new trip."""
        (self.trips if self.here == TRIPS else self.meals).new()

    def print_page(self) -> None:
        """Show the page as it will be printed."""
        if self.here == TRIPS:
            self.trips.plan_view.print_page()
        else:
            self.meals.print_card()

    def look_for(self) -> None:
        page = self.trips if self.here == TRIPS else self.meals
        page.list.filter.setFocus()

    def _note(self) -> None:
        if self.here == MEALS:
            self.meals.card.open_note()

    def _save_as_new(self) -> None:
        if self.here == MEALS:
            self.meals.card.copy_asked.emit()

    def _save(self) -> None:
        if self.here == MEALS:
            self.meals.card.save()
        elif self.trips.form.isVisible():
            self.trips.form.save()
        elif self.trips.plan_view.after.isVisible():
            self.trips.plan_view.after.save()
