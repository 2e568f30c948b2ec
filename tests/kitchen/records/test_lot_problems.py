"""A lot and what is noted of it, judged among what they belong to."""

from dataclasses import replace
from datetime import date, timedelta

from dryhouse.kitchen.records import Batch, Lot, LotCheck, LotDraw, LotMove, Place, PlaceTemperature
from dryhouse.science.quantities import Mass, Temperature
from tests.kitchen.records.judging import NOW, fields
from tests.rows import every_row

BATCH = Batch("turkey", started=NOW - timedelta(days=5), id=1)
PACKED = (NOW - timedelta(days=3)).date()
LOT = Lot("turkey", PACKED, batch=1, mass=Mass(200.0), id=1)
PLACE = Place("pantry", id=1)


def test_a_sound_lot_has_no_problem():
    assert fields(LOT, BATCH) == []
    assert fields(replace(LOT, batch=None)) == []
    assert fields(Lot("mango", PACKED, origin="bought", bought_keep_by=PACKED, id=2)) == []


@every_row(
    ("change", "field"),
    [
        ({"food": "corn"}, "food"),
        ({"food": "moon rock", "batch": None}, "food"),
        ({"origin": "bought"}, "origin"),
        ({"batch": 9}, "batch"),
        ({"packed_on": date(2026, 1, 1)}, "packed_on"),
        ({"packed_on": date(2026, 10, 1)}, "packed_on"),
        ({"conditioned_from": PACKED, "conditioned_to": PACKED - timedelta(days=2)}, "conditioned_to"),
        ({"conditioned_to": PACKED}, "conditioned_to"),
        ({"opened_on": PACKED - timedelta(days=1)}, "opened_on"),
        ({"redried_on": PACKED - timedelta(days=1)}, "redried_on"),
        ({"batch": None, "origin": "bought", "bought_keep_by": PACKED - timedelta(days=9)}, "bought_keep_by"),
    ],
)
def test_what_contradicts_itself_or_its_batch_is_named(change, field):
    assert fields(replace(LOT, **change), BATCH) == [field]


def test_what_is_noted_of_a_lot_follows_its_packing():
    before = PACKED - timedelta(days=4)
    assert fields(LotMove(1, 1, NOW), LOT, PLACE) == []
    assert fields(LotMove(1, 1, NOW - timedelta(days=30)), LOT, PLACE) == ["at"]
    assert fields(LotMove(1, 7, NOW), LOT, PLACE) == ["place"]
    assert fields(LotDraw(1, before), LOT) == ["on"]
    assert fields(LotCheck(1, before), LOT) == ["on"]
    assert fields(LotCheck(1, NOW.date() + timedelta(days=9)), LOT) == ["on"]
    assert fields(LotCheck(1, NOW.date(), Mass(900.0)), LOT) == ["mass"]
    assert fields(LotCheck(1, NOW.date(), Mass(190.0)), LOT) == []


def test_a_place_is_as_warm_as_places_for_food_are():
    assert fields(PlaceTemperature(1, NOW, Temperature(-18.0)), PLACE) == []
    assert fields(PlaceTemperature(1, NOW, Temperature(1e300)), PLACE) == ["temperature"]
    assert fields(PlaceTemperature(1, NOW + timedelta(days=9), Temperature(20.0)), PLACE) == ["since"]
