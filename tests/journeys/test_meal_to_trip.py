"""From shelf to pot: a meal is built, taken on a trip for four, cooked, found soupy. By keyboard alone."""

from __future__ import annotations

from datetime import date

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from dryhouse.kitchen.meals.meals import find_meal
from dryhouse.kitchen.meals.sheet import meal_sheet
from dryhouse.kitchen.records import Batch, CookingNote, Meal, Trip, TripMeal
from tests.journeys.conftest import CTRL
from tests.workings import read

TAB, ENTER, DOWN = Qt.Key.Key_Tab, Qt.Key.Key_Return, Qt.Key.Key_Down


def place(person):
    return person.window.views["meals"]


def fill(person, *texts: str) -> None:
    """Type into one entry after another."""
    for text in texts:
        if text:
            QApplication.focusWidget().selectAll()
            person.type(text)
        person.press(TAB)


def build(person, qtbot) -> Meal:
    """Corn and couscous for one, a stew."""
    person.press(Qt.Key.Key_5, CTRL)
    person.press(Qt.Key.Key_N, CTRL)
    fill(person, "camp stew")
    card = place(person).meals.card
    card.parts.rows[0].name.setFocus()
    for name, amount in (("sweet corn", "1 oz"), ("couscous", "3 oz"), ("olive oil", "1 tbsp")):
        fill(person, name)
        person.type(amount)
        card.parts.first_empty().name.setFocus()
    person.press(Qt.Key.Key_S, CTRL)
    return find_meal(person.session.kitchen, "camp stew")


def plan_trip(person, qtbot) -> Trip:
    person.press(Qt.Key.Key_PageDown, CTRL)
    person.press(Qt.Key.Key_N, CTRL)
    fill(person, "winter paddle", "2027-03-05", "2027-03-07", "4", "2500", "50 F")
    person.press(ENTER)
    return next(t for t in person.session.kitchen.journal.where(Trip) if t.name == "winter paddle")


def put_on_the_first_day(person, meal: Meal) -> None:
    trips = place(person).trips
    trips.list.choose(meal.id)
    trips.grid.setFocus()
    trips.grid.setCurrentCell(0, 2)
    person.press(ENTER)


def test_a_meal_is_built_and_answers_while_it_is_typed(person, qtbot):
    person.press(Qt.Key.Key_5, CTRL)
    person.press(Qt.Key.Key_N, CTRL)
    card = place(person).meals.card
    card.parts.rows[0].name.setFocus()
    fill(person, "couscous")
    person.type("3 oz")
    qtbot.waitUntil(lambda: card.sums.strip.water.figure is not None)
    before = card.sums.strip.water.figure.value
    person.type(" ")
    QApplication.focusWidget().selectAll()
    person.type("6 oz")
    qtbot.waitUntil(lambda: card.sums.strip.water.figure.value > before)


def test_a_built_meal_is_in_the_journal_with_every_ingredient(person, qtbot):
    meal = build(person, qtbot)
    sheet = meal_sheet(person.session.kitchen, meal)
    assert [line.part.name for line in sheet.parts] == ["sweet corn", "couscous", "olive oil"]
    assert [line.part.mass.typed for line in sheet.parts[:2]] == ["1 oz", "3 oz"]
    assert sheet.parts[2].part.volume.typed == "1 tbsp"
    assert place(person).meals.card.name.text() == "camp stew"


def test_a_trip_for_four_has_its_labels_and_its_shopping_list(person, qtbot):
    meal = build(person, qtbot)
    trip = plan_trip(person, qtbot)
    assert (trip.people, trip.starts_on, trip.ends_on) == (4, date(2027, 3, 5), date(2027, 3, 7))
    put_on_the_first_day(person, meal)
    placed = person.session.kitchen.journal.where(TripMeal, trip=trip.id)
    assert [(p.meal, p.on, p.slot) for p in placed] == [(meal.id, date(2027, 3, 5), "dinner")]
    trips = place(person).trips
    plan = trips.plan_view.plan
    assert plan.bags[0].servings == 4
    trips.plan_view.tabs.setCurrentIndex(2)
    page = trips.printout().toPlainText()
    assert "Shopping for winter paddle" in page
    assert "couscous" in page
    trips.plan_view.labels.setFocus()
    person.press(Qt.Key.Key_Space)
    (label,) = trips.labels.labels
    assert label.title == "Camp stew"
    assert any(line.startswith("Water ") for line in label.lines)
    person.press(Qt.Key.Key_Escape)
    assert trips.pages.currentWidget() is trips.body


def test_a_meal_moves_by_keyboard_and_comes_off_again(person, qtbot):
    meal = build(person, qtbot)
    trip = plan_trip(person, qtbot)
    put_on_the_first_day(person, meal)
    journal = person.session.kitchen.journal
    person.press(DOWN, Qt.KeyboardModifier.AltModifier)
    assert [p.on for p in journal.where(TripMeal, trip=trip.id)] == [date(2027, 3, 6)]
    person.press(Qt.Key.Key_Plus)
    assert [p.servings for p in journal.where(TripMeal, trip=trip.id)] == [5.0]
    person.press(Qt.Key.Key_Delete)
    assert not journal.where(TripMeal, trip=trip.id)
    person.window.menus.undo.trigger()
    assert len(journal.where(TripMeal, trip=trip.id)) == 1


def test_cooked_and_soupy_it_takes_less_water_next_time(person, qtbot):
    meal = build(person, qtbot)
    card = place(person).meals.card
    before = card.sums.strip.water.figure.value
    person.press(Qt.Key.Key_K, CTRL)
    assert QApplication.focusWidget() is card.note.came_back.box
    person.type("soupy")
    person.press(TAB)
    person.press(ENTER)
    (note,) = person.session.kitchen.journal.where(CookingNote, meal=meal.id)
    assert note.came_back == "soupy"
    assert note.water is not None
    assert note.water.si == pytest.approx(before, rel=0.03), "as a measuring cup shows it"
    assert card.sums.strip.water.figure.value < 0.95 * before
    assert card.sums.taught.text() == "Water corrected by 1 cooking note of this meal."
    assert "Corrected by 1 cooking note on" in read(card.sums.strip.water.figure.workings)


def test_planned_batches_wait_in_drying_now(person, qtbot):
    meal = build(person, qtbot)
    trip = plan_trip(person, qtbot)
    put_on_the_first_day(person, meal)
    view = place(person).trips.plan_view
    if not view.plan.items:
        pytest.fail("the sample shelf should not cover a trip in March with corn of last summer")
    QTest.keyClick(view.batches, Qt.Key.Key_Space)
    waiting = person.session.kitchen.journal.where(Batch, trip=trip.id, state="planned")
    assert {b.food for b in waiting} == {item.food for item in view.plan.items}


def test_from_a_meal_to_its_lot_and_back_in_one_step(person, qtbot):
    kitchen = person.session.kitchen
    person.press(Qt.Key.Key_5, CTRL)
    meals = place(person).meals
    meals.show_meal(find_meal(kitchen, "couscous").id)
    QApplication.processEvents()
    row = next(r for r in meals.card.parts.rows if r.open_lot.isEnabled())
    row.open_lot.trigger()
    assert person.window.here == "shelf"
    person.press(Qt.Key.Key_5, CTRL)
    assert person.window.here == "meals"
    assert meals.card.meal.name == "red pepper couscous"
