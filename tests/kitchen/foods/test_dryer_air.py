"""The heat and the air in a dryer are what was noted last, and not known where a part of it is not."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

import pytest

from dryhouse.kitchen.foods.dryer_air import chamber_of, dryer_temperature
from dryhouse.kitchen.records import Batch, BatchEvent
from dryhouse.kitchen.records.weighings import HEAT_CHANGED
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
