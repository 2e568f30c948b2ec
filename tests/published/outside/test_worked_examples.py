"""Published worked examples of drying by weight, each through the load, its target and its moisture.

Sources stand in data/mass_balance_examples.csv: mass in, moistures before and after on either basis, what is
left and what went. The unit of mass is the example's own.
"""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from dryhouse.kitchen.dryer.drying import add_weighing, start_batch
from dryhouse.kitchen.dryer.runs import run_of
from dryhouse.kitchen.dryer.typed_readings import Reading
from dryhouse.kitchen.records import Batch
from dryhouse.science.dryness import verdict
from dryhouse.science.moisture import (
    LoadPart,
    dry_to_wet,
    load_of,
    moisture_now,
    target_mass,
    wet_to_dry,
)
from dryhouse.science.quantities import parse_mass
from dryhouse.science.units import SIZES
from dryhouse.science.values import Fact
from tests.builders import a_kitchen

with (Path(__file__).parents[1] / "data" / "mass_balance_examples.csv").open(encoding="utf-8", newline="") as file:
    EXAMPLES = list(csv.DictReader(file))


def wet(cell: str) -> float:
    """Percent wet basis, from either basis as printed."""
    value, basis = float(cell.split()[0]), cell.split()[-1]
    return value if basis == "wb" else 100 * dry_to_wet(value / 100)


@pytest.mark.parametrize("row", EXAMPLES, ids=lambda row: row["id"])
def test_what_is_left_and_what_went(row):
    grams, tolerance = float(row["mass"]), float(row["tolerance"])
    load = load_of([LoadPart(row["id"], grams, Fact(wet(row["start"]), "%", row["source"]))])
    left = target_mass(load, Fact(wet(row["end"]), "%", row["source"]))
    assert left.value == pytest.approx(float(row["dried"]), abs=tolerance)
    assert grams - left.value == pytest.approx(float(row["removed"]), abs=tolerance)
    assert moisture_now(load, left.value).value == pytest.approx(wet(row["end"]), abs=1e-9)
    assert verdict(load, left.value, Fact(wet(row["end"]), "%", row["source"])).name == "dry enough"


def test_the_two_dryers_share_out_the_first_water():
    """Narayanan & Lakshmikutty, example 9.12 (read): 95.6 % of the water goes in the dryer, 3.90 % in the oven."""
    water = 1000 * 0.80
    load = load_of([LoadPart("wet solid", 1000.0, Fact(80.0, "%", "example 9.12"))])
    first, second = (target_mass(load, Fact(m, "%", "example 9.12")).value for m in (15.0, 2.0))
    assert 100 * (1000 - first) / water == pytest.approx(95.6, abs=0.05)
    assert 100 * (first - second) / water == pytest.approx(3.90, abs=0.005)


def test_a_fifth_on_dry_basis_is_a_sixth_on_wet():
    """Problem set in food process engineering (statement read; answer computed): 20 % dry basis is 16.67 % wet."""
    assert 100 * dry_to_wet(0.20) == pytest.approx(16.67, abs=0.005)
    assert wet_to_dry(dry_to_wet(0.20)) == pytest.approx(0.20)


def test_cherries_weighed_in_their_container():
    """Utah State University Extension, Testing Foods for Dryness (read): a container of 5 oz, 45 oz with raw
    cherries of 14 % solids; done, at 80 % solids, with 7 oz of cherries: 12 oz on the scale (worked from these)."""
    kitchen = a_kitchen()
    raw = parse_mass("45 oz").si - parse_mass("5 oz").si
    assert raw / SIZES["oz"] == pytest.approx(40)
    told = {"start_moisture_pct": 86.0, "start_moisture_tested": True, "target_moisture_pct": 20.0}
    cherries = Batch("apple", prepared_mass=parse_mass("40 oz"), **told)
    batch = start_batch(kitchen, cherries).record.id
    add_weighing(kitchen, batch, Reading(parse_mass("12 oz"), tare=parse_mass("5 oz")))
    run = run_of(kitchen, batch)
    assert run.target_mass is not None
    assert run.target_mass.value / SIZES["oz"] == pytest.approx(7.0)
    assert run.verdict is not None
    assert run.verdict.name == "dry enough"
    assert run.moisture is not None
    assert run.moisture.value == pytest.approx(20.0)
