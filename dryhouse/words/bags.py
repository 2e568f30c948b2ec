"""What is in a bag, as its label says it: ingredients, allergens, and what only a label or nobody knows."""

from __future__ import annotations

from collections.abc import Sequence


def ingredients(names: Sequence[str]) -> str:
    """`Ingredients: lentils, squash, onion`; empty where there are none."""
    return f"Ingredients: {_listed(names)}" if names else ""


def contains(allergens: Sequence[str], labels: Sequence[str], unknown: Sequence[str]) -> str:
    """`Contains milk, wheat. Read the label of bouillon powder. What is in chili is not recorded.`"""
    said = [f"Contains {', '.join(allergens)}." if allergens else "Allergens: none known by name."]
    if labels:
        said.append(f"Read the label of {_listed(labels)}.")
    if unknown:
        said.append(f"What is in {_listed(unknown)} is not recorded.")
    return " ".join(said)


def _listed(names: Sequence[str]) -> str:
    """The names one after another; a comma inside a name would look like the next one: `oats (rolled or quick)`."""
    return ", ".join(_one(name) for name in names)


def _one(name: str) -> str:
    what, comma, kind = name.partition(", ")
    said = name if not comma or "(" in what else f"{what} ({kind})"
    return said[:1].lower() + said[1:]
