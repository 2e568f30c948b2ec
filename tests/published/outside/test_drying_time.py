"""Drying times of textbook examples, from the curve of a constant and then a falling rate that runs are read by.

Sources stand in data/drying_time_examples.csv. Moistures are on dry basis unless they say `% wb`; `rate` is the
constant rate in kg water per kg dry matter and unit of time, worked from the example's own loading, or it
follows from the run that the example gives.
"""

from __future__ import annotations

import math

import numpy as np
import pytest
from scipy.optimize import brentq

from dryhouse.science.curves import lewis
from dryhouse.science.curves.rate import rates, two_periods
from dryhouse.science.moisture import wet_to_dry
from tests.published.readings import table

EXAMPLES = table("drying_time_examples")


def moisture(cell: str) -> float:
    """Dry basis, from either basis as printed."""
    return wet_to_dry(float(cell.removesuffix("% wb")) / 100) if cell.endswith("% wb") else float(cell)


def product(cell: str) -> float:
    """`1.51*18.58/399`: the inputs of the example as it prints them."""
    value = 1.0
    for n, factor in enumerate(cell.replace("(", "").replace(")", "").split("/")):
        part = math.prod(float(f) for f in factor.split("*"))
        value = value * part if n == 0 else value / part
    return value


def in_rates(start: float, critical: float, equilibrium: float, end: float) -> float:
    """How long it dries, in units of kg/kg over the constant rate, by solving our curve for the end moisture."""
    top = max(critical, start) - equilibrium
    kink = (critical - equilibrium) / top

    def excess(t: float, moisture_then: float) -> float:
        ratio = two_periods(np.array([t]), np.array(1.0), np.array(kink))[0]
        return float(ratio) - (moisture_then - equilibrium) / top

    begins = 0.0 if start >= critical else brentq(excess, 0.0, 60.0, args=(start,), xtol=1e-13)
    return top * (brentq(excess, 0.0, 60.0, args=(end,), xtol=1e-13) - begins)


@pytest.mark.parametrize("row", EXAMPLES, ids=lambda row: row["id"])
def test_the_printed_time(row):
    critical, equilibrium = moisture(row["critical"]), moisture(row["equilibrium"])
    length = in_rates(moisture(row["start"]), critical, equilibrium, moisture(row["end"]))
    if row["rate"]:
        rate = product(row["rate"])
    else:
        known = in_rates(moisture(row["given_start"]), critical, equilibrium, moisture(row["given_end"]))
        rate = known / float(row["given_time"])
    assert length / rate == pytest.approx(float(row["time"]), abs=float(row["tolerance"]))


def test_half_gone_in_an_hour_is_95_percent_gone_in_four_hours_and_a_third():
    """Differential-equation exercise, worked answer page (read): 4.322 h, 259.3 min."""
    left = lewis.curve(np.array([1.0, 4.322]), np.array([math.log(2)]))
    assert left == pytest.approx([0.5, 0.05], abs=1e-5)


def test_the_rates_of_a_foodstuff_between_its_weighings():
    """Geankoplis, problem 9.7-2, with a worked student solution (read): tray of 0.186 m², dry mass 3.765 kg,
    kg of water per m² and hour between neighbouring weighings."""
    printed = [0.793, 1.035, 0.977, 0.974, 1.008, 0.730, 0.612, 0.352, 0.110]
    run = [row for row in table("drying_runs") if row["series_id"] == "geankoplis_foodstuff"]
    hours, grams = [float(r["time_h"]) for r in run], [float(r["mass_g"]) for r in run]
    found = rates(hours, grams, 3765.0)
    assert found.grams_per_hour[: len(printed)] / 1000 / 0.186 == pytest.approx(printed, abs=0.002)
