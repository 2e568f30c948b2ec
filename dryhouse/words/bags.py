"""What is in a bag, as its label says it: ingredients, allergens, and what only a label or nobody knows."""

from __future__ import annotations

from collections.abc import Sequence


def ingredients(names: Sequence[str]) -> str:
    """`Ingredients: lentils, squash, onion`; empty where there are none."""
    return f"Ingredients: {', '.join(names)}" if names else ""


def contains(allergens: Sequence[str], labels: Sequence[str], unknown: Sequence[str]) -> str:
    """`Contains milk, wheat. Read the label of bouillon powder. What is in chili is not recorded.`"""
    said = [f"Contains {', '.join(allergens)}." if allergens else "Allergens: none known by name."]
    if labels:
        said.append(f"Read the label of {', '.join(labels)}.")
    if unknown:
        said.append(f"What is in {', '.join(unknown)} is not recorded.")
    return " ".join(said)
