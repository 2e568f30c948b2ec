"""Off the dryer and not dry: what may go back on, and what is thrown out.

Food of animal origin, and anything shut away from air, that stood warm for too long or for a time nobody knows is
past saving: some toxins have no smell, no taste, and survive heat. The rest goes back on the dryer.
"""

from __future__ import annotations

from dryhouse.science.messages import Message, message
from dryhouse.science.messages import MessageKind as Why
from dryhouse.science.safety.facts import LotFacts
from dryhouse.science.safety.rules import Condition, Rule
from dryhouse.science.safety.warmth import stood_too_warm

ASKS = LotFacts


def past_saving(lot: LotFacts) -> Message | None:
    """Why this food, if it is not dry, is thrown out; None where it may go back on the dryer."""
    if not lot.airless and "animal" not in lot.kinds:
        return None
    return stood_too_warm(lot.warm_min, lot.hot_min)


def airless_thrown_out(lot: LotFacts, rule: Rule) -> Message | None:
    """Shut away from air, not dry, and it stood warm."""
    return _and_stood(Why.AIRLESS_NOT_DRY, lot) if _airless_wet(lot) else None


def airless_back(lot: LotFacts, rule: Rule) -> Message | None:
    """Shut away from air and not dry, but only just, or in the cold all the time."""
    if not _airless_wet(lot) or past_saving(lot) is not None:
        return None
    return message(Why.AIRLESS_NOT_DRY_YET)


def airless_unknown(lot: LotFacts, rule: Rule) -> Message | None:
    """Shut away from air, and neither a weight nor a look shows that it was dry."""
    shown = lot.dry_enough is not None or lot.dry_doubted or lot.found_dry
    return message(Why.AIRLESS_NOTHING_SHOWN) if lot.airless and not shown else None


def airless_in_doubt(lot: LotFacts, rule: Rule) -> Message | None:
    """Shut away from air, and it may be dry and may not."""
    asked = bool(lot.airless) and lot.in_doubt
    return message(Why.AIRLESS_IN_DOUBT) if asked else None


def not_dry_thrown_out(lot: LotFacts, rule: Rule) -> Message | None:
    """Food of animal origin, off the dryer, not dry, and it stood warm."""
    return None if lot.airless or lot.dry_enough is not False else _and_stood(Why.NOT_DRY_AND_STOOD, lot)


def not_dry_back(lot: LotFacts, rule: Rule) -> Message | None:
    """Not dry by weight, and it may go back on the dryer."""
    back = lot.dry_enough is False and not lot.airless and past_saving(lot) is None
    return message(Why.NOT_DRY) if back else None


def moist_thrown_out(lot: LotFacts, rule: Rule) -> Message | None:
    """Found moist at some look, of animal origin or shut away from air, and it stood warm."""
    return _and_stood(Why.FOUND_MOIST_AND_STOOD, lot) if lot.ever_moist else None


def moist_back(lot: LotFacts, rule: Rule) -> Message | None:
    """Found moist, not dried again since, and it may go back on the dryer."""
    return message(Why.FOUND_MOIST) if lot.moist and past_saving(lot) is None else None


def _airless_wet(lot: LotFacts) -> bool:
    return bool(lot.airless) and lot.dry_enough is False


def _and_stood(found: Why, lot: LotFacts) -> Message | None:
    stood = past_saving(lot)
    return message(found, because=stood) if stood is not None else None


CONDITIONS: dict[str, Condition] = {
    "airless, not dry, stood warm": airless_thrown_out,
    "airless, not dry, kept cold": airless_back,
    "airless and dryness unknown": airless_unknown,
    "airless and dryness in doubt": airless_in_doubt,
    "not dry, stood warm": not_dry_thrown_out,
    "not dry enough": not_dry_back,
    "found moist, stood warm": moist_thrown_out,
    "found moist": moist_back,
}
