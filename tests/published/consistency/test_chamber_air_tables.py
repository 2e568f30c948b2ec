"""Air warmed in the dryer, against textbook examples and a table. Sources stand beside each."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from dryhouse.science.chamber import warmed
from tests.rows import every_row

with (Path(__file__).parents[1] / "data" / "heated_chamber.csv").open(encoding="utf-8", newline="") as file:
    TABLE = list(csv.DictReader(file))


@every_row("row", TABLE, ids=lambda r: f"{r['kitchen_c']} C {r['kitchen_rh_pct']} % to {r['dryer_c']} C")
def test_table_of_warmed_kitchen_air(row):
    """Computed with PsychroLib 2.5.0 when the table was made: guards the library and the order of arguments."""
    air = warmed(
        float(row["kitchen_c"]), float(row["kitchen_rh_pct"]), float(row["dryer_c"]), float(row["pressure_pa"])
    )
    assert air.relative_humidity_pct == pytest.approx(float(row["value"]), abs=0.05)


def test_an_ordinary_kitchen_at_135_f():
    """22 °C and 50 %, warmed to 57 °C; figures computed with PsychroLib 2.5.0."""
    air = warmed(22, 50, 57)
    assert air.relative_humidity_pct == pytest.approx(7.63, abs=0.01)
    assert air.humidity_ratio == pytest.approx(0.008224, abs=1e-5)
    assert air.dew_point_c == pytest.approx(11.11, abs=0.05)
    assert air.wet_bulb_c == pytest.approx(25.91, abs=0.05)


def test_altitude_does_not_change_it():
    at_sea, at_2000_m = warmed(22, 50, 57), warmed(22, 50, 57, 79495.0)
    assert at_sea.relative_humidity_pct == pytest.approx(at_2000_m.relative_humidity_pct, abs=0.005)
