"""What the food was packed in, and whether anything shows that it was dry and conditioned when it was."""

from __future__ import annotations

from dryhouse.science.messages import Message, message
from dryhouse.science.messages import MessageKind as Why
from dryhouse.science.safety.facts import LotFacts
from dryhouse.science.safety.rules import ROUNDING_C, Condition, Rule

ASKS = LotFacts


def airless_not_cold(lot: LotFacts, rule: Rule) -> Message | None:
    """Air is shut out, and the place is warmer than the rule asks or its temperature unknown."""
    if not lot.airless or lot.bought:
        return None
    return _warmer(lot, rule)


def dryness_unknown(lot: LotFacts, rule: Rule) -> Message | None:
    """No weights show that a home-dried food is dry."""
    unknown = not lot.bought and lot.dry_enough is None and not lot.dry_doubted
    return message(Why.DRYNESS_UNKNOWN) if unknown else None


def dryness_in_doubt(lot: LotFacts, rule: Rule) -> Message | None:
    """It was weighed, and it may be dry and may not; a look that found it dry answers that."""
    asked = lot.in_doubt and not lot.airless
    return message(Why.DRYNESS_IN_DOUBT) if asked else None


def not_conditioned(lot: LotFacts, rule: Rule) -> Message | None:
    """Home-dried fruit whose conditioning is missing or too short; leathers and mixes are not conditioned."""
    days = lot.conditioned_days
    if lot.bought or lot.food.category != "fruit" or (days is not None and days >= rule.bound):
        return None
    return message(Why.NOT_CONDITIONED) if days is None else message(Why.CONDITIONED_SHORT, days=days)


def with_absorber(lot: LotFacts, rule: Rule) -> Message | None:
    """Packed at home with an oxygen absorber."""
    absorbed = "absorber" in (lot.package or "") and not lot.bought
    return message(Why.WITH_ABSORBER) if absorbed else None


def oil_not_cold(lot: LotFacts, rule: Rule) -> Message | None:
    """In oil, and the place is warmer than the rule asks or its temperature unknown."""
    where = _warmer(lot, rule) if lot.in_oil else None
    return message(Why.IN_OIL_NOT_COLD, because=where) if where is not None else None


def oil_cold(lot: LotFacts, rule: Rule) -> Message | None:
    """In oil, and cold."""
    return message(Why.IN_OIL) if lot.in_oil and not _warmer(lot, rule) else None


def bought(lot: LotFacts, rule: Rule) -> Message | None:
    """Not dried at home."""
    return message(Why.BOUGHT) if lot.bought else None


def _warmer(lot: LotFacts, rule: Rule) -> Message | None:
    where = lot.temperature_c
    if where is None:
        return message(Why.PLACE_UNKNOWN)
    return message(Why.PLACE_AT, at=(where, "degC")) if where > rule.bound + ROUNDING_C else None


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
