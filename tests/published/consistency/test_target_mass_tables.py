"""Target mass of a kilogram of prepared food from its published solids, and the handbook's figures beside them.

Sources: solids from USDA SR28 (entry numbers in the table); finish targets (vegetables 90 % solids, fruits
80 %) and the formula, finished weight = raw weight × raw solids ÷ finished solids, from Utah State University
Extension, Testing Foods for Dryness (read).
"""

import csv
from pathlib import Path

import pytest

from dryhouse.handbook.reader import handbook
from dryhouse.science.moisture import LoadPart, load_of, target_mass
from tests.rows import every_row

with (Path(__file__).parents[1] / "data" / "solids.csv").open(encoding="utf-8", newline="") as file:
    SOLIDS = list(csv.DictReader(file))


def test_at_least_twenty_foods():
    assert len({row["food"] for row in SOLIDS}) >= 20


@every_row("row", SOLIDS, ids=lambda row: row["food"])
def test_target_mass_from_published_solids(row):
    food = handbook().food(row["food"])
    water, target = food.fact("water"), food.fact("target_moisture")
    assert 100 - water.value == pytest.approx(float(row["raw_solids_pct"]), abs=0.005)
    assert 100 - target.value == float(row["finish_solids_pct"])
    figure = target_mass(load_of([LoadPart(food.name, 1000.0, water)]), target)
    assert figure.value == pytest.approx(float(row["target_g_per_kg"]), abs=0.06)
    assert figure.unit == "g"
    assert any("Utah" in basis.source for basis in figure.basis)
