"""The place, and what a look found."""

from dryhouse.handbook.safety_table import rules_by_id
from dryhouse.science.safety.facts import BatchFacts, FoodFacts, LotFacts
from dryhouse.science.safety.families import storage as family
from dryhouse.science.units import to_celsius
from tests.rows import every_row
from tests.told import worded

mould = worded(family.mould)
not_cold = worded(family.not_cold)
opened = worded(family.opened)
pasteurised = worded(family.pasteurised)
smell = worded(family.smell)
unchecked = worded(family.unchecked)
warmer = worded(family.warmer)

RULES = rules_by_id()
COD = FoodFacts("cod", "fish")


def lot(*, home=True, **more):
    return LotFacts(COD, BatchFacts(COD) if home else None, bought=not home, **more)


@every_row(("finding", "condition"), [("mould", mould), ("smell", smell), ("pasteurised", pasteurised)])
def test_a_finding_speaks_when_it_was_found_and_only_then(finding, condition):
    rule = RULES["mould-seen"]
    assert condition(lot(**{finding: True}), rule)
    assert not condition(lot(**{finding: False}), rule)
    assert not condition(lot(**{finding: None}), rule)


@every_row(("fahrenheit", "speaks"), [(None, True), (70, True), (41, True), (40, False), (0, False)])
def test_fish_is_not_cold_where_it_is_warm_or_nobody_knows(fahrenheit, speaks):
    celsius = None if fahrenheit is None else to_celsius(fahrenheit)
    assert bool(not_cold(lot(temperature_c=celsius), RULES["fish-not-cold"])) is speaks
    assert not not_cold(lot(home=False, temperature_c=celsius), RULES["fish-not-cold"])


def test_a_place_is_called_warm_only_where_it_is_known_to_be():
    assert warmer(lot(temperature_c=to_celsius(71)), RULES["place-warm"]) == "its place is at 71 °F (22 °C)"
    assert not warmer(lot(temperature_c=to_celsius(70)), RULES["place-warm"])
    assert not warmer(lot(), RULES["place-warm"])


def test_opened_and_never_sealed_are_told_apart():
    assert opened(lot(opened=True, sealed=True), RULES["opened"]) == "opened"
    assert opened(lot(sealed=False), RULES["opened"]) == "not sealed"
    assert opened(lot(sealed=True), RULES["opened"]) == ""


def test_a_jar_nobody_looked_at_says_so_a_bought_bag_does_not():
    assert unchecked(lot(), RULES["look-in-a-week"])
    assert not unchecked(lot(checked=True), RULES["look-in-a-week"])
    assert not unchecked(lot(home=False), RULES["look-in-a-week"])


def test_every_condition_of_the_family_is_asked_by_a_rule():
    assert set(family.CONDITIONS) <= {rule.when for rule in RULES.values()}
