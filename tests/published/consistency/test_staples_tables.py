"""Staples, pots and meals against published figures. Water contents and composition: USDA National Nutrient
Database for Standard Reference, release 28 (2015), read unless a row says it was remembered."""

from __future__ import annotations

import csv
from datetime import UTC, datetime
from pathlib import Path

import pytest

from dryhouse.handbook.boiling import boiling_tables
from dryhouse.handbook.reader import handbook
from dryhouse.handbook.staples import staple, staples
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.meals.meals import draft_part
from dryhouse.kitchen.meals.sheet import MealSheet, sheet_of
from dryhouse.kitchen.records import Meal, MealPart
from dryhouse.science.boiling import boiling_point
from dryhouse.science.quantities import parse_mass
from dryhouse.science.units import SIZES, to_fahrenheit
from tests.fakes import FakeJournal
from tests.rows import every_row

with (Path(__file__).parents[1] / "data" / "staple_water.csv").open(encoding="utf-8") as file:
    WATER = list(csv.DictReader(file))


def a_kitchen() -> Kitchen:
    return Kitchen(FakeJournal(), handbook(), lambda: datetime(2026, 8, 1, 9, tzinfo=UTC), UTC)


def sheet(meal: Meal, *typed: tuple[str, str]) -> MealSheet:
    kitchen = a_kitchen()
    return sheet_of(kitchen, meal, [draft_part(kitchen, name, amount) for name, amount in typed])


@every_row("row", WATER, ids=lambda row: row["staple"])
def test_a_staple_takes_up_the_water_between_usda_dry_and_cooked(row: dict[str, str]) -> None:
    """100 g dry hold 100 − w₁ of dry matter, which is 100 − w₂ per cent of what comes out of the pot."""
    dry_matter = 100 - float(row["dry_water_pct"])
    cooked_grams = dry_matter / ((100 - float(row["cooked_water_pct"])) / 100)
    uptake = staple(row["staple"]).uptake
    assert uptake is not None
    assert 100 * uptake.value == pytest.approx(cooked_grams - 100, rel=0.03)


def test_every_staple_has_the_energy_its_protein_fat_and_carbohydrate_give() -> None:
    """Atwater general factors 4, 9 and 4 kcal per gram (from memory): USDA's own specific factors stray by a
    fifth at most for these, more only where there is next to no energy."""
    for one in staples().values():
        energy = one.facts["energy"].value
        general = 4 * one.facts["protein"].value + 9 * one.facts["fat"].value + 4 * one.facts["carbohydrate"].value
        assert energy == pytest.approx(general, rel=0.2, abs=10), one.slug


def test_a_composed_meal_holds_the_energy_of_its_dry_matter() -> None:
    """SR28: raw carrot 11124 (88.29 % water, 41 kcal), raw sweet corn 11167 (76.05 %, 86 kcal), lentils 16069
    (352 kcal), olive oil 04053 (884 kcal). Vegetables dried to 10 % water (Utah State University Extension):
    dried kcal per 100 g = kcal × (100 − 10) / (100 − water)."""
    found = sheet(
        Meal("stew", servings=2),
        ("carrot", "20 g"),
        ("sweet corn", "30 g"),
        ("lentils", "80 g"),
        ("olive oil", "10 g"),
    )
    by_dry_matter = 0.20 * 41 * 90 / 11.71 + 0.30 * 86 * 90 / 23.95 + 0.80 * 352 + 0.10 * 884
    assert found.bag.energy is not None
    assert found.bag.energy.value == pytest.approx(by_dry_matter, rel=0.01)
    assert found.serving.energy is not None
    assert found.serving.energy.value == pytest.approx(by_dry_matter / 2, rel=0.01)


@every_row(
    ("feet", "fahrenheit", "source"),
    [
        (0, 212.0, "NASA / NOAA standard-atmosphere table (copy)"),
        (1000, 210.2, "NASA / NOAA standard-atmosphere table (copy)"),
        (2000, 208.0, "USDA FSIS, Cooking at High Altitude: the lowest of three"),
        (5000, 203.0, "Colorado State University, Why Elevation Matters"),
        (8000, 197.4, "NASA / NOAA standard-atmosphere table (copy)"),
        (10000, 193.6, "NASA / NOAA standard-atmosphere table (copy)"),
        (14000, 185.9, "NASA / NOAA standard-atmosphere table (copy)"),
    ],
)
def test_water_boils_where_the_tables_say(feet: float, fahrenheit: float, source: str) -> None:
    found = boiling_point(feet * SIZES["ft"] / 1000, boiling_tables())
    assert to_fahrenheit(found.value) == pytest.approx(fahrenheit, abs=0.05), source


@every_row(
    "typed",
    [
        (("sweet corn", "30 g"), ("carrot", "15 g"), ("potato flakes", "110 g"), ("olive oil", "1 tbsp")),
        (("rice, white, long-grain", "100 g"), ("lentils", "60 g"), ("onion", "10 g"), ("olive oil", "1 tbsp")),
        (("couscous", "120 g"), ("almonds", "30 g"), ("bell pepper, red", "10 g"), ("hard cheese", "20 g")),
    ],
)
def test_a_dinner_for_one_lands_between_600_and_1100_kcal(typed: tuple[tuple[str, str], ...]) -> None:
    """Common practice, no source."""
    energy = sheet(Meal("dinner"), *typed).serving.energy
    assert energy is not None
    assert 600 < energy.value < 1100


@every_row(
    "name",
    [
        "squash and lentil stew",
        "mushroom barley pot",
        "turkey and wild rice soup",
        "bean chili",
        "red pepper couscous",
    ],
)
def test_every_dinner_of_the_sample_lands_between_600_and_1100_kcal(name: str) -> None:
    """Common practice, no source. The sample's own tables, read as a person would have kept them."""
    folder = Path(__file__).parents[3] / "sample_data" / "gullwing"
    with (folder / "meal.csv").open(encoding="utf-8") as file:
        number = next(row["id"] for row in csv.DictReader(file) if row["name"] == name)
    with (folder / "meal_part.csv").open(encoding="utf-8") as file:
        rows = [row for row in csv.DictReader(file) if row["meal"] == number]
    parts = [
        MealPart(0, n, row["name"], food=row["food"], staple=row["staple"], mass=parse_mass(row["mass"]))
        for n, row in enumerate(rows)
    ]
    energy = sheet_of(a_kitchen(), Meal(name), parts).serving.energy
    assert energy is not None
    assert 600 < energy.value < 1100
