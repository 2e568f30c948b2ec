"""A pantry, a cellar and a freezer, and batches to put there."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta
from typing import Any

from dryhouse.handbook.reader import handbook
from dryhouse.kitchen.calendar import end_of_day, today
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.records import Batch, Lot, Place, PlaceTemperature
from dryhouse.kitchen.shelf.book import ShelfBook
from dryhouse.kitchen.shelf.lines import ShelfLine
from dryhouse.kitchen.shelf.packing import Package, pack
from dryhouse.science.quantities import Mass, Temperature, Volume
from dryhouse.science.units import to_celsius
from tests.fakes import FakeJournal

NOW = datetime(2026, 11, 25, 9, 0, tzinfo=UTC)
TODAY = date(2026, 11, 25)
LONG_AGO = datetime(2025, 1, 1, tzinfo=UTC)
PANTRY, CELLAR, FREEZER = 1, 2, 3

ROOM = (
    Place("pantry", PANTRY),
    Place("cellar", CELLAR),
    Place("freezer", FREEZER),
    PlaceTemperature(PANTRY, LONG_AGO, Temperature(to_celsius(70), "70 F"), id=1),
    PlaceTemperature(CELLAR, LONG_AGO, Temperature(to_celsius(60), "60 F"), id=2),
    PlaceTemperature(FREEZER, LONG_AGO, Temperature(-18.0, "-18 C"), id=3),
)


def a_batch(food: str = "corn", id: int = 1, **more: Any) -> Batch:
    """A finished batch, dry enough by weight and to the hand: 1000 g fresh."""
    ended = more.pop("ended", NOW - timedelta(days=30))
    dried = {"corn": 240.0, "apple": 160.0, "turkey": 340.0}.get(food, 200.0)
    given: dict[str, Any] = {
        "prepared_mass": Mass(1000.0, "1 kg"),
        "dried_mass": Mass(dried),
        "dried_volume": Volume(600.0),
        "started": (ended or NOW) - timedelta(hours=9),
        "ended": ended,
        "felt": "leathery" if food == "apple" else "brittle",
        "id": id,
    }
    return Batch(food, **{**given, **more})


HEATED = {
    "precook_method": "simmered or steamed",
    "precook_temperature": Temperature(to_celsius(170), "170 F"),
    "precook_measured": "thermometer",
}


def a_shelf(*records: Any, now: datetime = NOW, zone: Any = UTC) -> Kitchen:
    """A kitchen with the three places and these records."""
    return Kitchen(FakeJournal(*ROOM, *records), handbook(), lambda: now, zone)


def packed(kitchen: Kitchen, batch: int = 1, place: int | None = PANTRY, **more: Any) -> Lot:
    """The batch in one jar, packed the day it came out of the dryer."""
    ended = kitchen.journal.get(Batch, batch).ended
    more.setdefault("packed_on", kitchen.local(ended).date())
    package = more.pop("package", Package("jar", place=place))
    return pack(kitchen, batch, [package], **more).record


def shelf_line(kitchen: Kitchen, lot: int, on: date | None = None) -> ShelfLine:
    """What the shelf says of one lot on a day."""
    book, day = ShelfBook.read(kitchen, lot), on or today(kitchen)
    return book.line(book.lots[lot], day, end_of_day(kitchen, day))
