"""A shelf with a batch to pack, in its window."""

from __future__ import annotations

from datetime import date

import pytest

from dryhouse.kitchen.records import Trip
from tests.kitchen.shelf_room import HEATED, a_batch, a_shelf

TRIP = Trip("lake circuit", date(2027, 8, 20), date(2027, 8, 28), 4, id=1)


@pytest.fixture
def kitchen():
    return a_shelf(a_batch(), a_batch("turkey", 2), a_batch("apple", 3), a_batch("turkey", 4, **HEATED), TRIP)


@pytest.fixture
def shelf(window):
    return window.go("shelf")
