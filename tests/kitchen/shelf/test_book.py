"""The book of the shelf: a lot's facts are the same wherever they are asked for."""

from __future__ import annotations

from datetime import timedelta

import pytest

from dryhouse.house import open_kitchen
from dryhouse.kitchen.calendar import end_of_day, today
from dryhouse.kitchen.cautions.cautions import lot_facts
from dryhouse.kitchen.records import Lot
from dryhouse.kitchen.shelf.book import ShelfBook
from dryhouse.science.units import to_celsius
from tests.kitchen.shelf_room import CELLAR, LONG_AGO, NOW, a_batch, a_shelf, packed


def test_a_lot_has_the_same_facts_on_the_shelf_and_wherever_it_is_asked_about_alone() -> None:
    """The whole sample shelf, today and on days before some place had its first temperature."""
    with open_kitchen(None, sample=True) as kitchen:
        book = ShelfBook.read(kitchen)
        moments = [end_of_day(kitchen, today(kitchen) - timedelta(days=days)) for days in (0, 1, 30, 120, 300)]
        warm = 0
        for moment in moments:
            for lot in kitchen.journal.where(Lot):
                alone = lot_facts(kitchen, lot, moment)
                assert book.facts(lot, moment) == alone, (lot.id, moment)
                warm += alone.temperature_c is not None
        assert 0 < warm < len(moments) * len(kitchen.journal.where(Lot))


def test_a_place_says_nothing_of_how_warm_it_was_before_its_first_temperature() -> None:
    kitchen = a_shelf(a_batch())
    lot = packed(kitchen, place=CELLAR)
    book = ShelfBook.read(kitchen)
    assert book.facts(lot, NOW).temperature_c == pytest.approx(to_celsius(60))
    before = LONG_AGO - timedelta(days=1)
    assert book.facts(lot, before).temperature_c is None
    assert book.temperature_at(CELLAR, before) is None
