"""The lots a trip may eat from, whole: what is left of each, the last day it serves, and why not longer."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta

import pytest

from dryhouse.handbook.reader import handbook
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.ports import Record
from dryhouse.kitchen.records import Batch, Lot, LotDraw, OwnFood, Trip
from dryhouse.kitchen.trips.lots import TripLot, lots_for
from dryhouse.science.quantities import Mass, Temperature, Volume
from dryhouse.science.units import to_celsius
from tests.fakes import FakeJournal
from tests.rows import every_row

NOW = datetime(2026, 8, 1, 9, tzinfo=UTC)
DAY = date(2026, 8, 20)
TRIP = Trip("lakes", DAY, DAY + timedelta(days=2), 2, 2500.0, Temperature(to_celsius(70)), id=1)
JAR = Lot("carrot", date(2026, 7, 1), mass=Mass(70.0), bought_keep_by=date(2027, 6, 1), origin="bought", id=1)
DRIED = Batch(
    "carrot",
    "finished",
    prepared_mass=Mass(1000.0),
    dried_mass=Mass(128.0),
    started=NOW - timedelta(hours=20),
    ended=NOW - timedelta(hours=10),
    felt="brittle",
    trip=1,
    id=7,
)


def lots(*records: Record, trip: Trip = TRIP, foods: tuple[str, ...] = ("carrot",)) -> tuple[TripLot, ...]:
    kitchen = Kitchen(FakeJournal(trip, *records), handbook(), lambda: NOW, UTC)
    return lots_for(kitchen, trip, foods)


def test_a_jar_that_keeps_serves_to_the_last_spare_day() -> None:
    assert lots(JAR) == (TripLot(1, "carrot", "carrot, lot 1", 70.0, date(2026, 8, 22), date(2027, 6, 1), ""),)
    (named,) = lots(replace(JAR, name="tall jar"), trip=replace(TRIP, spare_days=2))
    assert (named.name, named.last_day) == ("carrot, tall jar", date(2026, 8, 24))


def test_a_jar_serves_to_its_printed_date_and_the_day_after_is_said() -> None:
    (jar,) = lots(replace(JAR, bought_keep_by=date(2026, 8, 21)))
    assert (jar.last_day, jar.keep_by) == (date(2026, 8, 21), date(2026, 8, 21))
    assert jar.why == "past keep-by on Sat 22 Aug: kept until 21 Aug 2026"
    (never,) = lots(replace(JAR, bought_keep_by=date(2026, 8, 19)))
    assert (never.last_day, never.keep_by) == (None, date(2026, 8, 19))
    assert never.why == "past keep-by on Thu 20 Aug: kept until 19 Aug 2026"


def test_what_is_drawn_is_off_and_what_is_gone_is_no_lot() -> None:
    drawn = LotDraw(1, date(2026, 7, 9), mass=Mass(69.0), id=1)
    assert [jar.grams for jar in lots(JAR, drawn)] == [1.0]
    assert lots(JAR, replace(drawn, mass=None)) == ()
    assert lots(JAR, replace(drawn, mass=None), foods=()) == ()
    assert lots(JAR, foods=("apple",)) == ()


def test_a_jar_known_by_measure_weighs_what_a_cup_of_it_does_and_one_known_by_neither_does_not_count() -> None:
    """Dried carrot: 74 g in 236.59 ml (USDA), 566.99 g in 1419.53 ml (Colorado): between them lies their product's
    root."""
    (measured,) = lots(replace(JAR, mass=None, volume=Volume(100.0)))
    assert measured.grams == pytest.approx(100.0 * (74.0 / 236.59 * 566.99 / 1419.53) ** 0.5, rel=1e-3)
    assert measured.why == ""
    stew = OwnFood("stew", "stew", "vegetable", contains="plant", id=1)
    for unknown in (
        replace(JAR, mass=None),
        replace(JAR, food="stew", mass=None, volume=Volume(100.0)),
    ):
        (found,) = lots(stew, unknown, foods=(unknown.food,))
        assert (found.grams, found.last_day) == (None, date(2026, 8, 22))
        assert found.why == "what is left of it is not recorded in weight, so it is not counted on"


# --- batches on their way ---------------------------------------------------------------------------------------


def test_a_bought_bag_is_called_as_the_staple_and_a_measure_of_it_weighs_what_the_staple_does() -> None:
    bag = replace(JAR, food="rice-white", mass=None, volume=Volume(236.588))  # a cup of it raw: 185 g
    (rice,) = lots(bag, foods=("staple:rice-white",))
    assert (rice.food, rice.name) == ("staple:rice-white", "rice, white, long-grain, lot 1")
    assert rice.grams == pytest.approx(185.0, abs=0.01)
    dried_at_home = replace(bag, origin="home", mass=Mass(95.0), bought_keep_by=None)
    assert [jar.name for jar in lots(dried_at_home, foods=("rice-white",))] == ["white rice, cooked, lot 1"]


def test_a_batch_that_is_dried_and_not_packed_counts_by_its_weight_under_its_number_made_negative() -> None:
    (found,) = lots(DRIED)
    assert found.number == -7
    assert (found.food, found.name) == ("carrot", "carrot, batch 7 not yet packed")
    assert (found.grams, found.last_day, found.why) == (128.0, date(2026, 8, 22), "")


@every_row(
    "change",
    [{"trip": None}, {"state": "planned"}, {"food": "apple"}],
)
def test_a_batch_for_no_trip_or_still_to_be_started_is_not_on_its_way(change: dict[str, object]) -> None:
    assert lots(replace(DRIED, **change)) == ()  # type: ignore[arg-type]


def test_a_batch_that_is_packed_counts_by_its_jars() -> None:
    jar = Lot("carrot", date(2026, 7, 31), batch=7, mass=Mass(50.0), id=3)
    assert [found.number for found in lots(DRIED, jar)] == [3]


def test_a_batch_on_the_dryer_counts_as_it_will_come_out() -> None:
    """Carrot of 88.29 % water, dried to 10 %: 0.13 g a gram; 1000 g come to about 130 g."""
    drying = replace(DRIED, state="drying", dried_mass=None, ended=None, felt="")
    (found,) = lots(drying)
    assert found.grams == pytest.approx(1000.0 * 11.71 / 90.0, rel=0.02)
    assert (found.last_day, found.why) == (date(2026, 8, 22), "")
    (unweighed,) = lots(replace(drying, prepared_mass=None))
    assert unweighed.grams is None
    assert unweighed.why == "its weight is not recorded, so it is not counted on"


def test_what_must_not_be_eaten_serves_on_no_day_however_heavy() -> None:
    raw = replace(DRIED, food="turkey", prepared_mass=Mass(400.0))
    (found,) = lots(raw, foods=("turkey",))
    assert (found.last_day, found.keep_by) == (None, None)
    assert found.why.startswith("do not eat: No record of heating to 165 °F")


def test_a_batch_that_no_weights_show_to_be_dry_is_to_be_looked_at_first() -> None:
    (found,) = lots(replace(DRIED, prepared_mass=None, felt=""))
    assert found.last_day is None
    assert found.keep_by is not None
    assert found.why == "check first: Dryness not shown by weight (no weights show that it is dry)"


def test_without_a_temperature_on_the_way_a_batch_is_to_be_looked_at_first() -> None:
    (found,) = lots(DRIED, trip=replace(TRIP, temperature=None))
    assert (found.last_day, found.keep_by) == (None, None)
    assert found.why.startswith("check first: ")


def test_a_batch_serves_to_its_keep_by_and_the_day_is_said_where_the_trip_is_longer() -> None:
    """On the way it is as warm as the room it waits in, so that its keep-by hangs on no day of the trip."""
    (found,) = lots(DRIED)
    until = found.keep_by
    assert until is not None
    day = timedelta(days=1)
    said = f"past keep-by after {until:%a} {until.day} {until:%b}"
    for starts, ends, last, why in (
        (until - 3 * day, until, until, ""),
        (until - 3 * day, until - day, until - day, ""),
        (until - 3 * day, until + day, until, said),
        (until, until + day, until, said),
        (until + day, until + 2 * day, None, said),
    ):
        (one,) = lots(DRIED, trip=replace(TRIP, starts_on=starts, ends_on=ends))
        assert (one.last_day, one.keep_by, one.why) == (last, until, why), (starts, ends)
