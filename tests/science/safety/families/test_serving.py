"""Soaking against the clock and the thermometer; cold soaks; altitude."""

from dryhouse.handbook.safety_table import rules_by_id, safety_rules
from dryhouse.science.safety import evaluate
from dryhouse.science.safety.facts import BatchFacts, FoodFacts, LotFacts, MealFacts
from dryhouse.science.safety.families import serving as family
from dryhouse.science.units import to_celsius
from tests.rows import every_row
from tests.told import worded

bought_soaked_cold = worded(family.bought_soaked_cold)
bought_unheated = worded(family.bought_unheated)
eaten_unheated = worded(family.eaten_unheated)
no_pot = worded(family.no_pot)
water_goes_on = worded(family.water_goes_on)
high_up = worded(family.high_up)
serving = worded(family.serving)
soak_unknown = worded(family.soak_unknown)
soaked_cold = worded(family.soaked_cold)
soaked_cold_raw = worded(family.soaked_cold_raw)
soaked_too_long = worded(family.soaked_too_long)
soaked_too_long_in_heat = worded(family.soaked_too_long_in_heat)

RULES = rules_by_id()


def soaked(minutes, fahrenheit):
    return MealFacts(
        soak_minutes=minutes, soak_temperature_c=None if fahrenheit is None else to_celsius(fahrenheit)
    )


@every_row(
    ("minutes", "fahrenheit", "speaks"),
    [
        (119, 70, False),
        (120, 70, True),
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


@every_row(
    ("minutes", "fahrenheit", "speaks"),
    [(61, 95, True), (60, 95, True), (59, 95, False), (61, 90, False), (61, None, False), (61, 150, False)],
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
    beef = (FoodFacts("beef", "meat"),)
    assert soaked_cold(MealFacts(beef, "cold soak"), rule)
    assert not soaked_cold(MealFacts(beef, "short soak"), rule)
    assert not soaked_cold(MealFacts((FoodFacts("corn", "vegetable"),), "cold soak"), rule)


def test_bought_food_in_a_cold_soak_goes_by_its_package():
    salami = (LotFacts(FoodFacts("salami", "meat"), bought=True),)
    assert not soaked_cold(MealFacts(salami, "cold soak"), RULES["cold-soak-animal"])
    assert bought_soaked_cold(MealFacts(salami, "cold soak"), RULES["cold-soak-bought"])
    home = (LotFacts(FoodFacts("salami", "meat")),)
    assert soaked_cold(MealFacts(home, "cold soak"), RULES["cold-soak-animal"])
    assert not bought_soaked_cold(MealFacts(home, "cold soak"), RULES["cold-soak-bought"])


@every_row(("made_from", "speaks"), [("cooked", False), ("canned", False), ("fresh", True), (None, True)])
def test_beans_in_a_cold_soak_are_raw_until_a_batch_says_that_they_were_cooked(made_from, speaks):
    bean = FoodFacts("bean", "legume", frozenset({"raw_bean"}))
    rule = RULES["cold-soak-beans"]
    jar = LotFacts(bean, BatchFacts(bean, made_from=made_from))
    assert bool(soaked_cold_raw(MealFacts((jar,), "cold soak"), rule)) is speaks
    assert soaked_cold_raw(MealFacts((bean,), "cold soak"), rule)
    assert soaked_cold_raw(MealFacts((LotFacts(bean, bought=True),), "cold soak"), rule)


def test_a_height_nobody_recorded_counts_as_high():
    rule = RULES["altitude-thermometer"]
    assert high_up(MealFacts(), rule)
    assert high_up(MealFacts(altitude_m=950.0), rule) == "at 3117 ft (950 m)"
    assert not high_up(MealFacts(altitude_m=914.0), rule)


@every_row(("metres", "once"), [(None, "3 min"), (100.0, "1 min"), (1524.0, "1 min"), (1600.0, "3 min")])
def test_water_is_boiled_for_one_time_and_the_longer_where_the_height_is_unknown(metres, once):
    corn = MealFacts((FoodFacts("corn", "vegetable"),), "short soak", altitude_m=metres)
    boiled = [c.short for c in evaluate(corn, safety_rules()) if c.rule.startswith("boil-water")]
    assert boiled == [f"Boil water {once}"]


def test_water_always_goes_on():
    assert serving(MealFacts(), RULES["danger-zone"])


def test_eaten_without_a_pot_animal_food_and_mushrooms_are_a_stop_but_heated_jerky_is_not():
    rule = RULES["unheated-animal"]
    crumbles = MealFacts((FoodFacts("ground beef", "meat", frozenset({"animal", "ground"})),), "no pot")
    jerky = MealFacts((FoodFacts("beef jerky", "meat", frozenset({"animal", "jerky"})),), "no pot")
    assert eaten_unheated(crumbles, rule)
    assert not eaten_unheated(jerky, rule)
    assert not eaten_unheated(MealFacts(crumbles.parts, "short soak"), rule)
    egg = MealFacts((LotFacts(FoodFacts("egg powder", "egg"), bought=True),), "no pot")
    assert eaten_unheated(egg, rule)
    mushroom = MealFacts((FoodFacts("mushroom", "mushroom"),), "no pot")
    assert eaten_unheated(mushroom, RULES["unheated-mushroom"])


def test_bought_food_eaten_without_a_pot_goes_by_its_package():
    salami = MealFacts((LotFacts(FoodFacts("salami", "meat", frozenset({"animal"})), bought=True),), "no pot")
    assert bought_unheated(salami, RULES["unheated-bought"])
    assert not eaten_unheated(salami, RULES["unheated-animal"])
    labelled = MealFacts((LotFacts(FoodFacts("bar", "label")),), "no pot")
    assert no_pot(labelled, RULES["unheated-label"])


def test_what_is_eaten_dry_has_no_water_on_it_and_everything_else_has():
    rule = RULES["danger-zone"]
    nuts = (FoodFacts("nuts", "staple"),)
    assert not water_goes_on(MealFacts(nuts, "no pot", dry=True), rule)
    assert water_goes_on(MealFacts(nuts, "no pot"), rule)
    assert water_goes_on(MealFacts(nuts), rule)
