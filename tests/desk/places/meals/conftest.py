"""The trips on the screen, over whatever kitchen a test has."""

from __future__ import annotations

import pytest

from dryhouse.desk.places.meals.trips.trips_page import TripsPage


@pytest.fixture
def trips(qtbot, session) -> TripsPage:
    page = TripsPage(session)
    qtbot.addWidget(page)
    session.changed.connect(lambda _done: page.refresh())
    page.refresh()
    page.resize(1100, 740)
    page.show()
    qtbot.waitExposed(page)
    return page
