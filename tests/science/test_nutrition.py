"""Dry matter is conserved; what is missing stays missing."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dryhouse.science.display import Style
from dryhouse.science.nutrition import Contents, concentration, contents, dried, total
from dryhouse.science.values import Fact
from tests.workings import read


def per_100g(**figures: float) -> dict[str, Fact]:
    return {name: Fact(value, "per 100 g", "a label") for name, value in figures.items()}


def test_a_bag_is_the_sum_of_what_is_in_it() -> None:
    rice = contents("rice", 60.0, per_100g(energy=365.0, sodium=5.0))
    salt = contents("salt", 2.0, per_100g(energy=0.0, sodium=38758.0))
    energy, sodium = total([rice, salt], "energy"), total([rice, salt], "sodium")
    assert energy is not None
    assert sodium is not None
    assert energy.amount == pytest.approx(219.0)
    assert sodium.amount == pytest.approx(3.0 + 775.16)
    assert energy.figure(0.5).value == pytest.approx(109.5)


def test_a_sum_with_a_hole_says_whose_figure_is_missing() -> None:
    known = contents("rice", 100.0, per_100g(energy=365.0))
    stranger = contents("mystery", 50.0, {})
    energy = total([known, stranger], "energy")
    assert energy is not None
    assert energy.missing == ("mystery",)
    said = read(energy.figure().workings, Style())
    assert "rice: 3.527 oz × 103.5 kcal/oz = 365 kcal" in said
    assert "Not known for mystery: at least this much" in said


def test_nothing_known_is_no_sum() -> None:
    assert total([contents("mystery", 50.0, {})], "protein") is None


def test_drying_to_a_sixth_makes_six_times_as_much_of_everything() -> None:
    found = dried(per_100g(energy=50.0, protein=2.0, water=90.0), 6.0)
    assert {name: fact.value for name, fact in found.items()} == {"energy": 300.0, "protein": 12.0}


@given(st.floats(1, 99), st.floats(0, 50), st.floats(1, 5000), st.floats(0.1, 900))
def test_energy_of_a_load_survives_drying(fresh: float, dry: float, grams: float, kcal: float) -> None:
    factor = concentration(fresh, dry)
    before = contents("fresh", grams, per_100g(energy=kcal)).amounts["energy"]
    after = contents("dried", grams / factor, dried(per_100g(energy=kcal), factor)).amounts["energy"]
    assert after == pytest.approx(before)


@given(st.lists(st.floats(0, 1000), min_size=1, max_size=8))
def test_the_order_of_the_ingredients_does_not_matter(grams: list[float]) -> None:
    parts = [Contents(str(n), g, {"energy": 3.5 * g}) for n, g in enumerate(grams)]
    one, other = total(parts, "energy"), total(reversed(parts), "energy")
    assert one is not None
    assert other is not None
    assert one.amount == pytest.approx(other.amount)
