"""Only a temperature read off a thermometer, at or above the limit, is an answer."""

from dataclasses import replace

from dryhouse.handbook.safety_table import rules_by_id
from dryhouse.kitchen.records.batches import PRECOOK_METHODS
from dryhouse.science.safety.facts import COOKED_THROUGH, BatchFacts, FoodFacts
from dryhouse.science.safety.families import precook as family
from dryhouse.science.units import to_celsius
from tests.rows import every_row
from tests.told import worded

below = worded(family.below)
dried_at_home = worded(family.dried_at_home)
finished = worded(family.finished)
implausible = worded(family.implausible)
method_no_answer = worded(family.method_no_answer)
missing = worded(family.missing)
not_cooked = worded(family.not_cooked)
not_held = worded(family.not_held)
not_identified = worded(family.not_identified)
unmeasured = worded(family.unmeasured)

TURKEY = FoodFacts("turkey", "poultry")
RULES = rules_by_id()


def heated(fahrenheit=None, measured=None, **more):
    celsius = None if fahrenheit is None else to_celsius(fahrenheit)
    return BatchFacts(TURKEY, precook_temperature_c=celsius, precook_measured=measured, **more)


@every_row(
    ("fahrenheit", "measured", "says"),
    [
        (None, None, {"missing"}),
        (None, True, {"missing"}),
        (164, True, {"below"}),
        (164, None, {"below"}),
        (164.9, True, {"below"}),
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


def test_the_reason_names_both_temperatures_in_both_scales_and_the_limit_it_names_passes():
    reason = below(heated(150, True), RULES["heat-poultry-below"])
    assert "150 °F (65.6 °C)" in reason
    assert "165 °F (73.9 °C)" in reason
    beef = replace(heated(None, True), precook_temperature_c=71.0)
    assert "159.8 °F (71 °C), below 160 °F (71.1 °C)" in below(beef, RULES["heat-meat-below"])


@every_row(
    ("celsius", "passes"),
    [(to_celsius(160), True), (71.1, True), (72.0, True), (to_celsius(159.9), False), (71.0, False), (70.0, False)],
)
def test_a_limit_is_compared_in_the_scale_it_was_published_in(celsius, passes):
    batch = BatchFacts(TURKEY, precook_temperature_c=celsius, precook_measured=True)
    assert (below(batch, RULES["heat-meat-below"]) == "") is passes


@every_row(("celsius", "passes"), [(to_celsius(165), True), (73.9, True), (73.8, False)])
def test_poultry_and_game_are_compared_with_165(celsius, passes):
    batch = BatchFacts(TURKEY, precook_temperature_c=celsius, precook_measured=True)
    for rule in ("heat-poultry-below", "heat-game-below"):
        assert (below(batch, RULES[rule]) == "") is passes


@every_row(
    ("method", "answers"),
    [
        ("simmered or steamed", True),
        ("roasted in an oven", True),
        ("in the dryer", False),
        ("bought cooked", False),
        ("none", False),
        ("other", False),
        ("steamed, I think", False),
        (None, False),
    ],
)
def test_only_steam_and_roast_count_as_cooked_before_drying(method, answers):
    batch = heated(170, True, precook_method=method)
    assert (method_no_answer(batch, RULES["heat-method"]) == "") is answers
    assert not method_no_answer(heated(precook_method=method), RULES["heat-method"])


def test_the_ways_that_count_are_ways_the_record_knows():
    assert set(PRECOOK_METHODS) >= COOKED_THROUGH


@every_row(("fahrenheit", "speaks"), [(None, False), (165, False), (212, False), (213, True), (350, True)])
def test_hotter_than_boiling_water_is_no_answer(fahrenheit, speaks):
    batch = heated(fahrenheit, True)
    assert bool(implausible(batch, RULES["heat-implausible"])) is speaks


@every_row(("minutes", "speaks"), [(None, True), (29, True), (30, False), (45, False)])
def test_fish_is_held_hot_for_thirty_minutes(minutes, speaks):
    batch = heated(165, True, precook_held_min=minutes)
    assert bool(not_held(batch, RULES["fish-held"])) is speaks


def test_an_oven_finish_is_said_and_answers_nothing():
    batch = replace(heated(), finish_temperature_c=135.0, finish_min=10.0)
    assert "275 °F (135 °C) for 10 min" in finished(batch, RULES["oven-finish"])
    assert missing(batch, RULES["heat-poultry-missing"])


def test_mushrooms_are_asked_who_knows_them():
    assert not_identified(heated(), RULES["mushroom-kind"])
    for who in ("bought", "the county mushroom society"):
        assert not not_identified(heated(identified=who), RULES["mushroom-kind"])


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
