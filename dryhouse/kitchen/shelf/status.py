"""What the shelf says of a lot: keeping, use soon, past keep-by, look first, thrown out.

*Look first* means that something is missing or was found; the reason says what. It outranks the keep-by.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from functools import lru_cache

from dryhouse.handbook.safety_table import look_first_rules, rules_by_id
from dryhouse.kitchen.calendar import day_words
from dryhouse.kitchen.records import Lot, LotCheck
from dryhouse.science.safety import LotFacts, rules_that_speak

KEEPING, USE_SOON, PAST, LOOK_FIRST, THROWN_OUT, USED_UP = (
    "keeping",
    "use soon",
    "past keep-by",
    "look first",
    "thrown out",
    "used up",
)
STANDINGS = (LOOK_FIRST, PAST, USE_SOON, KEEPING, THROWN_OUT, USED_UP)
"""In the order a person should see them."""

CONDITIONING = "condition-fruit"
"""The rule that asks for conditioning, and holds its days."""

DRYNESS = "dryness-unknown"
"""The rule that asks for weights that show it dry. For the standing, a look that found it dry answers it too."""

SOON = timedelta(days=30)
SOON_SHARE = 0.25
"""A lot is to be used soon for the last 30 days of its life, or the last quarter where that is shorter: our
own choice, so that a short life is not all warning."""
LOOKED = timedelta(days=30)
"""How long a look that found an opened lot dry counts: our own choice."""


@dataclass(frozen=True, slots=True)
class Standing:
    """The standing and, in words, why."""

    name: str
    reason: str = ""


Reasons = tuple[tuple[str, str], ...]
"""Rules by id, and why each speaks."""


@lru_cache(maxsize=20000)
def look_first_reasons(facts: LotFacts) -> Reasons:
    """The handbook's rules that would have this lot looked at first, by id, and why; none where they are silent."""
    return tuple(
        (rule.id, f"{rule.short} ({'; '.join(reasons)})")
        for rule, reasons in rules_that_speak(facts, look_first_rules()).items()
    )


def standing_of(
    lot: Lot,
    found: Reasons,
    checks: Sequence[LotCheck],
    keep_by: date | None,
    missing: str,
    on: date,
) -> Standing:
    """The standing of a lot on a day, from what the rules found and the checks by then. Something is left of it."""
    running = lot.conditioned_from is not None and lot.conditioned_to is None
    answered = {CONDITIONING} if running else set()
    if _found_dry(checks, on, lot.packed_on):
        answered.add(DRYNESS)
    said = (text for id, text in found if id not in answered)
    reasons = [*said, *_package_reasons(lot, checks, on)]
    if keep_by is None:
        reasons.append(missing or "its keep-by is not known")
    if reasons:
        past = [f"past its keep-by, {day_words(keep_by)}"] if keep_by is not None and on > keep_by else []
        return Standing(LOOK_FIRST, "; ".join((*reasons, *past)))
    assert keep_by is not None
    if on > keep_by:
        return Standing(PAST, f"kept until {day_words(keep_by)}")
    life = keep_by - lot.packed_on
    if keep_by - on <= min(SOON, life * SOON_SHARE):
        return Standing(USE_SOON, f"keeps until {day_words(keep_by)}")
    return Standing(KEEPING)


def _found_dry(checks: Sequence[LotCheck], on: date, since: date) -> date | None:
    """The last day in this stretch on which a look found it dry and without mould."""
    return max((c.on for c in checks if c.moist is False and not c.mould and since <= c.on <= on), default=None)


def _package_reasons(lot: Lot, checks: Sequence[LotCheck], on: date) -> list[str]:
    reasons = []
    found_dry = _found_dry(checks, on, date.min)

    def looked_since(day: date) -> bool:
        return found_dry is not None and found_dry >= day and on - found_dry <= LOOKED

    if lot.opened_on is not None and lot.opened_on <= on and not looked_since(lot.opened_on):
        reasons.append(f"opened on {day_words(lot.opened_on)} and not looked at since")
    unsealed = not lot.sealed or lot.package == "open container"
    if unsealed and not looked_since(lot.packed_on):
        reasons.append("not sealed")
    dried_again = lot.redried_on
    if dried_again is not None and dried_again <= on and (found_dry is None or found_dry < dried_again):
        reasons.append(f"dried again on {day_words(dried_again)} and not looked at since")
    if lot.conditioned_from is not None and lot.conditioned_to is None and lot.conditioned_from <= on:
        needed = rules_by_id()[CONDITIONING].bound
        reasons.append(f"conditioning, day {(on - lot.conditioned_from).days + 1} of {needed:.0f}")
    return reasons
