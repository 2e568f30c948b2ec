"""What happens at the dryer leaves and comes back: a weighing left out, its tray and instrument, a tray off."""

from __future__ import annotations

from datetime import timedelta

import pytest

from dryhouse.kitchen.exchange import read_records, write_records
from dryhouse.kitchen.records import BatchEvent, Weighing
from dryhouse.kitchen.records.weighings import REMIND, TRAY, TRAY_OFF
from dryhouse.science.quantities import Mass
from tests.kitchen.drying_room import NOON

RECORDS = (
    Weighing(1, NOON, Mass(90.0, "90 g"), vessel="tray 3", scope=TRAY, left_out=True, id=1),
    Weighing(1, NOON + timedelta(hours=1), Mass(512.25), instrument="the pantry scale", id=2),
    BatchEvent(1, NOON, TRAY_OFF, note="tray 3", trays=1, mass=Mass(88.0, "88 g"), id=1),
    BatchEvent(1, NOON + timedelta(hours=8), REMIND, note="The soak is over", id=2),
)


@pytest.mark.parametrize("name", ["out.json", "folder"])
def test_every_field_survives(tmp_path, name) -> None:
    write_records(RECORDS, tmp_path / name)
    assert sorted(read_records(tmp_path / name), key=repr) == sorted(RECORDS, key=repr)
