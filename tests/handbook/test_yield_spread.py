"""How far published figures stray: every category has a spread, and a range follows from it."""

from dryhouse.handbook.foods import load_foods
from dryhouse.handbook.tables import CATEGORIES, Food
from dryhouse.handbook.yield_comparisons import comparable_yields, compare, yield_spread
from dryhouse.handbook.yield_spread import cup, finish, raw_water, water_with_range
from dryhouse.handbook.yield_table import published_yields
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
    assert any("That was at 30.89 % water; at 20 %: " in words for words in said)
