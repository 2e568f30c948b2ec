"""Was the food heated through before it was dried, how, how far, for how long, and who says so?

Only a temperature read off a thermometer, at or above the rule's limit, reached by a way of heating that counts, is
an answer. What an oven did after drying answers nothing.
"""

from __future__ import annotations

from dryhouse.science.messages import Message, message
from dryhouse.science.messages import MessageKind as Why
from dryhouse.science.safety.facts import COOKED_THROUGH, BatchFacts
from dryhouse.science.safety.rules import ROUNDING_C, Condition, Rule

ASKS = BatchFacts
BOILING_C = 100.0
"""Wet food gets no hotter inside than boiling water at sea level, 212 °F."""


def missing(batch: BatchFacts, rule: Rule) -> Message | None:
    """No temperature is recorded."""
    if batch.precook_temperature_c is None:
        return message(Why.NOT_HEATED)
    return None


def below(batch: BatchFacts, rule: Rule) -> Message | None:
    """A temperature is recorded, and it is too low, however it was measured."""
    reached = batch.precook_temperature_c
    if reached is not None and reached < rule.bound - ROUNDING_C:
        return message(Why.HEATED_BELOW, reached=(reached, "degC"), asked=(rule.bound, "degC"))
    return None


def unmeasured(batch: BatchFacts, rule: Rule) -> Message | None:
    """A temperature high enough is recorded, but no thermometer."""
    if _high_enough(batch, rule.bound) and batch.precook_measured is not True:
        return message(Why.NO_THERMOMETER)
    return None


def implausible(batch: BatchFacts, rule: Rule) -> Message | None:
    """The temperature recorded is hotter than boiling water: it is not that of the food."""
    reached = batch.precook_temperature_c
    if reached is not None and reached > rule.bound + ROUNDING_C:
        return message(Why.HOTTER_THAN_BOILING, reached=(reached, "degC"))
    return None


def method_no_answer(batch: BatchFacts, rule: Rule) -> Message | None:
    """A temperature is recorded, and how the food was heated does not count as cooking it, or nobody said."""
    if batch.precook_temperature_c is None or batch.precook_method in COOKED_THROUGH:
        return None
    said = batch.precook_method
    return message(Why.HEATED_HOW, how=said) if said else message(Why.HEATED_HOW_UNKNOWN)


def not_held(batch: BatchFacts, rule: Rule) -> Message | None:
    """Hot enough, but not as long as the rule asks, or nobody said how long."""
    if batch.precook_temperature_c is None:
        return None
    held = batch.precook_held_min
    if held is None:
        return message(Why.HELD_UNKNOWN)
    return message(Why.HELD_SHORT, minutes=(held, "min")) if held < rule.bound - 1e-9 else None


def finished(batch: BatchFacts, rule: Rule) -> Message | None:
    """What an oven did after drying, and that it is no answer."""
    if batch.finish_temperature_c is None:
        return None
    heat = (batch.finish_temperature_c, "degC")
    if batch.finish_min is None:
        return message(Why.OVEN_AFTERWARDS, heat=heat)
    return message(Why.OVEN_AFTERWARDS_FOR, heat=heat, minutes=(batch.finish_min, "min"))


def not_cooked(batch: BatchFacts, rule: Rule) -> Message | None:
    """Nothing says that the food went in cooked or canned."""
    if batch.made_from in ("cooked", "canned"):
        return None
    return message(Why.MADE_FROM, what=batch.made_from) if batch.made_from else message(Why.MADE_FROM_UNKNOWN)


def dried_at_home(batch: BatchFacts, rule: Rule) -> Message | None:
    """Dried at home, or nothing says that it was bought: a heat step would not answer the rule."""
    return message(Why.DRIED_AT_HOME, food=batch.food.name or Why.THIS_FOOD)


def not_identified(batch: BatchFacts, rule: Rule) -> Message | None:
    """Nothing says who knows these mushrooms."""
    return None if batch.identified else message(Why.NOT_IDENTIFIED)


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
