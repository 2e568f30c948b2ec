"""A kitchen for tests of drying: a journal in memory, two foods with round figures, a clock that is set."""

from __future__ import annotations

import math
from collections.abc import Iterable
from datetime import UTC, datetime, timedelta

from dryhouse.handbook.reader import Handbook
from dryhouse.handbook.tables import Food
from dryhouse.kitchen.dryer.drying import add_weighing, leave_out, start_batch
from dryhouse.kitchen.dryer.learned import learned_anew
from dryhouse.kitchen.dryer.typed_readings import Reading
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.ports import Record
from dryhouse.kitchen.records import Batch, Dryer
from dryhouse.science.quantities import Mass, Temperature
from dryhouse.science.values import Fact
from tests.fakes import FakeJournal

NOON = datetime(2026, 8, 14, 12, 0, tzinfo=UTC)
APPLE = Food(
    "apple", "apple", ("apples",), "fruit",
    facts={
        "water": Fact(86.0, "%", "a test's own figure", low=84.0, high=88.0),
        "target_moisture": Fact(20.0, "%", "a test's own figure"),
    },
)  # fmt: skip
STRANGER = Food("sorrel", "sorrel", (), "herb")


class Hands:
    """A kitchen and the clock on its wall."""

    def __init__(self, *records: Record) -> None:
        self.time = NOON
        dryer = Dryer("shelf dryer", 6, id=1)
        self.journal = FakeJournal(dryer, *records)
        foods = {f.slug: f for f in (APPLE, STRANGER)}
        self.kitchen = Kitchen(self.journal, Handbook(foods), now=lambda: self.time, zone=UTC, follow=learned_anew)

    def wait(self, hours: float) -> None:
        self.time += timedelta(hours=hours)

    def start(self, grams: float | None = 1000.0, food: str = "apple", **more: object) -> int:
        mass = Mass(grams, f"{grams:g} g") if grams is not None else None
        draft = Batch(food, prepared_mass=mass, dryer=1, trays=4, set_temperature=Temperature(57.0, "57 C"), **more)
        return start_batch(self.kitchen, draft).record.id

    def weigh(self, batch: int, grams: float, *, keep: bool = False, replacing: int = 0, **more: object) -> int:
        reading = Reading(Mass(grams, f"{grams:g} g"), **more)
        return add_weighing(self.kitchen, batch, reading, keep=keep, replacing=replacing).record.id

    def insist(self, batch: int, grams: float) -> int:
        """A reading that can't be true, kept and taken in all the same."""
        number = self.weigh(batch, grams, keep=True)
        leave_out(self.kitchen, number, out=False)
        return number

    def dry(
        self, batch: int, hours: Iterable[float], *, k: float = 0.25, n: float = 1.1, dry: float = 140.0
    ) -> None:
        """Weigh at these hours from now, along Page's curve of a 1000 g load, to the gram."""
        begun = self.time
        for hour in hours:
            self.time = begun + timedelta(hours=hour)
            self.weigh(batch, round(dry + (1000.0 - dry) * math.exp(-k * hour**n)))
