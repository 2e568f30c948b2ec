"""One ingredient for another: seen before it is made, made in the meal or in a copy."""

from __future__ import annotations

import pytest

from dryhouse.kitchen.meals.sheet import meal_parts
from dryhouse.kitchen.meals.swaps import differences, preview_swap, swap_in_copy, swap_part
from dryhouse.science.quantities import Mass
from tests.kitchen.meals.meal_room import a_kitchen, build


def test_swapping_meat_for_a_soy_crumble_shows_what_changes_and_changes_nothing_yet() -> None:
    kitchen = a_kitchen()
    id = build(kitchen, ("ground beef", "40 g"), ("couscous", "120 g"))
    beef = meal_parts(kitchen, id)[0]
    swap = preview_swap(kitchen, beef.id, "soy crumble")
    assert swap.into.mass == Mass(40.0)
    change = {d.name: d.change for d in differences(swap.before, swap.after)}
    assert change["dry weight"] == pytest.approx(0.0)
    assert change["fat"] is not None
    assert change["fat"] < 0
    assert any(c.severity == "stop" for c in swap.before.cautions)
    assert not any(c.rule.startswith("heat-meat") for c in swap.after.cautions)
    assert meal_parts(kitchen, id)[0] == beef
    swap_part(kitchen, beef.id, "soy crumble")
    assert meal_parts(kitchen, id)[0].staple == "soy-crumble"


def test_a_swap_in_a_copy_leaves_the_meal_as_it_was() -> None:
    kitchen = a_kitchen()
    id = build(kitchen, ("ground beef", "40 g"), ("couscous", "60 g"))
    beef = meal_parts(kitchen, id)[0]
    made = swap_in_copy(kitchen, beef.id, "soy crumble").record
    assert made.name == "stew with soy crumble, textured"
    assert [p.name for p in meal_parts(kitchen, made.id)] == ["soy crumble, textured", "couscous"]
    assert meal_parts(kitchen, id)[0] == beef
