"""What the food was packed in, and whether anything shows that it was dry and conditioned when it was."""

from __future__ import annotations

from dryhouse.science.safety.facts import LotFacts
from dryhouse.science.safety.rules import ROUNDING_C, Condition, Rule
from dryhouse.science.units import both_scales

ASKS = LotFacts


def airless_not_cold(lot: LotFacts, rule: Rule) -> str:
    """Air is shut out, and the place is warmer than the rule asks or its temperature unknown."""
    if not lot.airless or lot.bought:
        return ""
    return _warmer(lot, rule)


def dryness_unknown(lot: LotFacts, rule: Rule) -> str:
    """No weights show that a home-dried food is dry."""
    unknown = not lot.bought and lot.dry_enough is None and not lot.dry_doubted
    return "no weights show that it is dry" if unknown else ""


def dryness_in_doubt(lot: LotFacts, rule: Rule) -> str:
    """It was weighed, and it may be dry and may not; a look that found it dry answers that."""
    asked = lot.in_doubt and not lot.airless
    return "by weight it may be dry and may not" if asked else ""


def not_conditioned(lot: LotFacts, rule: Rule) -> str:
    """Home-dried fruit whose conditioning is missing or too short; leathers and mixes are not conditioned."""
    days = lot.conditioned_days
    if lot.bought or lot.food.category != "fruit" or (days is not None and days >= rule.bound):
        return ""
    return "no conditioning is recorded" if days is None else f"conditioned for {days} days"


def with_absorber(lot: LotFacts, rule: Rule) -> str:
    """Packed at home with an oxygen absorber."""
    return "packed with an oxygen absorber" if "absorber" in (lot.package or "") and not lot.bought else ""


def oil_not_cold(lot: LotFacts, rule: Rule) -> str:
    """In oil, and the place is warmer than the rule asks or its temperature unknown."""
    where = _warmer(lot, rule) if lot.in_oil else ""
    return f"packed in oil; {where}" if where else ""


def oil_cold(lot: LotFacts, rule: Rule) -> str:
    """In oil, and cold."""
    return "packed in oil" if lot.in_oil and not _warmer(lot, rule) else ""


def bought(lot: LotFacts, rule: Rule) -> str:
    """Not dried at home."""
    return "bought" if lot.bought else ""


def _warmer(lot: LotFacts, rule: Rule) -> str:
    where = lot.temperature_c
    if where is None:
        return "the temperature of its place is not known"
    return f"its place is at {both_scales(where)}" if where > rule.bound + ROUNDING_C else ""


CONDITIONS: dict[str, Condition] = {
    "airless and not cold": airless_not_cold,
    "dryness unknown": dryness_unknown,
    "dryness in doubt": dryness_in_doubt,
    "not conditioned": not_conditioned,
    "with an absorber": with_absorber,
    "in oil, not cold": oil_not_cold,
    "in oil, cold": oil_cold,
    "bought": bought,
}
