"""A batch that waits: what it is, for which trip, by when."""

from __future__ import annotations

from datetime import UTC, date, datetime

import pytest
from PySide6.QtWidgets import QLabel

from dryhouse.desk.places.dryer.waiting import WaitingCard
from dryhouse.kitchen.records import Batch, Trip
from dryhouse.science.quantities import Mass
from tests.builders import a_kitchen

TRIP = Trip("Lake circuit", date(2027, 8, 20), date(2027, 8, 28), 4, id=1)
START = datetime(2027, 8, 9, 1, 48, tzinfo=UTC)


@pytest.mark.parametrize(("title", "name"), [("", "Apple"), ("the orchard's best", "The orchard's best")])
def test_it_goes_by_its_food_or_its_own_title_and_tells_its_trip_and_its_start(session, qtbot, title, name):
    batch = Batch("apple", "planned", title=title, prepared_mass=Mass(900.0), started=START, trip=1, id=7)
    session.kitchen = a_kitchen(TRIP, batch)
    card = WaitingCard(session, batch)
    qtbot.addWidget(card)
    said = [label.text() for label in card.findChildren(QLabel)]
    assert said[0] == name
    assert "for Lake circuit" in said[1]
    assert "on the dryer by Mon 9 Aug 2027" in said[1]
    assert card.start.accessibleName() == f"Start {name}, batch 7"
