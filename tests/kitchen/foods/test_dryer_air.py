"""The heat and the air in a dryer are what was noted last, and not known where a part of it is not."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

import pytest

from dryhouse.kitchen.foods.dryer_air import chamber_of, dryer_temperature
from dryhouse.kitchen.records import Batch, BatchEvent
from dryhouse.kitchen.records.weighings import HEAT_CHANGED, TURNED
from dryhouse.science.quantities import Temperature
from tests.builders import NOW

WARM = Batch(
    "apple",
    set_temperature=Temperature(57.0), kitchen_temperature=Temperature(22.0), kitchen_humidity_pct=50.0,
)  # fmt: skip


def test_the_heat_is_the_one_noted_last():
    turned = [
        BatchEvent(1, NOW + timedelta(hours=h), HEAT_CHANGED, Temperature(c)) for h, c in ((4, 65.0), (2, 50.0))
    ]
    assert dryer_temperature(WARM) == 57.0
    assert dryer_temperature(WARM, turned) == 65.0


def test_warmed_air_is_drier_and_unknown_air_is_no_air():
    # a kitchen of 22 °C and 50 %: 13.2 hPa of water; over water at 57 °C 173 hPa (Magnus)
    assert chamber_of(WARM, 57.0).relative_humidity_pct == pytest.approx(7.6, abs=0.2)
    assert chamber_of(replace(WARM, kitchen_humidity_pct=None), 57.0) is None
    assert chamber_of(WARM, None) is None


def test_of_two_changes_at_one_moment_the_later_entry_counts_and_nothing_else_that_was_noted():
    noted = [
        BatchEvent(1, NOW, HEAT_CHANGED, Temperature(65.0), id=3),
        BatchEvent(1, NOW, HEAT_CHANGED, Temperature(60.0), id=2),
        BatchEvent(1, NOW + timedelta(hours=1), HEAT_CHANGED, id=4),
        BatchEvent(1, NOW + timedelta(hours=2), TURNED, Temperature(20.0), id=5),
    ]
    assert dryer_temperature(WARM, noted) == 65.0
    assert dryer_temperature(Batch("apple"), noted[2:]) is None


def test_air_that_cannot_be_is_none():
    assert chamber_of(replace(WARM, kitchen_temperature=None), 57.0) is None
    assert chamber_of(WARM, 5.0) is None, "colder than the kitchen"
