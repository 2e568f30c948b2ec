"""Off the dryer and not dry: what may go back on, and what is thrown out.

Food of animal origin, and anything shut away from air, that stood warm for too long or for a time nobody knows is
past saving: some toxins have no smell, no taste, and survive heat. The rest goes back on the dryer.
"""

from __future__ import annotations

from dryhouse.science.safety.facts import LotFacts
from dryhouse.science.safety.rules import Condition, Rule
from dryhouse.science.safety.warmth import stood_too_warm

ASKS = LotFacts


def past_saving(lot: LotFacts) -> str:
    """Why this food, if it is not dry, is thrown out; an empty string where it may go back on the dryer."""
    if not lot.airless and "animal" not in lot.kinds:
        return ""
    return stood_too_warm(lot.warm_min, lot.hot_min)


def airless_thrown_out(lot: LotFacts, rule: Rule) -> str:
    """Shut away from air, not dry, and it stood warm."""
    return _with("packed without air, and by weight not dry enough", lot) if _airless_wet(lot) else ""


def airless_back(lot: LotFacts, rule: Rule) -> str:
    """Shut away from air and not dry, but only just, or in the cold all the time."""
    if not _airless_wet(lot) or past_saving(lot):
        return ""
    return "packed without air, and by weight not dry enough; it has stood warm for 2 hours at most"


def airless_unknown(lot: LotFacts, rule: Rule) -> str:
    """Shut away from air, and neither a weight nor a look shows that it was dry."""
    shown = lot.dry_enough is not None or lot.dry_doubted or lot.found_dry
    return "packed without air; nothing on record shows that it is dry" if lot.airless and not shown else ""


def airless_in_doubt(lot: LotFacts, rule: Rule) -> str:
    """Shut away from air, and it may be dry and may not."""
    asked = bool(lot.airless) and lot.in_doubt
    return "packed without air; by weight it may be dry and may not" if asked else ""


def not_dry_thrown_out(lot: LotFacts, rule: Rule) -> str:
    """Food of animal origin, off the dryer, not dry, and it stood warm."""
    return "" if lot.airless or lot.dry_enough is not False else _with("by weight it is not dry enough", lot)


def not_dry_back(lot: LotFacts, rule: Rule) -> str:
    """Not dry by weight, and it may go back on the dryer."""
    back = lot.dry_enough is False and not lot.airless and not past_saving(lot)
    return "by weight it is not dry enough" if back else ""


def moist_thrown_out(lot: LotFacts, rule: Rule) -> str:
    """Found moist at some look, of animal origin or shut away from air, and it stood warm."""
    return _with("found moist", lot) if lot.ever_moist else ""


def moist_back(lot: LotFacts, rule: Rule) -> str:
    """Found moist, not dried again since, and it may go back on the dryer."""
    return "found moist" if lot.moist and not past_saving(lot) else ""


def _airless_wet(lot: LotFacts) -> bool:
    return bool(lot.airless) and lot.dry_enough is False


def _with(found: str, lot: LotFacts) -> str:
    stood = past_saving(lot)
    return f"{found}; {stood}" if stood else ""


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
