"""Water goes on: soaking, cooking, eating, and how high up that is done."""

from __future__ import annotations

from dryhouse.science.messages import Message, message
from dryhouse.science.messages import MessageKind as Why
from dryhouse.science.safety.facts import FoodFacts, LotFacts, MealFacts
from dryhouse.science.safety.rules import ROUNDING_C, Condition, Rule

ASKS = MealFacts
COLD_SOAK, NO_POT = "cold soak", "no pot"


def serving(meal: MealFacts, rule: Rule) -> Message | None:
    """Whenever food is soaked, cooked or eaten."""
    return message(Why.WATER_GOES_ON)


def water_goes_on(meal: MealFacts, rule: Rule) -> Message | None:
    """Whenever water goes on food; only what is known to be eaten dry is left out."""
    return None if meal.dry else message(Why.WATER_GOES_ON)


def soaked_too_long(meal: MealFacts, rule: Rule) -> Message | None:
    """All the time the rule allows or more, so that none is left to eat in, between its two temperatures; an
    unknown temperature counts as between."""
    minutes, stands_at = meal.soak_minutes, meal.soak_temperature_c
    if minutes is None or minutes < rule.bound:
        return None
    if stands_at is None:
        return message(Why.SOAKS_UNKNOWN_WARMTH, minutes=(minutes, "min"))
    return _time_and_warmth(minutes, stands_at) if _between(stands_at, rule) else None


def soaked_too_long_in_heat(meal: MealFacts, rule: Rule) -> Message | None:
    """All the time the rule allows or more, where it is known to stand between its two temperatures."""
    minutes, stands_at = meal.soak_minutes, meal.soak_temperature_c
    if minutes is None or stands_at is None or minutes < rule.bound:
        return None
    return _time_and_warmth(minutes, stands_at) if _between(stands_at, rule) else None


def soak_unknown(meal: MealFacts, rule: Rule) -> Message | None:
    """How long or how warm it soaks is not known."""
    if meal.soak_minutes is None:
        return message(Why.SOAK_TIME_UNKNOWN)
    if meal.soak_minutes > rule.bound and meal.soak_temperature_c is None:
        return message(Why.SOAK_WARMTH_UNKNOWN)
    return None


def soaked_cold(meal: MealFacts, rule: Rule) -> Message | None:
    """Something in it that was not bought, or is egg, is eaten from a cold soak, never heated; a thing known by its
    label alone counts. Bought egg is dried raw and needs cooking; other bought food goes by its package."""
    soaked = [p for p in meal.parts if rule.concerns(p.kinds) and (p in meal.home_parts or "egg" in p.kinds)]
    return message(Why.COLD_SOAK) if meal.cooking == COLD_SOAK and soaked else None


def soaked_cold_raw(meal: MealFacts, rule: Rule) -> Message | None:
    """Something that nobody has recorded as cooked or canned is eaten from a cold soak or without a pot, never
    heated."""
    if meal.cooking not in (COLD_SOAK, NO_POT):
        return None
    raw = [part for part in meal.parts if rule.concerns(part.kinds) and not _cooked(part)]
    return message(_why(meal)) if raw else None


def bought_soaked_cold(meal: MealFacts, rule: Rule) -> Message | None:
    """Something bought is eaten from a cold soak, never heated."""
    bought = [p for p in meal.parts if p not in meal.home_parts and rule.concerns(p.kinds)]
    return message(Why.COLD_SOAK) if meal.cooking == COLD_SOAK and bought else None


def eaten_unheated(meal: MealFacts, rule: Rule) -> Message | None:
    """Something in it that was not bought, or is egg, is eaten without a pot; jerky alone is made for that, and its
    own heating is asked for elsewhere."""
    eaten = [p for p in meal.parts if rule.concerns(p.kinds) and (p in meal.home_parts or "egg" in p.kinds)]
    if meal.cooking != NO_POT or all("jerky" in p.kinds for p in eaten):
        return None
    return message(Why.NO_POT)


def no_pot(meal: MealFacts, rule: Rule) -> Message | None:
    """Something the rule is about is eaten without a pot."""
    eaten = any(rule.concerns(part.kinds) for part in meal.parts)
    return message(Why.NO_POT) if meal.cooking == NO_POT and eaten else None


def bought_unheated(meal: MealFacts, rule: Rule) -> Message | None:
    """Something bought is eaten without a pot, never heated."""
    bought = [p for p in meal.parts if p not in meal.home_parts and rule.concerns(p.kinds)]
    return message(Why.NO_POT) if meal.cooking == NO_POT and bought else None


def _why(meal: MealFacts) -> Why:
    return Why.COLD_SOAK if meal.cooking == COLD_SOAK else Why.NO_POT


def _cooked(part: FoodFacts | LotFacts) -> bool:
    return isinstance(part, LotFacts) and part.batch is not None and part.batch.made_from in ("cooked", "canned")


def high_up(meal: MealFacts, rule: Rule) -> Message | None:
    """Above the rule's height, or at a height nobody recorded; where no water goes on, none is boiled."""
    if meal.dry:
        return None
    if meal.altitude_m is None:
        return message(Why.ALTITUDE_UNKNOWN)
    return message(Why.AT_ALTITUDE, up=(meal.altitude_m, "m")) if meal.altitude_m > rule.bound else None


def low_down(meal: MealFacts, rule: Rule) -> Message | None:
    """At the rule's height or below it, and the height is known."""
    metres = meal.altitude_m
    return None if meal.dry or metres is None or metres > rule.bound else message(Why.AT_ALTITUDE, up=(metres, "m"))


def _between(celsius: float, rule: Rule) -> bool:
    return (rule.over_c or 0.0) + ROUNDING_C < celsius < (rule.under_c or 100.0) - ROUNDING_C


def _time_and_warmth(minutes: float, celsius: float) -> Message | None:
    return message(Why.SOAKS, minutes=(minutes, "min"), at=(celsius, "degC"))


CONDITIONS: dict[str, Condition] = {
    "serving": serving,
    "water goes on": water_goes_on,
    "soaked too long": soaked_too_long,
    "soaked too long in heat": soaked_too_long_in_heat,
    "soak unknown": soak_unknown,
    "cold soak": soaked_cold,
    "cold soak, not cooked": soaked_cold_raw,
    "cold soak of bought food": bought_soaked_cold,
    "eaten unheated": eaten_unheated,
    "no pot": no_pot,
    "bought and eaten unheated": bought_unheated,
    "high up": high_up,
    "low down": low_down,
}
