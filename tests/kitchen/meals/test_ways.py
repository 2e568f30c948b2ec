"""The other ways to cook a meal, in a line each, and never against a stop."""

import pytest

from dryhouse.handbook.reader import handbook
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.meals.heat import set_fuel_per_liter
from dryhouse.kitchen.meals.meals import cooked_by, draft_part
from dryhouse.kitchen.meals.sheet import cooking_line, sheet_of
from dryhouse.kitchen.meals.ways import other_ways
from dryhouse.kitchen.records import Meal
from dryhouse.science.display import Style
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Mass
from tests.fakes import FakeJournal


def a_sheet(*foods, cooking="short soak", own=None):
    kitchen = Kitchen(FakeJournal(), handbook())
    if own is not None:
        set_fuel_per_liter(kitchen, Mass(own))
    meal = Meal("m", 1.0, cooking=cooking, liquid="stew")
    return kitchen, sheet_of(kitchen, meal, [draft_part(kitchen, food, "60 g") for food in foods])


def ways_of(*foods, **more):
    kitchen, sheet = a_sheet(*foods, **more)
    return {way.cooking: way for way in other_ways(kitchen, sheet)}


def test_less_flame_is_less_fuel_and_less_water():
    ways = ways_of("corn", "couscous", cooking="no soak")
    assert set(ways) == {"short soak", "boil and rest", "cold soak"}
    _, unsoaked = a_sheet("corn", "couscous", cooking="no soak")
    heats = [unsoaked.heat.heat.value, *(ways[w].heat.heat.value for w in ("short soak", "boil and rest"))]
    waters = [
        unsoaked.bag.water.value,
        *(ways[w].water.value for w in ("short soak", "boil and rest", "cold soak")),
    ]
    assert heats == sorted(heats, reverse=True)
    assert waters == sorted(waters, reverse=True)
    assert ways["cold soak"].heat is None
    assert ways["short soak"].sentence(Style()).startswith("short soak: soak 30 min, simmer 8 min; ")
    assert ways["cold soak"].sentence(Style()).endswith(" of water, no fuel")


def test_each_way_is_what_the_meal_would_be_if_it_were_cooked_so():
    kitchen, sheet = a_sheet("corn", "couscous")
    for way in other_ways(kitchen, sheet):
        _, cooked = a_sheet("corn", "couscous", cooking=way.cooking)
        assert (way.water.value, way.soak.value, way.cook.value, way.flame.value) == (
            cooked.bag.water.value,
            cooked.minutes.soak.value,
            cooked.minutes.cook.value,
            cooked.minutes.flame.value,
        )


def test_a_short_soak_beside_a_long_cold_one_need_not_be_kept_cold():
    """The stop of a soak of four hours belongs to that way alone."""
    _, cold = a_sheet("carrot", "couscous", cooking="cold soak")
    assert "kept at 40 °F" in cooking_line(cold)
    beside = ways_of("carrot", "couscous", cooking="cold soak")["short soak"]
    alone = a_sheet("carrot", "couscous", cooking="short soak")[1]
    assert beside.line == cooking_line(alone)
    assert "kept at" not in beside.line


def test_own_fuel_is_said_in_its_weight():
    assert "oz of fuel" in ways_of("corn", own=9.0)["no soak"].sentence(Style())
    assert "kJ of heat" in ways_of("corn")["no soak"].sentence(Style())


def test_animal_food_and_mushrooms_are_never_offered_as_a_cold_soak():
    for food in ("ground beef", "shrimp", "scrambled egg", "mushroom"):
        cold = ways_of(food)["cold soak"]
        assert cold.sentence(Style()).startswith("cold soak: not as a cold soak.")
        assert "of water" not in cold.sentence(Style())
    assert "does not cook lentils" in ways_of("lentils")["cold soak"].sentence(Style())


def test_what_needs_no_pot_has_no_other_way():
    assert not ways_of("apple", cooking="no pot")
    assert not ways_of()


def test_another_way_is_asked_for_by_its_words_and_leaves_own_minutes_out():
    meal = Meal("m", cooking="boil and rest", cook_minutes=10.0)
    assert cooked_by(meal, "No-Soak") == Meal("m", cooking="no soak")
    assert cooked_by(meal, "boil and rest") == meal
    with pytest.raises(InputProblem, match="no soak, short soak, boil and rest, cold soak, no pot"):
        cooked_by(meal, "fried")
