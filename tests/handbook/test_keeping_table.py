"""Published lives as they stand in the tables: in days, the shortest, with the months they were published in."""

import pytest

from dryhouse.handbook.keeping_table import keeping_limits, keeping_lines, keeping_points, rule_of
from dryhouse.science.safety import FoodFacts

PLANT = FoodFacts("it", "vegetable")


def test_a_life_told_in_months_says_so_and_counts_in_days():
    """University of Georgia, fruit: 12 months at 60 °F, 6 at 80 °F; a month is a twelfth of a year."""
    points = {round(p.temperature_c * 1.8 + 32): p.life for p in keeping_points()["fruit"].points}
    assert {at: points[at].value for at in (60, 80)} == pytest.approx({60: 365.25, 80: 182.625})
    assert points[60].note == "12 months of 30.4375 days"
    meat = keeping_limits()["meat"].points
    assert {p.life.note for p in meat} <= {"", *(p.life.note for p in meat if "month" in p.life.note)}
    assert [p.life.note for p in meat if p.life.value == 180.0] == [""]


def test_points_stand_coldest_first_and_a_limit_for_a_room_is_carried_into_the_heat():
    for line in (*keeping_points().values(), *keeping_limits().values()):
        at = [p.temperature_c for p in line.points]
        assert at == sorted(at)
    assert [keeping_limits()[kind].steps for kind in ("meat", "fish")] == [True, True]
    assert not keeping_points()["fruit"].steps
    carried = (rule_of("carried").value - 32) / 1.8
    assert keeping_limits()["meat"].carried_c == pytest.approx(carried)
    assert keeping_limits()["fish"].carried_c == float("-inf")


def kinds(food: FoodFacts, slug: str = "x") -> tuple[list[str], list[str]]:
    found = keeping_lines(slug, food)
    return [line.name for line in found.lines], list(found.supposed)


def test_each_kind_of_food_goes_by_its_own_rule():
    traits = {
        "jerky": FoodFacts("it", "meat", frozenset({"jerky"})),
        "nut": FoodFacts("it", "other", frozenset({"staple", "fatty"})),
    }
    assert kinds(PLANT) == (["vegetable"], [])
    assert kinds(FoodFacts("it", "fruit")) == (["fruit"], [])
    assert kinds(FoodFacts("it", "mushroom")) == (
        ["vegetable"],
        ["the rule for dried vegetables is used for this food"],
    )
    assert kinds(FoodFacts("it", "egg")) == kinds(FoodFacts("it", "dairy")) == ([], [])
    assert kinds(FoodFacts("it", "fish")) == (["fish"], [])
    assert kinds(traits["jerky"]) == (["meat"], [])
    assert kinds(FoodFacts("it", "poultry")) == (
        ["meat"],
        ["the limits for home jerky hold for other dried meat too"],
    )
    assert kinds(traits["nut"])[0] == ["fatty"]
    assert kinds(traits["nut"])[1] == []
    assert kinds(FoodFacts("it", "fruit", frozenset({"fatty"}))) == (
        ["fatty"], ["the limits for shelled nuts and seeds hold for it"],
    )  # fmt: skip


def test_a_mix_keeps_as_long_as_the_ingredient_that_keeps_shortest_and_not_at_all_where_one_has_no_life():
    beef, corn, egg = FoodFacts("beef", "meat"), FoodFacts("corn", "vegetable"), FoodFacts("egg", "egg")
    chili = FoodFacts("chili", "mixed", parts=(corn, beef, corn))
    names, supposed = kinds(chili)
    assert names == ["vegetable", "meat"]
    assert supposed[0] == "a mix keeps as long as the ingredient that keeps shortest"
    assert len(supposed) == 2
    assert kinds(FoodFacts("chili", "mixed", parts=(corn, egg))) == ([], [])
    jerky = FoodFacts("it", "meat", frozenset({"jerky"}), parts=(corn,))
    assert kinds(jerky)[0] == ["vegetable", "meat"]


def test_a_food_with_points_of_its_own_has_them_beside_the_general_rule():
    own = next(slug for slug in keeping_points() if slug not in ("fruit", "vegetable"))
    first, general = keeping_lines(own, PLANT).lines
    assert (first.name, general.name, first.only_between, general.only_between) == (own, "vegetable", False, True)
