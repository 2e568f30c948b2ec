"""A kitchen with a clock, and meals typed into it."""

from __future__ import annotations

from datetime import UTC, date, datetime

from dryhouse.handbook.reader import handbook
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.meals.meals import (
    draft_part,
    save_meal,
)
from dryhouse.kitchen.ports import Record
from dryhouse.kitchen.records import (
    Meal,
)
from tests.fakes import FakeJournal

DAY = date(2026, 8, 21)


def a_kitchen(*records: Record) -> Kitchen:
    return Kitchen(FakeJournal(*records), handbook(), lambda: datetime(2026, 8, 1, 9, tzinfo=UTC), UTC)


def build(kitchen: Kitchen, *typed: tuple[str, str], **meal: object) -> int:
    done = save_meal(
        kitchen, Meal("stew", 2.0, **meal), [draft_part(kitchen, name, amount) for name, amount in typed]
    )
    return done.record.id
