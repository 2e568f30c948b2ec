"""A person's own foods, and her own figures in place of the handbook's."""

from __future__ import annotations

from dataclasses import dataclass

PLANT, MEAT, POULTRY, FISH, EGG, MILK, UNKNOWN = "plant", "meat", "poultry", "fish", "egg", "milk", "unknown"
CONTENTS = (PLANT, MEAT, POULTRY, FISH, EGG, MILK, UNKNOWN)
"""What may be in an own food. Only `plant` by itself says that nothing of an animal is in it."""


@dataclass(frozen=True, slots=True)
class OwnFood:
    """A food the handbook does not know. Its figures are `OwnFigure` rows of the same slug."""

    slug: str
    name: str
    category: str
    other_names: str = ""
    """Separated by semicolons."""
    like: str = ""
    """Slug of a handbook food whose cautions and drying figures also apply, if she named one."""
    contains: str = ""
    """What is in it, of `CONTENTS`, separated by semicolons. Empty: nobody has said, and then it is treated as
    food of animal origin."""
    id: int = 0


@dataclass(frozen=True, slots=True)
class OwnFigure:
    """One figure entered for a food, by the name the handbook uses (`water`, `energy`, …)."""

    food: str
    name: str
    value: float
    unit: str
    typed: str = ""
    note: str = ""
    id: int = 0
