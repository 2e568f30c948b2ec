"""Off the dryer and not dry: thrown out where it stood warm, dried on where it did not."""

from __future__ import annotations

from dryhouse.handbook.safety_table import rules_by_id, safety_rules
from dryhouse.science.safety import BatchFacts, FoodFacts, LotFacts, evaluate
from dryhouse.science.safety.families.drying import left_moist
from tests.rows import every_row

RULES = rules_by_id()
CORN, TURKEY = FoodFacts("corn", "vegetable"), FoodFacts("turkey", "poultry")
UNDRIED = {
    *("airless-not-dry", "airless-not-dry-yet", "airless-dryness-unknown", "found-moist", "found-moist-thrown-out"),
    *("not-dry-enough", "not-dry-thrown-out"),
}
JUST_NOW, TWO_HOURS, LONGER = (20.0, 0.0), (120.0, 0.0), (121.0, 0.0)
AN_HOUR_IN_HEAT, LONGER_IN_HEAT, UNKNOWN = (60.0, 60.0), (61.0, 61.0), (None, None)


def said(food, stood, **more):
    lot = LotFacts(food, BatchFacts(food), warm_min=stood[0], hot_min=stood[1], **more)
    return {c.rule for c in evaluate(lot, safety_rules())} & UNDRIED


@every_row("stood", [LONGER, LONGER_IN_HEAT, UNKNOWN])
def test_wet_food_that_stood_warm_is_thrown_out_where_it_is_animal_or_without_air(stood):
    assert said(TURKEY, stood, dry_enough=False) == {"not-dry-thrown-out"}
    assert said(TURKEY, stood, dry_enough=False, airless=True) == {"airless-not-dry"}
    assert said(CORN, stood, dry_enough=False, airless=True) == {"airless-not-dry"}
    moist = {"dry_enough": True, "moist": True, "ever_moist": True}
    assert said(TURKEY, stood, **moist) == {"found-moist-thrown-out"}
    assert said(CORN, stood, airless=True, **moist) == {"found-moist-thrown-out"}


@every_row("stood", [JUST_NOW, TWO_HOURS, AN_HOUR_IN_HEAT])
def test_what_has_only_just_come_off_or_was_kept_cold_is_dried_on(stood):
    assert said(TURKEY, stood, dry_enough=False) == {"not-dry-enough"}
    assert said(CORN, stood, dry_enough=False, airless=True) == {"airless-not-dry-yet"}
    assert said(TURKEY, stood, dry_enough=True, moist=True, ever_moist=True) == {"found-moist"}


def test_a_lidded_jar_of_plants_goes_back_to_the_dryer_however_long_it_stood():
    assert said(CORN, UNKNOWN, dry_enough=False) == {"not-dry-enough"}
    assert said(CORN, UNKNOWN, dry_enough=True, moist=True, ever_moist=True) == {"found-moist"}


def test_drying_again_answers_for_plants_and_never_for_what_was_thrown_out():
    again = {"dry_enough": True, "moist": False, "ever_moist": True}
    assert said(CORN, UNKNOWN, **again) == set()
    assert said(TURKEY, UNKNOWN, **again) == {"found-moist-thrown-out"}


def test_without_air_unknown_dryness_is_not_eaten_until_a_weight_or_a_look_answers():
    assert said(CORN, UNKNOWN, airless=True) == {"airless-dryness-unknown"}
    assert said(CORN, UNKNOWN, airless=True, moist=False) == set()
    assert said(CORN, UNKNOWN, airless=True, dry_enough=True) == set()
    assert said(CORN, UNKNOWN) == set()


def test_only_what_is_thrown_out_or_unanswered_is_not_to_be_eaten():
    thrown_out = {"airless-not-dry", "airless-dryness-unknown", "found-moist-thrown-out", "not-dry-thrown-out"}
    assert {rule for rule in UNDRIED if RULES[rule].effect == "not to be eaten"} == thrown_out


@every_row(
    ("stood", "speaks"),
    [(JUST_NOW, False), (TWO_HOURS, False), (LONGER, True), (LONGER_IN_HEAT, True), (UNKNOWN, True)],
)
def test_a_wet_batch_off_the_dryer_is_thrown_out_once_it_stood_warm(stood, speaks):
    off = BatchFacts(TURKEY, off_dryer=True, dry_enough=False, warm_min=stood[0], hot_min=stood[1])
    assert bool(left_moist(off, RULES["left-moist"])) is speaks
    on = BatchFacts(TURKEY, off_dryer=False, dry_enough=False, warm_min=stood[0], hot_min=stood[1])
    assert not left_moist(on, RULES["left-moist"])


def test_no_rule_sends_thrown_out_food_back_to_the_dryer():
    for rule in ("airless-not-dry", "found-moist-thrown-out", "not-dry-thrown-out", "left-moist"):
        text = RULES[rule].text
        assert "hrow it out" in text or "thrown out" in text
        assert "back" not in text
