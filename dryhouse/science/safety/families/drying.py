"""How the food was dried."""

from __future__ import annotations

from dryhouse.science.safety.facts import BatchFacts
from dryhouse.science.safety.rules import ROUNDING_C, Condition, Rule
from dryhouse.science.safety.warmth import stood_too_warm
from dryhouse.science.units import both_scales

ASKS = BatchFacts
_ROUNDING_MM = 0.05


def air_cooler(batch: BatchFacts, rule: Rule) -> str:
    """The dryer was set cooler than the rule asks."""
    air = batch.set_temperature_c
    cooler = air is not None and air < rule.bound - ROUNDING_C
    return f"the dryer was set to {both_scales(air)}" if cooler and air is not None else ""


def thicker(batch: BatchFacts, rule: Rule) -> str:
    """The pieces were thicker than the rule asks."""
    mm = batch.thickness_mm
    return f"the pieces are {mm:.0f} mm thick" if mm is not None and mm > rule.bound + _ROUNDING_MM else ""


def sulfited(batch: BatchFacts, rule: Rule) -> str:
    """The food was treated with sulfite or sulfur."""
    named = (batch.pretreatment or "").casefold()
    return "a sulfite or sulfur pretreatment is recorded" if "sulf" in named or "sulph" in named else ""


def left_moist(batch: BatchFacts, rule: Rule) -> str:
    """Off the dryer, not packed, not dry by weight, and it stood warm too long or for a time nobody knows."""
    if not batch.off_dryer or batch.dry_enough is not False:
        return ""
    stood = stood_too_warm(batch.warm_min, batch.hot_min)
    return f"by weight it is not dry enough; off the dryer, {stood}" if stood else ""


def left_in_doubt(batch: BatchFacts, rule: Rule) -> str:
    """Off the dryer, not packed, and by weight it may be dry and may not."""
    doubt = batch.off_dryer and batch.dry_enough is None and batch.dry_doubted
    return "off the dryer; by weight it may be dry and may not" if doubt else ""


CONDITIONS: dict[str, Condition] = {
    "dryer air below": air_cooler,
    "pieces thicker": thicker,
    "sulfited": sulfited,
    "left moist": left_moist,
    "off the dryer in doubt": left_in_doubt,
}
