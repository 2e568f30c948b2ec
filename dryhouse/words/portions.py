"""A pot that was dried whole, serving by serving, in words."""

from __future__ import annotations


def portion_name(number: int, of: int) -> str:
    """`1 of 6`."""
    return f"{number} of {of}"


def portion_sentence(which: str, dried: str, water: str = "", energy: str = "") -> str:
    """`1 of 6: 58 g dried, about 1¼ cups of water, 410 kcal`; what is not known is left out."""
    more = [f"{dried} dried", f"about {water} of water" if water else "", energy]
    return f"{which}: {', '.join(part for part in more if part)}"


def servings_held(held: str, of: str) -> str:
    """`2 of 6 servings`."""
    return f"{held} of {of} servings"


def each_of(servings: str) -> str:
    """`6 servings, each`."""
    return "1 serving" if servings == "1" else f"{servings} servings, each"
