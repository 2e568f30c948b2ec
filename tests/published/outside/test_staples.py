"""Staples, pots and meals against published figures. Water contents and composition: USDA National Nutrient
Database for Standard Reference, release 28 (2015), read unless a row says it was remembered."""

from __future__ import annotations

from datetime import UTC, datetime

import pytest

from dryhouse.handbook.reader import handbook
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.meals.meals import draft_part
from dryhouse.kitchen.meals.sheet import MealSheet, sheet_of
from dryhouse.kitchen.records import Meal, MealPart
from dryhouse.science.quantities import Mass
from dryhouse.science.units import SIZES
from tests.fakes import FakeJournal

CUP = SIZES["cup"]


def a_kitchen() -> Kitchen:
    return Kitchen(FakeJournal(), handbook(), lambda: datetime(2026, 8, 1, 9, tzinfo=UTC), UTC)


def sheet(meal: Meal, *typed: tuple[str, str]) -> MealSheet:
    kitchen = a_kitchen()
    return sheet_of(kitchen, meal, [draft_part(kitchen, name, amount) for name, amount in typed])


def test_rice_by_the_cup_takes_what_usda_cups_say() -> None:
    """Checked apart from the water contents: a cup of raw rice (185 g) and USDA's 130 and 365 kcal per 100 g
    cooked and raw (SR28 20045, 20044): 185 g become 185 × 365/130 = 519 g, so 334 g of water."""
    water = sheet(Meal("rice", liquid="dry", cook_minutes=0), ("rice, white, long-grain", "1 cup")).bag.water
    assert water.value == pytest.approx(185 * 365 / 130 - 185, rel=0.03)


def test_dried_apple_is_as_rich_as_usda_found_it() -> None:
    """SR28 09011, dried apples at 31.76 % water: 243 kcal. Ours at 20 % water, brought to theirs by dry matter."""
    found = sheet(Meal("apple"), ("apple", "100 g")).bag.energy
    assert found is not None
    assert found.value * (100 - 31.76) / (100 - 20) == pytest.approx(243, rel=0.02)


def meat(grams: float) -> MealPart:
    """A quarter cup of dried ground meat weighs about this (common practice, no source)."""
    return MealPart(0, 0, "ground beef", food="ground-beef", mass=Mass(grams))


def test_potato_flakes_with_meat_and_vegetables_take_about_two_and_a_half_cups() -> None:
    """A quarter cup each of dried ground meat and vegetables, a packet of flakes of 110 g, one pot:
    common practice, no source."""
    kitchen = a_kitchen()
    meal = Meal("mash pot", liquid="dry")
    parts = [meat(24), draft_part(kitchen, "carrot", "1/4 cup"), draft_part(kitchen, "potato flakes", "110 g")]
    water = sheet_of(kitchen, meal, parts).bag.water
    assert water.value / CUP == pytest.approx(2.5, rel=0.15)


def test_quick_noodles_with_meat_and_corn_take_about_one_and_a_half_cups() -> None:
    """A quarter cup each of dried meat and corn, a brick of quick noodles: common practice, no source."""
    kitchen = a_kitchen()
    parts = [meat(24), draft_part(kitchen, "sweet corn", "1/4 cup"), draft_part(kitchen, "quick noodles", "81 g")]
    water = sheet_of(kitchen, Meal("noodle pot", liquid="stew"), parts).bag.water
    assert water.value / CUP == pytest.approx(1.5, rel=0.15)
