"""The target weight and the yield of a food rest on one dry matter: neither says what the other rules out."""

from __future__ import annotations

from dryhouse.kitchen.foods.catalog import food
from dryhouse.kitchen.yields.quick_answers import target
from dryhouse.kitchen.yields.yields import yield_ratio
from dryhouse.science.errors import InputProblem
from tests.kitchen.shelf_room import a_shelf
from tests.rows import every_row

KITCHEN = a_shelf()


@every_row("slug", ["pear", "tomato", "carrot", "corn"])
def test_target_and_yields_agree_within_their_doubt(slug):
    aim, ratio = target(KITCHEN, slug, "1 kg"), yield_ratio(KITCHEN, food(KITCHEN, slug))
    assert aim.unit == "kg"
    assert ratio.low <= aim.value <= ratio.high
    assert aim.low <= ratio.value <= aim.high


def with_a_yield():
    """Every food whose yield is known, with it."""
    for slug, known in KITCHEN.handbook.foods.items():
        try:
            yield slug, known, yield_ratio(KITCHEN, known)
        except InputProblem:
            continue


def test_no_food_yields_more_or_less_than_its_solids_allow():
    """Mass balance: a dried weight of less than the solids lost dry matter; one of more than four thirds of them is
    a quarter water, which is not dried."""
    found = list(with_a_yield())
    assert len(found) > 200
    odd = {
        slug: round(left, 1)
        for slug, known, ratio in found
        if not 2 <= (left := 100 - (100 - known.facts["water"].value) / ratio.value) <= 25
        or not ratio.low <= ratio.value <= ratio.high
    }
    assert odd == {}


def test_every_target_weight_lies_inside_the_yields_doubt():
    apart = []
    for slug, known, ratio in with_a_yield():
        if known.fact("target_moisture") is not None:
            aim = target(KITCHEN, slug, "1 kg")
            if not ratio.low <= aim.value <= ratio.high:
                apart.append((slug, aim.value, ratio.low, ratio.high))
    assert apart == []
