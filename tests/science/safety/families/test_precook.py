"""Only a temperature read off a thermometer, at or above the limit, is an answer."""

import pytest

from dryhouse.handbook.safety_table import rules_by_id
from dryhouse.science.safety.facts import BatchFacts, FoodFacts
from dryhouse.science.safety.families.precook import (
    below,
    dried_at_home,
    method_missing,
    missing,
    not_cooked,
    unmeasured,
)
from dryhouse.science.units import to_celsius

TURKEY = FoodFacts("turkey", "poultry")
RULES = rules_by_id()


def heated(fahrenheit=None, measured=None, **more):
    celsius = None if fahrenheit is None else to_celsius(fahrenheit)
    return BatchFacts(TURKEY, precook_temperature_c=celsius, precook_measured=measured, **more)


@pytest.mark.parametrize(
    ("fahrenheit", "measured", "says"),
    [
        (None, None, {"missing"}),
        (None, True, {"missing"}),
        (164, True, {"below"}),
        (164, None, {"below"}),
        (165, None, {"unmeasured"}),
        (165, False, {"unmeasured"}),
        (165, True, set()),
        (180, True, set()),
    ],
)
def test_exactly_one_thing_is_wrong_with_a_precook_or_nothing(fahrenheit, measured, says):
    batch = heated(fahrenheit, measured)
    asked = {"missing": missing, "below": below, "unmeasured": unmeasured}
    assert {name for name, ask in asked.items() if ask(batch, RULES["heat-poultry-missing"])} == says


def test_the_reason_names_both_temperatures_in_both_scales():
    reason = below(heated(150, True), RULES["heat-poultry-below"])
    assert "150 °F (66 °C)" in reason
    assert "165 °F (74 °C)" in reason


def test_a_limit_typed_in_fahrenheit_is_reached_by_itself():
    for rule in RULES.values():
        if rule.when == "precook below":
            reached = BatchFacts(TURKEY, precook_temperature_c=round(rule.bound, 2), precook_measured=True)
            assert below(reached, rule) == ""
            assert below(BatchFacts(TURKEY, precook_temperature_c=rule.bound - 0.1), rule)


def test_a_method_is_asked_for_once_there_is_a_temperature():
    rule = RULES["heat-method-missing"]
    assert method_missing(heated(170, True), rule)
    assert not method_missing(heated(170, True, precook_method="steamed"), rule)
    assert not method_missing(heated(), rule)


def test_beans_went_in_cooked_or_canned_or_are_asked_about():
    beans = FoodFacts("kidney bean", "legume", frozenset({"raw_bean"}))
    rule = RULES["beans-not-boiled"]
    for made_from, silent in (
        (None, False),
        ("fresh", False),
        ("frozen", False),
        ("cooked", True),
        ("canned", True),
    ):
        assert (not_cooked(BatchFacts(beans, made_from), rule) == "") is silent


def test_no_heat_step_answers_for_egg():
    egg = BatchFacts(FoodFacts("egg", "egg"), precook_temperature_c=100.0, precook_measured=True)
    assert dried_at_home(egg, RULES["egg-not-at-home"]) == "egg dried at home"
