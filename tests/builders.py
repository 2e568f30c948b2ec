"""Small kitchens for tests: a journal in memory, a handbook of three foods, a clock that stands still."""

from __future__ import annotations

from datetime import UTC, datetime

from dryhouse.handbook.reader import Handbook
from dryhouse.handbook.tables import Food, HouseholdMeasure
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.ports import Record
from dryhouse.science.values import Fact
from tests.fakes import FakeJournal

NOW = datetime(2026, 11, 25, 9, 0, tzinfo=UTC)


def fact(value: float, unit: str = "%", **more: float) -> Fact:
    """A figure from a test's own source."""
    return Fact(value, unit, "a source for tests", **more)


CORN = Food(
    "corn",
    "sweet corn",
    ("corn", "maize"),
    "vegetable",
    {"water": fact(76.05, low=74.0, high=78.0), "target_moisture": fact(10.0), "refuse": fact(64.0)},
    {},
    (
        HouseholdMeasure("fresh", "kernels", 236.588, 145.0, "a source for tests"),
        HouseholdMeasure("dried", "kernels", 236.588, 100.0, "a source for tests"),
    ),
    frozenset({"vegetable", "low_acid"}),
)
TURKEY = Food(
    "turkey",
    "turkey, cooked",
    ("turkey",),
    "poultry",
    {"water": fact(66.0), "target_moisture": fact(10.0)},
    traits=frozenset({"animal", "poultry"}),
)
APPLE = Food(
    "apple",
    "apple",
    (),
    "fruit",
    {"water": fact(85.6), "target_moisture": fact(20.0)},
    traits=frozenset({"fruit"}),
)


def a_kitchen(*records: Record, now: datetime = NOW) -> Kitchen:
    """A kitchen with these records, on UTC."""
    handbook = Handbook({f.slug: f for f in (CORN, TURKEY, APPLE)})
    return Kitchen(FakeJournal(*records), handbook, lambda: now, UTC)
