"""What the shelf says of a lot, and why.

A stop whose effect is *not to be eaten* makes it *do not eat*, and then no keep-by is said. Otherwise what is
missing or was found makes it *check first*; that outranks the keep-by.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from functools import cache, lru_cache

from dryhouse.handbook.safety_table import rules_by_id, safety_rules
from dryhouse.kitchen.records import Lot, LotCheck
from dryhouse.science.safety import LotFacts, Rule, rules_that_speak
from dryhouse.science.statuses import Status
from dryhouse.words.dates import day_words
from dryhouse.words.messages import message_words

CONDITIONING = "condition-fruit"
"""The rule that asks for conditioning, and holds its days."""

DRYNESS = "dryness-unknown"
"""The rule that asks for weights that show it dry. For the status, a look that found it dry answers it too."""

SOON = timedelta(days=30)
SOON_SHARE = 0.25
"""A lot is to be used soon for the last 30 days of its life, or the last quarter where that is shorter: our
own choice, so that a short life is not all warning."""
LOOKED = timedelta(days=30)
"""How long a look that found an opened lot dry counts: our own choice."""


@dataclass(frozen=True, slots=True)
class Standing:
    """The status and, in words, why."""

    name: Status
    reason: str = ""


Reasons = tuple[tuple[str, str], ...]
"""Rules by id, and why each speaks."""


@cache
def _deciding() -> tuple[Rule, ...]:
    """The rules that decide a status: those that forbid eating, and those that ask for a look."""
    return tuple(rule for rule in safety_rules() if rule.checks_first or _forbids(rule))


def _forbids(rule: Rule) -> bool:
    return rule.severity == "stop" and rule.effect == "not to be eaten"


@lru_cache(maxsize=20000)
def status_reasons(facts: LotFacts) -> Reasons:
    """The handbook's rules that forbid this lot or ask for a look at it, by id, and why."""
    return tuple(
        (rule.id, _with_reasons(rule.short, [message_words(reason) for reason in reasons]))
        for rule, reasons in rules_that_speak(facts, _deciding()).items()
    )


def _with_reasons(short: str, reasons: Sequence[str]) -> str:
    """What a rule says in a few words, and why where that says more."""
    more = [reason for reason in reasons if reason.casefold() not in short.casefold()]
    return f"{short} ({'; '.join(more)})" if more else short


def forbidding(found: Reasons) -> list[str]:
    """Why it is not to be eaten; empty where nothing that was found forbids it."""
    known = rules_by_id()
    return [text for id, text in found if id in known and _forbids(known[id])]


def standing_of(
    lot: Lot,
    found: Reasons,
    checks: Sequence[LotCheck],
    keep_by: date | None,
    missing: str,
    on: date,
    *,
    at_least: bool = False,
) -> Standing:
    """The standing of a lot on a day, from what the rules found and the checks by then. Something is left of it.
    With `at_least` it keeps at least until its keep-by: where it stands, nothing is published for longer."""
    if forbidden := forbidding(found):
        return Standing(Status.DO_NOT_EAT, "; ".join(forbidden))
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
        return Standing(Status.CHECK_FIRST, "; ".join((*reasons, *past)))
    assert keep_by is not None
    if on > keep_by:
        return Standing(Status.PAST, _past(keep_by, at_least=at_least))
    life = keep_by - lot.packed_on
    if keep_by - on <= min(SOON, life * SOON_SHARE):
        return Standing(Status.USE_SOON, f"keeps until {day_words(keep_by)}")
    return Standing(Status.KEEPING)


def _past(keep_by: date, *, at_least: bool) -> str:
    if at_least:
        return f"keeps at least until {day_words(keep_by)}; nothing is published beyond that for a place so cool"
    return f"kept until {day_words(keep_by)}"


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
