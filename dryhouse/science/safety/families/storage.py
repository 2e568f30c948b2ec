"""Where the food stands, and what was found when someone looked."""

from __future__ import annotations

from dryhouse.science.messages import Message, message
from dryhouse.science.messages import MessageKind as Why
from dryhouse.science.safety.facts import LotFacts
from dryhouse.science.safety.rules import ROUNDING_C, Condition, Rule

ASKS = LotFacts


def mould(lot: LotFacts, rule: Rule) -> Message | None:
    """Mould was seen."""
    return message(Why.MOULD_SEEN) if lot.mould else None


def smell(lot: LotFacts, rule: Rule) -> Message | None:
    """An odd smell was noted."""
    return message(Why.ODD_SMELL) if lot.smell else None


def unchecked(lot: LotFacts, rule: Rule) -> Message | None:
    """Nobody has looked at it since it was packed."""
    return message(Why.NOT_CHECKED) if lot.checked is not True and not lot.bought else None


def warmer(lot: LotFacts, rule: Rule) -> Message | None:
    """The place is known to be warmer than the rule asks."""
    where = lot.temperature_c
    above = where is not None and where > rule.bound + ROUNDING_C
    return message(Why.PLACE_AT, at=(where, "degC")) if above and where is not None else None


def not_cold(lot: LotFacts, rule: Rule) -> Message | None:
    """Home-dried food in a place that is warmer than the rule asks, or whose temperature is unknown."""
    if lot.bought:
        return None
    return message(Why.PLACE_UNKNOWN) if lot.temperature_c is None else warmer(lot, rule)


def opened(lot: LotFacts, rule: Rule) -> Message | None:
    """Opened, or never sealed."""
    if lot.opened:
        return message(Why.OPENED)
    return message(Why.NOT_SEALED) if lot.sealed is False else None


def pasteurised(lot: LotFacts, rule: Rule) -> Message | None:
    """Treated against insects after drying."""
    return message(Why.TREATED_FOR_INSECTS) if lot.pasteurised else None


CONDITIONS: dict[str, Condition] = {
    "mould seen": mould,
    "odd smell": smell,
    "not checked": unchecked,
    "place warmer": warmer,
    "not cold": not_cold,
    "opened or unsealed": opened,
    "pasteurised": pasteurised,
}
