"""A day's energy and a meal's that leave something out say so where they stand."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication

from dryhouse.desk.places.meals.trips.trips_page import _told
from dryhouse.desk.places.meals.view import TRIPS, MealsPlace
from dryhouse.desk.places.meals.wording import meal_page
from dryhouse.kitchen.meals.sheet import meal_sheet
from dryhouse.kitchen.ports import Change
from dryhouse.kitchen.records import MealPart, TripMeal, TripPerson
from dryhouse.kitchen.trips.provisioning import plan
from dryhouse.science.quantities import Mass


def with_nori(place: MealsPlace) -> int:
    """The meal of the first day, with an ingredient of which nothing is known but its weight."""
    kitchen = place.session.kitchen
    meal = kitchen.journal.where(TripMeal)[0].meal
    kitchen.journal.write([Change(None, MealPart(meal, 9, "nori", mass=Mass(5.0), id=990))])
    return meal


def test_the_day_the_trip_and_the_page_of_the_meal_name_what_their_energy_leaves_out(place: MealsPlace) -> None:
    meal = with_nori(place)
    kitchen, style = place.session.kitchen, place.session.style
    place.turn(TRIPS)
    QApplication.processEvents()
    worked = plan(kitchen, 1)
    place.trips.grid.show_plan(worked)
    cell = place.trips.grid.item(0, 4)
    lines = cell.text().splitlines()
    assert lines[1].startswith("at least ")
    assert lines[2].startswith("at most ")
    assert lines[3] == "not known for nori"
    assert "not known for nori" in cell.data(Qt.ItemDataRole.AccessibleTextRole)
    assert "(not known for nori)" in _told(worked, style)
    page = meal_page(meal_sheet(kitchen, meal), style)
    assert "Energy, at least (not known for nori)" in page


def test_the_tile_of_the_energy_is_at_least_only_where_something_is_left_out(place: MealsPlace) -> None:
    kitchen = place.session.kitchen
    strip = place.meals.card.sums.strip
    first = kitchen.journal.where(TripMeal)[0].meal
    sheet = meal_sheet(kitchen, first)
    strip.show_sums(sheet, sheet.bag, "bag")
    assert strip.energy.title == "Energy"
    with_nori(place)
    sheet = meal_sheet(kitchen, first)
    strip.show_sums(sheet, sheet.bag, "bag")
    assert strip.energy.title == "Energy, at least"
    strip.show_sums(None, None, "bag")
    assert strip.energy.title == "Energy"


def test_each_person_of_a_day_gets_at_least_so_much(place: MealsPlace) -> None:
    with_nori(place)
    kitchen = place.session.kitchen
    kitchen.journal.write([Change(None, TripPerson(1, "bow", 100.0, id=1))])
    place.turn(TRIPS)
    QApplication.processEvents()
    place.trips.grid.show_plan(plan(kitchen, 1))
    assert "bow at least " in place.trips.grid.item(0, 4).data(Qt.ItemDataRole.AccessibleTextRole)
