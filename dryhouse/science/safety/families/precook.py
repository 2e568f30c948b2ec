"""Was the food heated through before it was dried, how, how far, for how long, and who says so?

Only a temperature read off a thermometer, at or above the rule's limit, reached by a way of heating that counts, is
an answer. What an oven did after drying answers nothing.
"""

from __future__ import annotations

from dryhouse.science.safety.facts import COOKED_THROUGH, BatchFacts
from dryhouse.science.safety.rules import ROUNDING_C, Condition, Rule
from dryhouse.science.units import both_scales_exactly

ASKS = BatchFacts
BOILING_C = 100.0
"""Wet food gets no hotter inside than boiling water at sea level, 212 °F."""


def missing(batch: BatchFacts, rule: Rule) -> str:
    """No temperature is recorded."""
    if batch.precook_temperature_c is None:
        return "no temperature reached before drying is recorded"
    return ""


def below(batch: BatchFacts, rule: Rule) -> str:
    """A temperature is recorded, and it is too low, however it was measured."""
    reached = batch.precook_temperature_c
    if reached is not None and reached < rule.bound - ROUNDING_C:
        asked = both_scales_exactly(rule.bound)
        return f"the recorded temperature is {both_scales_exactly(reached)}, below {asked}"
    return ""


def unmeasured(batch: BatchFacts, rule: Rule) -> str:
    """A temperature high enough is recorded, but no thermometer."""
    if _high_enough(batch, rule.bound) and batch.precook_measured is not True:
        return "the recorded temperature was not read off a thermometer"
    return ""


def implausible(batch: BatchFacts, rule: Rule) -> str:
    """The temperature recorded is hotter than boiling water: it is not that of the food."""
    reached = batch.precook_temperature_c
    if reached is not None and reached > rule.bound + ROUNDING_C:
        return f"the recorded temperature is {both_scales_exactly(reached)}, hotter than boiling water"
    return ""


def method_no_answer(batch: BatchFacts, rule: Rule) -> str:
    """A temperature is recorded, and how the food was heated does not count as cooking it, or nobody said."""
    if batch.precook_temperature_c is None or batch.precook_method in COOKED_THROUGH:
        return ""
    said = batch.precook_method
    return f"recorded as heated: {said}" if said else "how the food was heated is not recorded"


def not_held(batch: BatchFacts, rule: Rule) -> str:
    """Hot enough, but not as long as the rule asks, or nobody said how long."""
    if batch.precook_temperature_c is None:
        return ""
    held = batch.precook_held_min
    if held is None:
        return "how long it was held at that temperature is not recorded"
    return f"held for {held:g} min" if held < rule.bound - 1e-9 else ""


def finished(batch: BatchFacts, rule: Rule) -> str:
    """What an oven did after drying, and that it is no answer."""
    if batch.finish_temperature_c is None:
        return ""
    minutes = "" if batch.finish_min is None else f" for {batch.finish_min:g} min"
    return f"after drying, {both_scales_exactly(batch.finish_temperature_c)}{minutes} in an oven is recorded"


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


def not_identified(batch: BatchFacts, rule: Rule) -> str:
    """Nothing says who knows these mushrooms."""
    return "" if batch.identified else "nobody is recorded as having identified them, nor that they were bought"


def _high_enough(batch: BatchFacts, limit_c: float) -> bool:
    reached = batch.precook_temperature_c
    return reached is not None and limit_c - ROUNDING_C <= reached <= BOILING_C + ROUNDING_C


CONDITIONS: dict[str, Condition] = {
    "precook missing": missing,
    "precook below": below,
    "precook unmeasured": unmeasured,
    "precook implausible": implausible,
    "precook method no answer": method_no_answer,
    "precook not held": not_held,
    "finished in an oven": finished,
    "not cooked first": not_cooked,
    "dried at home": dried_at_home,
    "not identified": not_identified,
}
