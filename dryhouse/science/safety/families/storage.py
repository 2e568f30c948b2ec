"""Where the food stands, and what was found when someone looked."""

from __future__ import annotations

from dryhouse.science.safety.facts import LotFacts
from dryhouse.science.safety.rules import ROUNDING_C, Condition, Rule
from dryhouse.science.units import both_scales

ASKS = LotFacts


def mould(lot: LotFacts, rule: Rule) -> str:
    """Mould was seen."""
    return "mould was seen" if lot.mould else ""


def smell(lot: LotFacts, rule: Rule) -> str:
    """An odd smell was noted."""
    return "an odd smell was noted" if lot.smell else ""


def unchecked(lot: LotFacts, rule: Rule) -> str:
    """Nobody has looked at it since it was packed."""
    return "no check is recorded" if lot.checked is not True and not lot.bought else ""


def warmer(lot: LotFacts, rule: Rule) -> str:
    """The place is known to be warmer than the rule asks."""
    where = lot.temperature_c
    above = where is not None and where > rule.bound + ROUNDING_C
    return f"its place is at {both_scales(where)}" if above and where is not None else ""


def not_cold(lot: LotFacts, rule: Rule) -> str:
    """Home-dried food in a place that is warmer than the rule asks, or whose temperature is unknown."""
    if lot.bought:
        return ""
    return "the temperature of its place is not known" if lot.temperature_c is None else warmer(lot, rule)


def opened(lot: LotFacts, rule: Rule) -> str:
    """Opened, or never sealed."""
    return "opened" if lot.opened else "not sealed" if lot.sealed is False else ""


def pasteurised(lot: LotFacts, rule: Rule) -> str:
    """Treated against insects after drying."""
    return "a treatment against insects is recorded" if lot.pasteurised else ""


CONDITIONS: dict[str, Condition] = {
    "mould seen": mould,
    "odd smell": smell,
    "not checked": unchecked,
    "place warmer": warmer,
    "not cold": not_cold,
    "opened or unsealed": opened,
    "pasteurised": pasteurised,
}
