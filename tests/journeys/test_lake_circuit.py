"""The lake circuit planned in March, from an empty shelf, with one six-tray dryer, in evenings and on weekends."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime, timedelta
from itertools import pairwise
from zoneinfo import ZoneInfo

import pytest

from dryhouse.handbook.reader import handbook
from dryhouse.journal.sample import sample_folder
from dryhouse.kitchen.calendar import start_of
from dryhouse.kitchen.exchange import read_records
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.records import Dryer, Meal, MealPart, OwnFigure, OwnFood, Place, Trip, TripMeal
from dryhouse.kitchen.trips.provisioning import Plan, plan
from tests.fakes import FakeJournal

NOW = datetime(2027, 3, 1, 15, tzinfo=UTC)
HOME = ZoneInfo("America/Chicago")
KEPT = (Meal, MealPart, Trip, TripMeal, OwnFood, OwnFigure, Place)


@pytest.fixture(scope="module")
def kitchen() -> Kitchen:
    records = list(read_records(sample_folder()))
    kept = [replace(r, lot=None) if isinstance(r, MealPart) else r for r in records if isinstance(r, KEPT)]
    dryer = next(r for r in records if isinstance(r, Dryer) and r.trays == 6)
    return Kitchen(FakeJournal(*kept, dryer), handbook(), lambda: NOW, HOME)


@pytest.fixture(scope="module")
def worked(kitchen: Kitchen) -> Plan:
    return plan(kitchen, next(t.id for t in kitchen.journal.where(Trip) if t.starts_on.year == 2027))


def test_every_bag_is_complete_before_departure_with_its_conditioning(kitchen: Kitchen, worked: Plan) -> None:
    assert worked.shortfall is None
    assert len(worked.items) == 17
    packing = start_of(kitchen, worked.trip.starts_on) - timedelta(days=1)
    assert all(run.ready <= packing for run in worked.calendar.runs)
    for item in worked.items:
        dried = sum(load.dried for run in worked.calendar.runs for load in run.loads if load.food == item.food)
        assert dried == pytest.approx(item.dried.value)
    assert {load.conditioning_days for r in worked.calendar.runs for load in r.loads if load.food == "apple"} == {
        10
    }


def test_nobody_gets_up_for_it_and_nobody_comes_home_for_it(kitchen: Kitchen, worked: Plan) -> None:
    for run in worked.calendar.runs:
        start, end = kitchen.local(run.start), kitchen.local(run.end)
        assert all(7 <= at.hour + at.minute / 60 <= 22 for at in (start, end))
        assert start.weekday() >= 5 or start.hour + start.minute / 60 >= 17.5
        assert end.weekday() >= 5 or end.hour < 8 or end.hour + end.minute / 60 >= 17.5
    assert all(later.start > earlier.end for earlier, later in pairwise(worked.calendar.runs))


def test_it_is_spread_over_the_months_and_meat_comes_last(worked: Plan) -> None:
    starts = [run.start for run in worked.calendar.runs]
    assert max(later - earlier for earlier, later in pairwise(starts)) < timedelta(days=21)
    assert starts[0] < datetime(2027, 4, 1, tzinfo=UTC)
    assert {load.food for load in worked.calendar.runs[-1].loads} == {"ground-beef", "ground-turkey"}
    onions = [run for run in worked.calendar.runs for load in run.loads if load.food == "onion"]
    assert all(len(run.loads) == 1 for run in onions)
