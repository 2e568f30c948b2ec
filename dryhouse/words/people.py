"""Those who go on a trip, in words: what they don't eat, and who falls ill more easily."""

from __future__ import annotations

from collections.abc import Sequence

from dryhouse.science.display import calories


def does_not_eat(name: str, what: Sequence[str], meal: str, when: str) -> str:
    """`Bow of the blue canoe does not eat turkey, which is in turkey and wild rice soup (Wed 25 Aug dinner).`"""
    return f"{_capital(name)} does not eat {', '.join(what)}, which is in {meal} ({when})."


def may_hold(name: str, what: str, parts: Sequence[str], meal: str) -> str:
    """What is in an ingredient known by its label alone is not known: it may hold what somebody avoids."""
    return (
        f"{_capital(name)} avoids {what}; what is in {', '.join(parts)} of {meal} is not recorded. Read the label."
    )


def no_such_food(name: str, word: str) -> str:
    """Nothing can be found by a word that is no food here."""
    return f"{_capital(name)} avoids {word}, which is no food or kind known here: look through every bag yourself."


def at_risk(names: Sequence[str], meal: str, when: str) -> str:
    """Of home-dried animal food whose heating is not on record, for those who fall ill more easily."""
    who, holds = _capital(" and ".join(names)), "home-dried animal food that is not known to be heated"
    return f"{who}: at risk, and {meal} ({when}) holds {holds}."


def person_words(name: str, energy: float | None, wish: float | None, *, at_least: bool = False) -> str:
    """`bow 1430 of 3600 kcal`, `bow at least 1430 kcal`, as far as known."""
    has = "energy not known" if energy is None else f"{'at least ' if at_least else ''}{calories(energy)}"
    if wish is not None:
        return f"{name} {has} of {wish:.0f} kcal"
    return f"{name} {has}{'' if energy is None else ' kcal'}"


def _capital(name: str) -> str:
    return name[:1].upper() + name[1:]
