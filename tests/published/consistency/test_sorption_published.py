"""GAB isotherms against published points; each point's source stands in the data file."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from dryhouse.handbook.gab import isotherms
from dryhouse.science.sorption import Isotherm, gab, gab_inverse
from dryhouse.science.values import Basis
from tests.rows import every_row

with (Path(__file__).parents[1] / "data" / "isotherm_points.csv").open(encoding="utf-8", newline="") as file:
    POINTS = list(csv.DictReader(file))
SUN = Basis("handbook", "Sun 2008")
CELLULOSE = Isotherm(0.0355, 14.42, 0.814, 25, 25, SUN, 0.113, 0.843)
"""Sun 2008, Int. J. Pharm. 346:93-101, as documented in an open isotherm-fitting library. No food: in no table."""


@every_row("point", POINTS, ids=lambda p: f"{p['series_id']} {p['aw']}")
def test_points_lie_on_the_isotherm(point):
    if point["series_id"] == "mcc_sun2008":
        one = CELLULOSE
    else:
        one = next(i for i in isotherms("potato") if i.temperature_low_c == float(point["temp_c"]))
    aw, moisture = float(point["aw"]), float(point["moisture_db"])
    assert gab(one.m0, one.c, one.k, aw) == pytest.approx(moisture, rel=0.01, abs=6e-4)
    assert gab_inverse(one.m0, one.c, one.k, moisture) == pytest.approx(aw, abs=0.012)
