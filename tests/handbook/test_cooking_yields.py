"""Raw to cooked, as published: weighed yields before surveys, and none made up."""

import pytest

from dryhouse.handbook.cooking_yields import cooking_yield, cooking_yields


def test_ground_beef_goes_by_weighed_crumbles_and_not_by_patties():
    """USDA cooking yields: crumbles 0.67 to 0.72; by protein 0.64 to 0.73. A patty keeps 0.74 to 0.85."""
    for food in ("ground-beef", "ground-beef-80", "ground-beef-extra-lean"):
        crumbles = cooking_yield(food)
        assert 0.64 <= crumbles.low <= crumbles.value <= crumbles.high <= 0.73


@pytest.mark.parametrize(("food", "least", "most"), [("pinto-bean", 2.2, 2.8), ("rice-brown", 2.5, 3.5)])
def test_dry_staples_come_to_what_the_surveys_weigh(food, least, most):
    assert least <= cooking_yield(food).value <= most


def test_of_a_food_that_has_no_row_nothing_is_said():
    assert cooking_yield("strawberry") is None


def test_every_row_says_how_it_is_known():
    assert {row.kind for row in cooking_yields()} == {"measured", "survey", "conserved"}


def test_the_middle_of_the_strongest_rows_stands_between_the_ends_of_their_kind_and_of_what_is_conserved():
    """Ground beef: weighed 0.69 and 0.71, by protein 0.64 to 0.70; the survey's patty at 0.78 answers nothing.
    Brown rice: the survey's 3.35, and 3.33 by its solids."""
    known = {food: cooking_yield(food) for food in ("ground-beef", "rice-brown")}
    assert {food: (f.low, f.value, f.high, f.unit) for food, f in known.items()} == {
        "ground-beef": (0.64, 0.71, 0.71, "g/g"),
        "rice-brown": (3.33, 3.35, 3.35, "g/g"),
    }


def test_rows_from_frozen_packages_answer_nothing():
    frozen = {row.food for row in cooking_yields() if row.from_state == "frozen"}
    assert frozen
    for food in frozen:
        others = [r.fact.value for r in cooking_yields() if r.food == food and r.from_state != "frozen"]
        found = cooking_yield(food)
        assert found is None if not others else min(others) <= found.low <= found.high <= max(others)
