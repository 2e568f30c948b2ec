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


def test_a_serving_is_its_share_of_the_sum_and_the_workings_say_so() -> None:
    rice = contents("rice", 60.0, per_100g(energy=365.0, protein=7.0, sodium=5.0))
    beans = contents("beans", 40.0, per_100g(energy=330.0, protein=22.0))
    protein = total([rice, beans], "protein")
    assert protein is not None
    figure = protein.figure(0.25, "One of four")
    assert (figure.value, figure.unit, figure.as_is) == (pytest.approx(3.25), "g", True)
    assert read(figure.workings) == (
        "rice: 60 g hold 4.2 g\nbeans: 40 g hold 8.8 g\nTogether 13 g\nOne of four: × 0.25 = 3.25 g"
    )
    assert read(protein.figure().workings).endswith("Together 13 g")
    assert read(protein.figure(0.5).workings).endswith("Share: × 0.5 = 6.5 g")
    sodium = total([rice, beans], "sodium")
    assert sodium is not None
    assert (sodium.figure().as_is, sodium.missing) == (False, ("beans",))


def test_fresh_grams_in_a_dried_one_by_hand() -> None:
    assert concentration(90.0, 10.0) == 9.0


def test_a_figure_of_dried_food_says_what_it_was_multiplied_by_and_keeps_how_it_is_known() -> None:
    fresh = {
        "energy": Fact(50.0, "kcal", "a table"),
        "protein": Fact(2.0, "g", "from memory", "recalled"),
        "fat": Fact(1.0, "g", "by you", "entered"),
    }
    found = dried(fresh, 6.0, why="yield")
    assert (found["energy"].source, found["energy"].how) == ("a table × 6.00 (yield)", "computed")
    assert (found["protein"].how, found["fat"].how) == ("recalled", "entered")
    assert dried(fresh, 6.0)["energy"].source == "a table × 6.00"
