"""A rule knows whom it concerns."""

import pytest

from dryhouse.handbook.safety_table import rules_by_id, safety_rules
from dryhouse.science.safety.rules import SURFACES


def test_any_concerns_all_and_the_rest_only_their_kinds():
    assert rules_by_id()["in-doubt"].concerns(frozenset())
    assert rules_by_id()["condition-fruit"].concerns(frozenset({"fruit", "acid"}))
    assert not rules_by_id()["condition-fruit"].concerns(frozenset({"vegetable"}))


def test_a_stop_is_said_on_every_surface_or_of_the_food_before_anything_is_done_with_it():
    narrower = {rule.id for rule in safety_rules() if rule.severity == "stop" and rule.said_of != SURFACES}
    assert narrower == {"outdoor-drying"}
    assert rules_by_id()["outdoor-drying"].said_of == {"food"}


def test_a_rule_that_compares_has_its_limit():
    assert rules_by_id()["soak-two-hours"].bound == 120
    with pytest.raises(AssertionError, match="does not have"):
        _ = rules_by_id()["in-doubt"].bound
