"""Air shut out, dryness, conditioning: what is not recorded never counts as done; what was bought is not asked."""

from dryhouse.handbook.safety_table import rules_by_id
from dryhouse.science.safety.facts import BatchFacts, FoodFacts, LotFacts
from dryhouse.science.safety.families import packing as family
from tests.rows import every_row
from tests.told import worded

airless_not_cold = worded(family.airless_not_cold)
bought = worded(family.bought)
dryness_unknown = worded(family.dryness_unknown)
not_conditioned = worded(family.not_conditioned)
oil_cold = worded(family.oil_cold)
oil_not_cold = worded(family.oil_not_cold)
with_absorber = worded(family.with_absorber)

RULES = rules_by_id()
APPLE, TURKEY = FoodFacts("apple", "fruit"), FoodFacts("turkey", "poultry")


def lot(food=APPLE, *, home=True, **more):
    return LotFacts(food, BatchFacts(food) if home else None, bought=not home, **more)


@every_row(("celsius", "speaks"), [(None, True), (20.0, True), (4.4, False), (-18.0, False)])
def test_meat_without_air_wants_the_cold(celsius, speaks):
    packed = lot(TURKEY, airless=True, temperature_c=celsius)
    assert bool(airless_not_cold(packed, RULES["airless-animal-not-cold"])) is speaks


@every_row(("days", "speaks"), [(None, True), (0, True), (9, True), (10, False), (14, False)])
def test_fruit_is_conditioned_ten_days_or_asked_about(days, speaks):
    assert bool(not_conditioned(lot(conditioned_days=days), RULES["condition-fruit"])) is speaks


def test_leathers_and_vegetables_are_not_conditioned():
    for category in ("mixed", "vegetable"):
        food = FoodFacts("it", category, frozenset({"fruit"}))
        assert not not_conditioned(lot(food), RULES["condition-fruit"])


def test_unknown_dryness_is_asked_about():
    assert dryness_unknown(lot(dry_enough=None), RULES["dryness-unknown"])
    for dry in (True, False):
        assert not dryness_unknown(lot(dry_enough=dry), RULES["dryness-unknown"])


@every_row(
    ("in_oil", "celsius", "says"),
    [
        (None, 21.0, set()),
        (False, 21.0, set()),
        (True, None, {"oil-not-cold"}),
        (True, 21.0, {"oil-not-cold"}),
        (True, 4.4, {"oil-cold"}),
    ],
)
def test_oil_is_a_stop_only_where_it_is_packed_in_oil_and_thrown_out_where_it_is_not_cold(in_oil, celsius, says):
    jar = lot(FoodFacts("garlic", "vegetable", frozenset({"garlic"})), in_oil=in_oil, temperature_c=celsius)
    asked = {"oil-not-cold": oil_not_cold, "oil-cold": oil_cold}
    assert {name for name, ask in asked.items() if ask(jar, RULES[name])} == says


def test_an_absorber_is_heard_of_home_dried_food_only():
    assert with_absorber(lot(package="jar with absorber"), RULES["absorber-limits"])
    assert not with_absorber(lot(package="jar"), RULES["absorber-limits"])
    assert not with_absorber(lot(home=False, package="jar with absorber"), RULES["absorber-limits"])


def test_a_bought_bag_is_asked_none_of_it():
    bag = lot(home=False, airless=True)
    for condition in (airless_not_cold, dryness_unknown, not_conditioned):
        assert condition(bag, RULES["airless-animal-not-cold"]) == ""
    assert bought(bag, RULES["bought-animal"])
    assert not bought(lot(), RULES["bought-animal"])
