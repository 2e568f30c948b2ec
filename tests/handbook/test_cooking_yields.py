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
