"""The published figures the tests hold the program to, read from `data`, and what several of them make of one."""

import csv
import math
from functools import cache
from pathlib import Path

import numpy as np

from dryhouse.handbook import yield_comparisons, yield_spread
from dryhouse.handbook.foods import load_foods
from dryhouse.science.yields.belief import Predictive
from dryhouse.science.yields.prior import Comparison, mass_balance
from dryhouse.science.yields.ratio import batch_variance, by_handbook

DATA = Path(__file__).parent / "data"
EQUILIBRIUM_OR_DRY_G = {"thesis_isd_1cm": 133.0, "lab_watermelon_tray1": 0.2809, "geankoplis_foodstuff": 3955.0}
"""What the table of constants took as the level the mass settles at."""
USDA_EXCEPTIONS = {"11955", "11931", "11624", "11625", "11962"}
"""Pairs of raw and dried entries of USDA SR28 that do not agree, each for a reason its own entries show."""


def table(name: str) -> list[dict[str, str]]:
    """The rows of a table."""
    with (DATA / f"{name}.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


@cache
def run(series: str) -> tuple[np.ndarray, np.ndarray]:
    """Hours and moisture ratios of a published drying run."""
    rows = [r for r in table("drying_runs") if r["series_id"] == series]
    hours = np.array([float(r["time_h"]) for r in rows])
    if rows[0]["moisture_ratio"]:
        return hours, np.array([float(r["moisture_ratio"]) for r in rows])
    if series in EQUILIBRIUM_OR_DRY_G:
        mass, level = np.array([float(r["mass_g"]) for r in rows]), EQUILIBRIUM_OR_DRY_G[series]
        return hours, (mass - level) / (mass[0] - level)
    moisture = np.array([float(r["moisture_db"]) for r in rows])
    return hours, moisture / moisture[0]


def comparison(row: dict[str, str]) -> Comparison:
    """A published yield against the mass balance of its food, as prepared, at the moisture it was dried to."""
    food = load_foods()[row["slug"]]
    water = food.facts["water"]
    end = food.facts["target_moisture" if row["finish"] == "home" else "dried_water"]
    if row["prepared_lb"]:
        prepared = float(row["prepared_lb"])
    else:
        refuse = food.fact("refuse")
        prepared = float(row["as_purchased_lb"]) * (1 - (refuse.value if refuse else 0) / 100)
    strays = math.log(float(row["dried_lb"]) / prepared) - mass_balance(water.value, end.value)
    variance = batch_variance(water, yield_spread.raw_water(food), yield_spread.finish(food))
    return Comparison(row["slug"], row["source"].split(", ")[0], strays, variance)


def predictive_of(slug: str) -> Predictive | None:
    """What the handbook alone foretells of a food's yield, dried over prepared."""
    food = load_foods()[slug]
    return by_handbook(
        food.facts["water"],
        food.facts["target_moisture"],
        yield_spread.raw_water(food),
        yield_spread.finish(food),
        yield_comparisons.yield_spread(),
        yield_comparisons.comparable_yields(slug),
    ).ratio.predictive
