"""Soaking against the clock and the thermometer; cold soaks; altitude."""

import pytest

from dryhouse.handbook.safety_table import rules_by_id
from dryhouse.science.safety.facts import MealFacts
from dryhouse.science.safety.families.serving import (
    high_up,
    serving,
    soak_unknown,
    soaked_cold,
    soaked_too_long,
    soaked_too_long_in_heat,
)
from dryhouse.science.units import to_celsius

RULES = rules_by_id()


def soaked(minutes, fahrenheit):
    return MealFacts(
        soak_minutes=minutes, soak_temperature_c=None if fahrenheit is None else to_celsius(fahrenheit)
    )


@pytest.mark.parametrize(
    ("minutes", "fahrenheit", "speaks"),
    [
        (120, 70, False),
        (121, 70, True),
        (121, None, True),
        (121, 40, False),
        (121, 38, False),
        (121, 41, True),
        (121, 139, True),
        (121, 140, False),
        (121, 200, False),
        (None, 70, False),
    ],
)
def test_two_hours_between_40_and_140(minutes, fahrenheit, speaks):
    assert bool(soaked_too_long(soaked(minutes, fahrenheit), RULES["soak-two-hours"])) is speaks


@pytest.mark.parametrize(
    ("minutes", "fahrenheit", "speaks"),
    [(61, 95, True), (60, 95, False), (61, 90, False), (61, None, False), (61, 150, False)],
)
def test_one_hour_in_the_heat(minutes, fahrenheit, speaks):
    assert bool(soaked_too_long_in_heat(soaked(minutes, fahrenheit), RULES["soak-one-hour-hot"])) is speaks


def test_what_is_not_known_of_a_soak_is_asked():
    rule = RULES["soak-unknown"]
    assert "how long" in soak_unknown(soaked(None, 70), rule)
    assert "how warm" in soak_unknown(soaked(61, None), rule)
    assert soak_unknown(soaked(30, None), rule) == ""
    assert soak_unknown(soaked(61, 70), rule) == ""


def test_a_cold_soak_is_named_by_how_the_meal_is_cooked():
    rule = RULES["cold-soak-animal"]
    assert soaked_cold(MealFacts(cooking="cold soak"), rule)
    assert not soaked_cold(MealFacts(cooking="simmer"), rule)


def test_a_height_nobody_recorded_counts_as_high():
    rule = RULES["altitude-thermometer"]
    assert high_up(MealFacts(), rule)
    assert high_up(MealFacts(altitude_m=950.0), rule) == "at 3117 ft (950 m)"
    assert not high_up(MealFacts(altitude_m=914.0), rule)


def test_water_always_goes_on():
    assert serving(MealFacts(), RULES["danger-zone"])
