"""Was the food heated through before it was dried, how far, and who says so?

Only a temperature read off a thermometer, at or above the rule's limit, is an answer.
"""

from __future__ import annotations

from dryhouse.science.safety.facts import BatchFacts
from dryhouse.science.safety.rules import ROUNDING_C, Condition, Rule
from dryhouse.science.units import both_scales

ASKS = BatchFacts


def missing(batch: BatchFacts, rule: Rule) -> str:
    """No temperature is recorded."""
    if batch.precook_temperature_c is None:
        return "no temperature reached before drying is recorded"
    return ""


def below(batch: BatchFacts, rule: Rule) -> str:
    """A temperature is recorded, and it is too low, however it was measured."""
    reached = batch.precook_temperature_c
    if reached is not None and reached < rule.bound - ROUNDING_C:
        return f"the recorded temperature is {both_scales(reached)}, below {both_scales(rule.bound)}"
    return ""


def unmeasured(batch: BatchFacts, rule: Rule) -> str:
    """A temperature high enough is recorded, but no thermometer."""
    reached = batch.precook_temperature_c
    if reached is not None and reached >= rule.bound - ROUNDING_C and batch.precook_measured is not True:
        return "the recorded temperature was not read off a thermometer"
    return ""


def method_missing(batch: BatchFacts, rule: Rule) -> str:
    """A temperature is recorded, but not how the food was heated."""
    if batch.precook_temperature_c is not None and not batch.precook_method:
        return "how the food was heated is not recorded"
    return ""


def not_cooked(batch: BatchFacts, rule: Rule) -> str:
    """Nothing says that the food went in cooked or canned."""
    if batch.made_from in ("cooked", "canned"):
        return ""
    return (
        f"recorded as made from {batch.made_from}" if batch.made_from else "what it was made from is not recorded"
    )


def dried_at_home(batch: BatchFacts, rule: Rule) -> str:
    """Dried at home, or nothing says that it was bought: a heat step would not answer the rule."""
    return f"{batch.food.name or 'this food'} dried at home"


CONDITIONS: dict[str, Condition] = {
    "precook missing": missing,
    "precook below": below,
    "precook unmeasured": unmeasured,
    "precook method missing": method_missing,
    "not cooked first": not_cooked,
    "dried at home": dried_at_home,
}
