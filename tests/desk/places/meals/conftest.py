"""A kitchen with two meals and a trip; trips, and the whole place, over whatever kitchen a test has."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, date, timedelta

import pytest

from dryhouse.desk.places.meals.trips.trips_page import TripsPage
from dryhouse.desk.places.meals.view import MealsPlace
from dryhouse.desk.session import Session
from dryhouse.handbook.reader import handbook
from dryhouse.kitchen.batches.dryers import save_dryer
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.meals.meals import draft_part, save_meal
from dryhouse.kitchen.records import Dryer, Lot, Meal, Trip
from dryhouse.kitchen.trips.trips import put_meal, save_trip
from dryhouse.science.quantities import Area, Mass, Temperature
from tests.desk.places.meals.meal_place import DAY, NOW
from tests.fakes import FakeJournal


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


@pytest.fixture
def kitchen() -> Kitchen:
    lot = Lot(
        "carrot",
        date(2026, 7, 1),
        "jar by the door",
        mass=Mass(90.0),
        bought_keep_by=date(2027, 7, 1),
        origin="bought",
        id=1,
    )
    made = Kitchen(FakeJournal(lot), handbook(), lambda: NOW, UTC)
    parts = [("carrot", "20 g"), ("couscous", "80 g"), ("ground beef", "20 g"), ("bouillon powder, beef", "12 g")]
    save_meal(made, Meal("camp stew", 1.0), [draft_part(made, *typed) for typed in parts])
    save_meal(made, Meal("oat breakfast", 1.0), [draft_part(made, "oats, rolled or quick", "80 g")])
    save_dryer(made, Dryer("shelf dryer", 6, Area(1000.0), 500.0))
    save_trip(made, Trip("lake circuit", DAY, DAY + timedelta(days=2), 4, 2500.0, Temperature(18.0)))
    put_meal(made, 1, 1, DAY)
    return made


@pytest.fixture
def place(qtbot, session: Session) -> Iterator[MealsPlace]:
    made = MealsPlace(session)
    qtbot.addWidget(made)
    made.resize(1100, 740)
    made.show()
    qtbot.waitExposed(made)
    return made
