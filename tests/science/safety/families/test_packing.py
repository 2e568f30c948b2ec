"""Air shut out, dryness, conditioning: what is not recorded never counts as done; what was bought is not asked."""

import pytest

from dryhouse.handbook.safety_table import rules_by_id
from dryhouse.science.safety.facts import BatchFacts, FoodFacts, LotFacts
from dryhouse.science.safety.families.packing import (
    airless_not_cold,
    airless_not_dry,
    bought,
    dryness_unknown,
    not_conditioned,
    not_dry,
)

RULES = rules_by_id()
APPLE, TURKEY = FoodFacts("apple", "fruit"), FoodFacts("turkey", "poultry")


def lot(food=APPLE, *, home=True, **more):
    return LotFacts(food, BatchFacts(food) if home else None, bought=not home, **more)


@pytest.mark.parametrize(
    ("airless", "dry", "speaks"),
    [(True, None, True), (True, False, True), (True, True, False), (False, None, False), (None, None, False)],
)
def test_without_air_only_what_is_known_to_be_dry_is_passed_over(airless, dry, speaks):
    assert bool(airless_not_dry(lot(airless=airless, dry_enough=dry), RULES["airless-not-dry"])) is speaks


@pytest.mark.parametrize(("celsius", "speaks"), [(None, True), (20.0, True), (4.4, False), (-18.0, False)])
def test_meat_without_air_wants_the_cold(celsius, speaks):
    packed = lot(TURKEY, airless=True, temperature_c=celsius)
    assert bool(airless_not_cold(packed, RULES["airless-animal-not-cold"])) is speaks


@pytest.mark.parametrize(("days", "speaks"), [(None, True), (0, True), (9, True), (10, False), (14, False)])
def test_fruit_is_conditioned_ten_days_or_asked_about(days, speaks):
    assert bool(not_conditioned(lot(conditioned_days=days), RULES["condition-fruit"])) is speaks


def test_leathers_and_vegetables_are_not_conditioned():
    for category in ("mixed", "vegetable"):
        food = FoodFacts("it", category, frozenset({"fruit"}))
        assert not not_conditioned(lot(food), RULES["condition-fruit"])


def test_dryness_is_wrong_unknown_or_shown_never_two_of_them():
    for dry, said in ((True, (False, False)), (False, (True, False)), (None, (False, True))):
        jar = lot(dry_enough=dry)
        asked = not_dry(jar, RULES["not-dry-enough"]), dryness_unknown(jar, RULES["dryness-unknown"])
        assert tuple(bool(a) for a in asked) == said


def test_a_bought_bag_is_asked_none_of_it():
    bag = lot(home=False, airless=True)
    for condition in (airless_not_dry, airless_not_cold, dryness_unknown, not_conditioned):
        assert condition(bag, RULES["airless-animal-not-cold"]) == ""
    assert bought(bag, RULES["bought-animal"])
    assert not bought(lot(), RULES["bought-animal"])
