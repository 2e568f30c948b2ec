"""What befell each lot, in the order in which it happened, however it was typed."""

from __future__ import annotations

from datetime import timedelta

from dryhouse.kitchen.records import Lot, LotMove
from dryhouse.kitchen.shelf.lots import Found, check_lot, move
from dryhouse.kitchen.shelf.shelf_records import ShelfRecords
from tests.kitchen.shelf_room import CELLAR, FREEZER, NOW, PANTRY, TODAY, a_batch, a_shelf, packed


def test_a_move_and_a_look_noted_late_stand_where_they_happened() -> None:
    kitchen = a_shelf(a_batch())
    lot = packed(kitchen)
    move(kitchen, [lot.id], FREEZER, NOW - timedelta(days=2))
    move(kitchen, [lot.id], CELLAR, NOW - timedelta(days=9))
    days = [TODAY - timedelta(days=d) for d in (1, 8)]
    for day in days:
        check_lot(kitchen, lot.id, Found(moist=False), on=day)
    read = ShelfRecords.read(kitchen)
    assert [m.place for m in read.moves[lot.id]] == [PANTRY, CELLAR, FREEZER]
    assert [c.on for c in read.checks_by(lot.id, TODAY)] == days[::-1]
    assert [c.on for c in read.checks_by(lot.id, days[1])] == days[1:]
    assert read.checks_by(lot.id, days[1] - timedelta(days=1)) == []
    assert [read.place_at(lot.id, NOW - timedelta(days=d)) for d in (90, 20, 5, 1)] == [
        None,
        PANTRY,
        CELLAR,
        FREEZER,
    ]


def test_one_lot_or_one_food_is_read_without_the_rest_of_the_shelf() -> None:
    kitchen = a_shelf(a_batch(), a_batch("apple", 2))
    corn, apple = packed(kitchen), packed(kitchen, 2)
    asked: list[object] = []
    where = kitchen.journal.where
    kitchen.journal.where = lambda kind, **equals: asked.extend(found := where(kind, **equals)) or found
    for read in (ShelfRecords.read(kitchen, apple.id), ShelfRecords.read(kitchen, food="apple")):
        assert list(read.lots) == list(read.moves) == [apple.id]
        assert read.batches == {2}
    assert corn.id not in {r.id for r in asked if isinstance(r, Lot)} | {
        r.lot for r in asked if isinstance(r, LotMove)
    }
