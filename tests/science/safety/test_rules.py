"""A rule knows whom it concerns."""

import pytest

from dryhouse.handbook.safety_table import rules_by_id, safety_rules
from dryhouse.science.safety.rules import ROUNDING_C, SURFACES
from dryhouse.science.units import to_celsius


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


def test_a_limit_in_whole_fahrenheit_is_met_by_its_tenth_in_celsius_and_by_nothing_below():
    """71.1 °C is how 160 °F is written in the other scale; 159.9 °F and 71 °C are below it."""
    least = to_celsius(160) - ROUNDING_C
    assert [celsius >= least for celsius in (71.1, 71.0, to_celsius(159.9), to_celsius(159.96))] == [
        True, False, False, True,
    ]  # fmt: skip
