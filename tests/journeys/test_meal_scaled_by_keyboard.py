"""A meal for more people: new servings, and the amounts follow by one more key, or stay as they are."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication

from dryhouse.kitchen.meals.sheet import meal_parts, meal_sheet
from dryhouse.kitchen.records import Meal
from tests.journeys.conftest import CTRL

ENTER, TAB, SPACE = Qt.Key.Key_Return, Qt.Key.Key_Tab, Qt.Key.Key_Space


@pytest.fixture
def card(person, qtbot):
    qtbot.waitUntil(lambda: person.window.isActiveWindow() and QApplication.focusWidget() is not None)
    person.press(Qt.Key.Key_5, CTRL)
    made = person.window.views["meals"].meals.card
    assert made.meal.id
    made.servings.setFocus()
    made.servings.edit.selectAll()
    return made


def amounts(card):
    parts = meal_parts(card.session.kitchen, card.meal.id)
    return [(p.mass or p.volume).si for p in parts if p.mass is not None or p.volume is not None]


def test_the_amounts_follow_the_servings_and_come_back(person, card):
    kitchen, meal = person.session.kitchen, card.meal
    before, energy = meal_parts(kitchen, meal.id), meal_sheet(kitchen, meal.id).serving.energy.value
    was = amounts(card)
    person.type(f"{3 * meal.servings:g}")
    person.press(ENTER)
    assert card.offer.scale.hasFocus()
    assert kitchen.journal.get(Meal, meal.id).servings == meal.servings
    person.press(SPACE)
    assert kitchen.journal.get(Meal, meal.id).servings == 3 * meal.servings
    assert amounts(card) == pytest.approx([3 * amount for amount in was])
    assert card.sheet.serving.energy.value == pytest.approx(energy)
    assert not card.offer.isVisible()
    assert not card.is_changed()
    assert card.servings.edit.hasFocus()
    person.press(Qt.Key.Key_Z, CTRL)
    assert meal_parts(kitchen, meal.id) == before
    assert card.servings.value() == meal.servings
    assert not card.is_changed()


def test_the_figures_answer_while_the_servings_are_typed(person, card, qtbot):
    energy, servings = card.sheet.serving.energy.value, card.meal.servings
    person.type(f"{2 * servings:g}")
    qtbot.waitUntil(card.offer.isVisible)
    assert f"written for {servings:g} serving" in card.offer.said.text()
    assert card.sheet.serving.energy.value == pytest.approx(energy / 2)


def test_the_amounts_can_stay(person, card):
    was, servings = amounts(card), card.meal.servings
    person.type(f"{2 * servings:g}")
    person.press(ENTER)
    person.press(TAB)
    assert card.offer.keep.hasFocus()
    person.press(SPACE)
    assert amounts(card) == was
    assert person.session.kitchen.journal.get(Meal, card.meal.id).servings == 2 * servings
    assert not card.offer.isVisible()


def test_what_else_was_typed_is_saved_before_the_amounts_are_scaled(person, card):
    was, servings = amounts(card), card.meal.servings
    card.method.edit.setText("Stir twice")
    person.type(f"{2 * servings:g}")
    person.press(ENTER)
    person.press(SPACE)
    kept = person.session.kitchen.journal.get(Meal, card.meal.id)
    assert (kept.method, kept.servings) == ("Stir twice", 2 * servings)
    assert amounts(card) == pytest.approx([2 * amount for amount in was])
