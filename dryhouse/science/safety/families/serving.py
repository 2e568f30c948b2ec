"""Water goes on: soaking, cooking, eating, and how high up that is done."""

from __future__ import annotations

from dryhouse.science.safety.facts import FoodFacts, LotFacts, MealFacts
from dryhouse.science.safety.rules import ROUNDING_C, Condition, Rule
from dryhouse.science.units import both_scales

ASKS = MealFacts
COLD_SOAK = "cold soak"


def serving(meal: MealFacts, rule: Rule) -> str:
    """Whenever food is soaked, cooked or eaten."""
    return "water goes on it"


def soaked_too_long(meal: MealFacts, rule: Rule) -> str:
    """Longer than the rule allows between its two temperatures; an unknown temperature counts as between."""
    minutes, stands_at = meal.soak_minutes, meal.soak_temperature_c
    if minutes is None or minutes <= rule.bound:
        return ""
    if stands_at is None:
        return f"it soaks for {minutes:.0f} min at a temperature not known"
    return _time_and_warmth(minutes, stands_at) if _between(stands_at, rule) else ""


def soaked_too_long_in_heat(meal: MealFacts, rule: Rule) -> str:
    """Longer than the rule allows where it is known to stand between its two temperatures."""
    minutes, stands_at = meal.soak_minutes, meal.soak_temperature_c
    if minutes is None or stands_at is None or minutes <= rule.bound:
        return ""
    return _time_and_warmth(minutes, stands_at) if _between(stands_at, rule) else ""


def soak_unknown(meal: MealFacts, rule: Rule) -> str:
    """How long or how warm it soaks is not known."""
    if meal.soak_minutes is None:
        return "how long it soaks is not recorded"
    if meal.soak_minutes > rule.bound and meal.soak_temperature_c is None:
        return "how warm it soaks is not recorded"
    return ""


def soaked_cold(meal: MealFacts, rule: Rule) -> str:
    """Something in it that was not bought, or is egg, is eaten from a cold soak, never heated; a thing known by its
    label alone counts. Bought egg is dried raw and needs cooking; other bought food goes by its package."""
    soaked = [p for p in meal.parts if rule.concerns(p.kinds) and (p in meal.home_parts or "egg" in p.kinds)]
    return "it is planned as a cold soak" if meal.cooking == COLD_SOAK and soaked else ""


def soaked_cold_raw(meal: MealFacts, rule: Rule) -> str:
    """Something that nobody has recorded as cooked or canned is eaten from a cold soak, never heated."""
    if meal.cooking != COLD_SOAK:
        return ""
    raw = [part for part in meal.parts if rule.concerns(part.kinds) and not _cooked(part)]
    return "it is planned as a cold soak" if raw else ""


def bought_soaked_cold(meal: MealFacts, rule: Rule) -> str:
    """Something bought is eaten from a cold soak, never heated."""
    bought = [p for p in meal.parts if p not in meal.home_parts and rule.concerns(p.kinds)]
    return "it is planned as a cold soak" if meal.cooking == COLD_SOAK and bought else ""


def _cooked(part: FoodFacts | LotFacts) -> bool:
    return isinstance(part, LotFacts) and part.batch is not None and part.batch.made_from in ("cooked", "canned")


def high_up(meal: MealFacts, rule: Rule) -> str:
    """Above the rule's height, or at a height nobody recorded."""
    if meal.altitude_m is None:
        return "the altitude is not known"
    return f"at {meal.altitude_m / 0.3048:.0f} ft ({meal.altitude_m:.0f} m)" if meal.altitude_m > rule.bound else ""


def low_down(meal: MealFacts, rule: Rule) -> str:
    """At the rule's height or below it, and the height is known."""
    metres = meal.altitude_m
    return "" if metres is None or metres > rule.bound else f"at {metres / 0.3048:.0f} ft ({metres:.0f} m)"


def _between(celsius: float, rule: Rule) -> bool:
    return (rule.over_c or 0.0) + ROUNDING_C < celsius < (rule.under_c or 100.0) - ROUNDING_C


def _time_and_warmth(minutes: float, celsius: float) -> str:
    return f"it soaks for {minutes:.0f} min at {both_scales(celsius)}"


CONDITIONS: dict[str, Condition] = {
    "serving": serving,
    "soaked too long": soaked_too_long,
    "soaked too long in heat": soaked_too_long_in_heat,
    "soak unknown": soak_unknown,
    "cold soak": soaked_cold,
    "cold soak, not cooked": soaked_cold_raw,
    "cold soak of bought food": bought_soaked_cold,
    "high up": high_up,
    "low down": low_down,
}
