"""The days of a trip: meals dragged onto them, the lists, the batches to dry."""

from __future__ import annotations

from datetime import timedelta

import pytest
from PySide6.QtCore import QMimeData, QPointF, Qt
from PySide6.QtGui import QDropEvent
from PySide6.QtWidgets import QApplication

from dryhouse.desk.places.meals.meal_list import MEAL_MIME
from dryhouse.desk.places.meals.trips.trip_grid import PLACED_MIME
from dryhouse.desk.places.meals.view import MEALS, TRIPS, MealsPlace
from dryhouse.kitchen.records import Batch, Trip, TripMeal
from dryhouse.kitchen.trips.provisioning import plan
from tests.desk.places.meals.meal_place import DAY, typed


@pytest.fixture
def trips(place: MealsPlace):
    place.turn(TRIPS)
    QApplication.processEvents()
    return place.trips


def test_each_day_shows_its_meals_and_what_they_come_to(trips) -> None:
    grid = trips.grid
    assert grid.item(0, 2).text() == "Do not eat\ncamp stew"
    assert "short" in grid.item(0, 4).text()
    assert "flame" in grid.item(0, 5).text()
    assert grid.item(1, 4).text() == "—"
    assert grid.item(0, 2).data(Qt.ItemDataRole.AccessibleTextRole).startswith("Thursday, dinner: camp stew")


def drop(grid, row: int, column: int, kind: str, id: int) -> None:
    data = QMimeData()
    data.setData(kind, str(id).encode())
    at = QPointF(grid.visualItemRect(grid.item(row, column)).center())
    actions, button, none = Qt.DropAction.CopyAction, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier
    grid.dropEvent(QDropEvent(at, actions, data, button, none))


def test_a_meal_dragged_onto_a_day_is_put_there(trips) -> None:
    drop(trips.grid, 1, 0, MEAL_MIME, 2)
    placed = trips.session.kitchen.journal.where(TripMeal, meal=2)
    assert [(p.on, p.slot) for p in placed] == [(DAY + timedelta(days=1), "breakfast")]
    assert trips.grid.item(1, 0).text() == "oat breakfast"


def test_a_placed_meal_dragged_elsewhere_moves(trips) -> None:
    drop(trips.grid, 2, 2, PLACED_MIME, 1)
    assert [(p.on, p.slot) for p in trips.session.kitchen.journal.where(TripMeal)] == [
        (DAY + timedelta(days=2), "dinner")
    ]


def test_nothing_is_put_onto_a_column_of_sums(trips) -> None:
    drop(trips.grid, 1, 4, MEAL_MIME, 2)
    assert len(trips.session.kitchen.journal.where(TripMeal)) == 1


def test_the_lists_are_the_plans(trips) -> None:
    worked = plan(trips.session.kitchen, 1)
    assert trips.plan_view.plan == worked
    assert "to dry. Start by" in trips.plan_view.says.text()
    assert trips.plan_view.lots.item(0, 0).text() == "carrot, jar by the door"


def test_a_trip_without_its_first_day_is_told_at_the_entry(trips) -> None:
    trips.new()
    typed(trips.form.name.edit, "short paddle")
    trips.form.save()
    assert "which day it starts" in trips.form.starts.sentence.text()
    typed(trips.form.starts.edit, "2026-09-05")
    trips.form.save()
    assert [t.name for t in trips.session.kitchen.journal.where(Trip)] == ["lake circuit", "short paddle"]
    assert trips.trip.name == "short paddle"


def test_planned_batches_are_written_and_can_be_taken_back(trips) -> None:
    trips.plan_view.batches.click()
    assert {b.food for b in trips.session.kitchen.journal.where(Batch)} == {"ground-beef"}
    trips.session.undo()
    assert not trips.session.kitchen.journal.where(Batch)


def test_a_lot_of_the_trip_leads_to_the_shelf(qtbot, trips) -> None:
    with qtbot.waitSignal(trips.session.open_asked) as asked:
        trips.plan_view.lots.itemActivated.emit(trips.plan_view.lots.item(0, 0))
    assert asked.args == ["shelf", "lot", 1]


def test_other_places_lead_to_a_trip_or_a_meal(place: MealsPlace) -> None:
    place.show_record("trip", 1)
    assert place.here == TRIPS
    place.show_record("meal", 2)
    assert (place.here, place.meals.card.meal.name) == (MEALS, "oat breakfast")
