"""The Meals place over a kitchen in memory."""

from __future__ import annotations

from datetime import UTC

from dryhouse.desk.places.meals.view import TRIPS, MealsPlace
from dryhouse.desk.session import Session
from dryhouse.handbook.reader import handbook
from dryhouse.kitchen.kitchen import Kitchen
from tests.desk.places.meals.meal_place import NOW
from tests.fakes import FakeJournal


def test_with_nothing_in_it_the_place_says_what_to_do(qtbot, theme) -> None:
    empty = MealsPlace(Session(Kitchen(FakeJournal(), handbook(), lambda: NOW, UTC), theme))
    qtbot.addWidget(empty)
    empty.show()
    assert empty.meals.pages.currentWidget() is empty.meals.empty_state
    empty.meals.empty_state.buttons[0].click()
    assert empty.meals.pages.currentWidget() is empty.meals.both
    empty.turn(TRIPS)
    assert empty.trips.pages.currentWidget() is empty.trips.empty_state
