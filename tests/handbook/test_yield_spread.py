"""How far published figures stray: every category has a spread, and a range follows from it."""

import math

import pytest

from dryhouse.handbook.foods import load_foods
from dryhouse.handbook.tables import CATEGORIES, Food
from dryhouse.handbook.yield_comparisons import COMMERCIAL, comparable_yields, compare, yield_spread
from dryhouse.handbook.yield_spread import (
    LEAST_SPREAD,
    cup,
    finish,
    raw_water,
    solids_ranges,
    solids_spread,
    water_with_range,
)
from dryhouse.handbook.yield_table import PublishedYield, published_yields
from dryhouse.science.values import Fact
from tests.rows import every_row
from tests.workings import read


@every_row("category", CATEGORIES)
def test_every_category_has_its_spreads_with_their_sources(category):
    food = Food("x", "x", (), category)
    for spread in (raw_water(food), finish(food)):
        assert 0 < spread.value < 0.3
        assert spread.source


def test_a_cup_of_one_cut_is_known_better_than_one_of_any_cut():
    assert (
        cup("fresh", same_cut=True).value < cup("fresh", same_cut=False).value < cup("dried", same_cut=True).value
    )


def test_the_range_of_raw_water_lies_about_its_value_and_below_all_water():
    for food in load_foods().values():
        water = food.fact("water")
        if water is not None and water.value < 100:
            wide = water_with_range(food, water)
            assert 0 <= wide.low < water.value < wide.high < 100, food.slug


def test_a_range_that_is_given_stands_and_an_entered_figure_is_exact():
    corn = load_foods()["corn"]
    given = Fact(76.0, "%", "a table", low=70.0, high=80.0)
    entered = Fact(80.0, "%", "entered by you", "entered")
    assert water_with_range(corn, given) is given
    assert water_with_range(corn, entered) is entered


def test_rows_that_merely_stray_are_used_and_rows_that_are_no_drying_yield_are_not():
    used = [r for r in published_yields() if (f := load_foods().get(r.food)) and compare(f, r) is not None]
    straying = {r.food for r in published_yields() if r.strays}
    assert len(straying) >= 8
    assert straying <= {r.food for r in used}
    assert not {"green-pepper", "beef-jerky", "plum"} & {r.food for r in used}
    assert not any("pressed" in r.form for r in used)
    assert yield_spread().rows == 26


def test_commercial_drying_is_brought_to_the_home_target_in_its_words():
    said = [read(y.workings) for y in comparable_yields("apricot")]
    # 453.6 g of 2722 g, 7 % of which are refuse, at 69.11 % solids
    assert any("That was at 30.89 % water; at 20 %: 0.1548" in words for words in said)


def test_a_published_yield_of_onion_against_its_solids_by_hand():
    """Each row of the table, dried over prepared, against the solids of raw onion over those at its target."""
    onion = load_foods()["onion"]
    water, target, refuse = (onion.fact(name).value for name in ("water", "target_moisture", "refuse"))
    rows = [row for row in published_yields() if row.food == "onion" and compare(onion, row) is not None]
    for row, known in zip(rows, comparable_yields("onion"), strict=True):
        prepared = row.prepared_g or row.as_purchased_g * (1 - refuse / 100)
        end = onion.fact("dried_water").value if not (row.comparable or row.strays) else target
        expected = math.log(row.dried_g / prepared) - math.log((100 - water) / (100 - end))
        assert known.comparison.strays == pytest.approx(expected)
        assert known.comparison.variance == pytest.approx(known_variance(onion))
    assert [known.comparison.trusted for known in comparable_yields("onion")] == [
        False,
        True,
        True,
        True,
        True,
        False,
    ]


def known_variance(food):
    """Raw water, half way between its own spread and that of its kind, and the finish."""
    water, kind = food.fact("water"), raw_water(food).value
    own = water.standard_error * math.sqrt(water.n) / (100 - water.value)
    return own * kind + finish(food).value ** 2


