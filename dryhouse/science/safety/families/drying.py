"""How the food was dried."""

from __future__ import annotations

from dryhouse.science.messages import Message, message
from dryhouse.science.messages import MessageKind as Why
from dryhouse.science.safety.facts import BatchFacts
from dryhouse.science.safety.rules import ROUNDING_C, Condition, Rule
from dryhouse.science.safety.warmth import stood_too_warm

ASKS = BatchFacts
_ROUNDING_MM = 0.05


def air_cooler(batch: BatchFacts, rule: Rule) -> Message | None:
    """The dryer was set cooler than the rule asks."""
    air = batch.set_temperature_c
    cooler = air is not None and air < rule.bound - ROUNDING_C
    return message(Why.DRYER_SET_TO, heat=(air, "degC")) if cooler and air is not None else None


def thicker(batch: BatchFacts, rule: Rule) -> Message | None:
    """The pieces were thicker than the rule asks."""
    mm = batch.thickness_mm
    thick = mm is not None and mm > rule.bound + _ROUNDING_MM
    return message(Why.PIECES_THICK, thick=(mm, "mm")) if thick and mm is not None else None


def sulfited(batch: BatchFacts, rule: Rule) -> Message | None:
    """The food was treated with sulfite or sulfur."""
    named = (batch.pretreatment or "").casefold()
    return message(Why.SULFITED) if "sulf" in named or "sulph" in named else None


def left_moist(batch: BatchFacts, rule: Rule) -> Message | None:
    """Off the dryer, not packed, not dry by weight, and it stood warm too long or for a time nobody knows."""
    if not batch.off_dryer or batch.dry_enough is not False:
        return None
    stood = stood_too_warm(batch.warm_min, batch.hot_min)
    return message(Why.OFF_NOT_DRY, because=stood) if stood is not None else None


def left_in_doubt(batch: BatchFacts, rule: Rule) -> Message | None:
    """Off the dryer, not packed, and by weight it may or may not be dry."""
    doubt = batch.off_dryer and batch.dry_enough is None and batch.dry_doubted
    return message(Why.OFF_IN_DOUBT) if doubt else None


CONDITIONS: dict[str, Condition] = {
    "dryer air below": air_cooler,
    "pieces thicker": thicker,
    "sulfited": sulfited,
    "left moist": left_moist,
    "off the dryer in doubt": left_in_doubt,
}
