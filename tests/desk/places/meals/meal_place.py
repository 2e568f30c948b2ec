"""A day to stand in, a meal brought into view by its name, words typed into its card."""

from __future__ import annotations

from datetime import UTC, date, datetime

from PySide6.QtTest import QTest

from dryhouse.desk.places.meals.view import MealsPlace
from dryhouse.kitchen.records import Meal

NOW = datetime(2026, 8, 1, 9, tzinfo=UTC)
DAY = date(2026, 8, 20)


def named(place: MealsPlace, name: str) -> None:
    place.meals.show_meal(next(m.id for m in place.session.kitchen.journal.where(Meal) if m.name == name))


def typed(widget, text: str) -> None:
    widget.setFocus()
    widget.selectAll()
    QTest.keyClicks(widget, text)