def test_the_spread_of_solids_by_hand():
    """Corn, 22 to 30.2 % published: the middle 80 %, 2.563 standard deviations. Others go by their samples."""
    corn = load_foods()["corn"]
    spread = solids_spread(corn, corn.fact("water"))
    assert spread.value == pytest.approx(math.log(30.2 / 22) / 2.563, rel=1e-3)
    assert solids_ranges()["corn"].value == pytest.approx(math.sqrt(22 * 30.2))
    sampled = [f for f in load_foods().values() if f.slug not in solids_ranges() and f.fact("water")]
    sampled = [f for f in sampled if f.fact("water").standard_error and f.fact("water").n > 1]
    assert len(sampled) > 10
    for food in sampled:
        own = math.sqrt(known_variance(food) - finish(food).value ** 2)
        least = max(min(own, raw_water(food).value), LEAST_SPREAD)
        assert solids_spread(food, food.fact("water")).value == pytest.approx(least), food.slug
    water = water_with_range(corn, corn.fact("water"))
    factor = math.exp(1.2816 * spread.value)
    solids = 100 - corn.fact("water").value
    assert (water.low, water.high) == pytest.approx((100 - solids * factor, 100 - solids / factor), rel=1e-4)
    assert LEAST_SPREAD == 0.06


def test_an_entered_figure_with_samples_has_their_range():
    corn = load_foods()["corn"]
    tested = Fact(80.0, "%", "her tests", "entered", n=4, standard_error=0.5)
    assert water_with_range(corn, tested).low < 80.0


def test_a_category_without_a_spread_of_its_own_goes_by_its_like():
    herb, vegetable, mixed = (Food("x", "x", (), kind) for kind in ("herb", "vegetable", "mixed"))
    assert raw_water(herb) == raw_water(vegetable) == raw_water(mixed)
    assert finish(herb) == finish(vegetable)
    assert finish(mixed) != finish(vegetable)


def row(**more):
    given = dict.fromkeys(PublishedYield.__dataclass_fields__)
    given |= {"food": "pea", "form": "", "comparable": True, "strays": False, "why": "", "source": "a table, p. 3"}
    return PublishedYield(**(given | {"how": "read", "prepared_g": 1000.0} | more))


PEA = Food("pea", "pea", (), "vegetable", {
    "water": Fact(90.0, "%", "s"), "target_moisture": Fact(10.0, "%", "s"), "refuse": Fact(50.0, "%", "s"),
    "dried_water": Fact(5.0, "%", "s"),
})  # fmt: skip


def test_a_published_yield_may_move_the_middle_where_it_leaves_two_to_twenty_five_per_cent_of_water():
    """100 g of solids in 1000 g: dried to 100 ÷ (1 − 0.02) = 102.04 g it holds 2 %, to 133.33 g 25 %."""
    trusted = {g: compare(PEA, row(dried_g=g)).comparison.trusted for g in (102.0, 102.1, 133.3, 133.4)}
    assert trusted == {102.0: False, 102.1: True, 133.3: True, 133.4: False}
    assert not compare(PEA, row(dried_g=110.0, how="recalled")).comparison.trusted


def test_what_a_published_yield_says_is_brought_to_prepared_food_at_the_home_target():
    said = {
        "prepared": row(dried_g=110.0),
        "bought": row(dried_g=110.0, prepared_g=None, as_purchased_g=2000.0),
        "both": row(dried_g=110.0, as_purchased_g=9999.0),
        "commercial": row(dried_g=110.0, comparable=False, form=COMMERCIAL),
    }
    lines = {name: read(compare(PEA, each).workings) for name, each in said.items()}
    assert lines["prepared"] == lines["both"] == "Published: 110 g dried ÷ 1000 g prepared = 0.11   [a table, p. 3]"
    assert (
        lines["bought"]
        == "Published: 110 g dried ÷ (2000 g as purchased × (1 − 50 % refuse)) = 0.11   [a table, p. 3]"
    )
    assert lines["commercial"].endswith("That was at 5 % water; at 10 %: 0.1161")
    assert compare(PEA, said["prepared"]).comparison.source == "a table"
    assert compare(PEA, row(dried_g=110.0, comparable=False)) is None
    assert compare(PEA, row(dried_g=None)) is None
    assert compare(PEA, row(dried_g=110.0, prepared_g=None)) is None
    plain = Food("pea", "pea", (), "vegetable", {k: f for k, f in PEA.facts.items() if k != "refuse"})
    bought = compare(plain, row(dried_g=110.0, prepared_g=None, as_purchased_g=1000.0))
    assert read(bought.workings) == "Published: 110 g dried ÷ 1000 g prepared = 0.11   [a table, p. 3]"
