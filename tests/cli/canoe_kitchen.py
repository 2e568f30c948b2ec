"""A small journal of the Gullwing Canoe Club, at a moment that never passes, in a zone of its own.

Loads of every kind that a sentence is about: dry and doubtful, meat with its heat and without, a whole pot, two on
the dryers; jars in three places; two meals and two trips.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, date, datetime, timedelta, timezone
from typing import Any

from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.ports import Change
from dryhouse.kitchen.records import (
    AfterTrip,
    Batch,
    BatchEvent,
    BatchPart,
    CookingNote,
    CookingNotePart,
    Dryer,
    Lot,
    LotCheck,
    LotDraw,
    LotMove,
    Meal,
    MealPart,
    OwnFood,
    Place,
    PlaceTemperature,
    Preference,
    Trip,
    TripMeal,
    TripPerson,
    Weighing,
)
from dryhouse.kitchen.records.batches import DRYING
from dryhouse.science.quantities import Area, Volume, parse, parse_length, parse_mass, parse_temperature

ZONE = timezone(timedelta(hours=-6))
NOW = datetime(2026, 11, 25, 18, 30, tzinfo=ZONE).astimezone(UTC)
SHELF_DRYER, BOX_DRYER = 1, 2
PANTRY, CELLAR, FREEZER = 1, 2, 3
RUN = "hours,grams\n0,1644\n1,1130\n2,815\n3,610\n4.5,430\n6,330\n7.5,285\n"
"""A run of apple slices, as a file has it."""
CHILI, COUSCOUS, OATS = 1, 2, 3
LAST_TRIP, NEXT_TRIP = 1, 2
_MASSES = ("prepared_mass", "dried_mass", "purchased_mass", "test_sample", "test_dry")
_HEATED = {"precook_method": "simmered or steamed", "precook_measured": "thermometer"}


def at(day: str, clock: str) -> datetime:
    """A moment on the wall of that kitchen."""
    return datetime.fromisoformat(f"{day}T{clock}").replace(tzinfo=ZONE).astimezone(UTC)


def _batch(id: int, food: str, start: tuple[str, str] | None, hours: float | None = None, **more: Any) -> Batch:
    given = {name: parse_mass(value) if name in _MASSES else value for name, value in more.items()}
    started = None if start is None else at(*start)
    ended = None if hours is None or started is None else started + timedelta(hours=hours)
    return Batch(food, started=started, ended=ended, id=id, **given)


def _room() -> Iterator[Any]:
    long_ago = at("2025-05-01", "08:00")
    area, large = parse("0.95 sq ft", Area), parse("1.5 sq ft", Area)
    yield Dryer(
        "shelf dryer", 6, area, 500.0, parse_temperature("95 F"), parse_temperature("160 F"), id=SHELF_DRYER
    )
    yield Dryer("box dryer", 10, large, 1000.0, id=BOX_DRYER)
    for number, name, heat in ((PANTRY, "pantry", "70 F"), (CELLAR, "cellar", "58 F"), (FREEZER, "freezer", "0 F")):
        yield Place(name, number)
        yield PlaceTemperature(number, long_ago, parse_temperature(heat), id=number)
    yield OwnFood("galley-chili", "galley chili", "mixed", contains="plant;meat", id=1)


def _batches() -> Iterator[Any]:
    """Six finished loads, two that run, one that is planned."""
    shelf: dict[str, Any] = {"dryer": SHELF_DRYER, "trays": 4}
    f125, f135, f160 = (parse_temperature(f"{degrees} F") for degrees in (125, 135, 160))
    yield _batch(
        1, "carrot", ("2026-09-05", "08:00"), 9.5, form="slices", prepared_mass="2 lb", dried_mass="3.9 oz",
        set_temperature=f125, felt="brittle", dried_volume=parse("1 1/4 cups", Volume), energy_kwh=2.4, **shelf,
    )  # fmt: skip
    yield _batch(
        2, "apple", ("2026-09-12", "09:00"), 8.0, form="slices", thickness=parse_length("1/4 in"),
        purchased_mass="3 lb 8 oz", prepared_mass="3 lb", dried_mass="8.6 oz", set_temperature=f135,
        felt="leathery", test_sample="20 g", test_dry="16.4 g", rating=4, **shelf,
    )  # fmt: skip
    yield _batch(
        3, "ground-turkey", ("2026-10-03", "10:00"), 7.0, made_from="cooked", prepared_mass="1 lb 8 oz",
        dried_mass="8.4 oz", set_temperature=f160, felt="brittle", precook_temperature=parse_temperature("170 F"),
        dryer=BOX_DRYER, trays=3, **_HEATED,
    )  # fmt: skip
    yield _batch(
        4, "turkey", ("2026-10-10", "10:00"), 8.0, prepared_mass="1 lb", dried_mass="5.4 oz", set_temperature=f135,
        felt="leathery",
    )  # fmt: skip
    yield _batch(
        5, "galley-chili", ("2026-10-17", "09:00"), 10.0, made_from="cooked", prepared_mass="5 lb",
        dried_mass="1 lb 6 oz", servings=8.0, set_temperature=f160, felt="brittle",
        precook_temperature=parse_temperature("200 F"), dryer=BOX_DRYER, trays=8, **_HEATED,
    )  # fmt: skip
    for position, (food, mass) in enumerate((("kidney-bean", "2 lb 8 oz"), ("tomato", "1 lb 8 oz"),
                                             ("ground-beef", "1 lb"))):  # fmt: skip
        yield BatchPart(5, position, food, parse_mass(mass), id=position + 1)
    yield _batch(6, "corn", ("2026-11-01", "08:00"), 6.0, prepared_mass="2 lb", dried_mass="12 oz", felt="pliable")
    yield _batch(
        7, "apple", ("2026-11-25", "11:30"), state=DRYING, form="slices", prepared_mass="3 lb",
        set_temperature=f135, **shelf,
    )  # fmt: skip
    for number, (clock, reading) in enumerate(
        (("11:30", "1361 g"), ("12:30", "1002 g"), ("13:30", "771 g"), ("14:30", "612 g"), ("16:00", "448 g"),
         ("17:30", "352 g"), ("18:15", "321 g")),
        start=1,
    ):  # fmt: skip
        yield Weighing(7, at("2026-11-25", clock), parse_mass(reading), id=number)
    yield BatchEvent(7, at("2026-11-25", "14:30"), "trays turned", id=1)
    yield _batch(
        8, "onion", ("2026-11-25", "16:00"), state=DRYING, prepared_mass="4 lb", set_temperature=f125,
        dryer=BOX_DRYER, trays=5,
    )  # fmt: skip
    yield _batch(9, "tomato", None, state="planned", prepared_mass="5 lb")


def _lots() -> Iterator[Any]:
    """What stands on the shelf: (food, batch, weight, packed, place, and what else is known)."""
    lots: tuple[tuple[str, int, str, str, int, dict[str, Any]], ...] = (
        ("carrot", 1, "2 oz", "2026-09-06", PANTRY, {"name": "jar 1 of 2"}),
        ("carrot", 1, "1.9 oz", "2026-09-06", CELLAR, {"name": "jar 2 of 2"}),
        ("apple", 2, "8.5 oz", "2026-09-20", PANTRY,
         {"conditioned_from": date(2026, 9, 13), "conditioned_to": date(2026, 9, 20),
          "opened_on": date(2026, 11, 1)}),
        ("ground-turkey", 3, "8.4 oz", "2026-10-03", FREEZER, {"package": "vacuum bag"}),
        ("turkey", 4, "5.4 oz", "2026-10-10", PANTRY, {}),
        ("galley-chili", 5, "11 oz", "2026-10-18", FREEZER, {"package": "bag", "name": "bag 1 of 2"}),
        ("galley-chili", 5, "11 oz", "2026-10-18", PANTRY, {"package": "bag", "name": "bag 2 of 2"}),
        ("corn", 6, "12 oz", "2026-11-01", CELLAR, {}),
        ("carrot", 1, "1 oz", "2026-09-06", PANTRY, {"name": "the rest"}),
    )  # fmt: skip
    for number, (food, batch, mass, day, place, more) in enumerate(lots, start=1):
        yield Lot(food, date.fromisoformat(day), batch=batch, mass=parse_mass(mass), id=number, **more)
        yield LotMove(number, place, at(day, "18:00"), id=number)
    yield LotDraw(3, date(2026, 11, 1), mass=parse_mass("3 oz"), id=1)
    yield LotDraw(9, date(2026, 10, 1), mass=parse_mass("1 oz"), note="the last of it", id=2)
    yield LotCheck(8, date(2026, 11, 20), moist=True, id=1)


def _meals() -> Iterator[Any]:
    meals = {
        Meal("Bean chili", 2.0, "boil and rest", "stew", 10.0, id=CHILI): (
            ("kidney beans", "kidney-bean", "", "3.5 oz"), ("tomato", "tomato", "", "1 oz"),
            ("beef crumbles", "ground-beef", "", "1.4 oz"), ("hard cheese", "", "hard-cheese", "2 oz"),
        ),
        Meal("Carrot couscous", 1.0, "no soak", "dry", id=COUSCOUS): (
            ("couscous", "", "couscous", "3 oz"), ("carrot", "carrot", "", "0.7 oz"),
            ("olive oil", "", "olive-oil", "0.5 oz"),
        ),
        Meal("Cold oats", 1.0, "no pot", "stew", id=OATS): (
            ("rolled oats", "", "oats-rolled", "2.5 oz"), ("apple", "apple", "", "0.8 oz"),
        ),
    }  # fmt: skip
    number = 0
    for meal, parts in meals.items():
        yield meal
        for position, (name, food, staple, mass) in enumerate(parts):
            number += 1
            yield MealPart(meal.id, position, name, food, staple, mass=parse_mass(mass), id=number)
    yield CookingNote(
        CHILI, date(2026, 8, 23), 2.0, parse("3 cups", Volume), 5.0, 15.0, parse_length("1180 ft"), "hard",
        "Beans want a soak first.", 3, id=1,
    )  # fmt: skip
    yield CookingNotePart(1, "kidney beans", "hard", "kidney-bean", id=1)


def _trips() -> Iterator[Any]:
    place = {"temperature": parse_temperature("79 F"), "altitude": parse_length("1250 ft")}
    yield Trip("Lake circuit 2026", date(2026, 8, 22), date(2026, 8, 23), 3, 2800.0, id=LAST_TRIP, **place)
    yield Trip("Lake circuit 2027", date(2027, 6, 19), date(2027, 6, 21), 3, 2800.0, id=NEXT_TRIP,
               spoilage_margin_pct=10.0, **place)  # fmt: skip
    eaten = ((LAST_TRIP, CHILI, "2026-08-22", "dinner"), (LAST_TRIP, OATS, "2026-08-23", "breakfast"),
             (NEXT_TRIP, COUSCOUS, "2027-06-19", "dinner"), (NEXT_TRIP, OATS, "2027-06-20", "breakfast"),
             (NEXT_TRIP, CHILI, "2027-06-20", "dinner"), (NEXT_TRIP, OATS, "2027-06-21", "breakfast"))  # fmt: skip
    for number, (trip, meal, day, slot) in enumerate(eaten, start=1):
        yield TripMeal(trip, meal, date.fromisoformat(day), slot, id=number)
    yield AfterTrip(LAST_TRIP, OATS, uneaten=1.0, change="less apple", id=1)
    for number, (name, appetite, avoids) in enumerate((("stern", 120.0, ""), ("middle", 100.0, ""),
                                                       ("bow", 80.0, "beef")), start=1):  # fmt: skip
        yield TripPerson(NEXT_TRIP, name, appetite, avoids, id=number)


def fill(kitchen: Kitchen, units: str) -> None:
    """Everything of it into an empty journal, shown in these units."""
    records = (Preference("units", units, 1), *_room(), *_batches(), *_lots(), *_meals(), *_trips())
    kitchen.write([Change(None, record) for record in records])
