"""What the ingredients of a meal ask of the shelf, and what a lot on it gives."""

from __future__ import annotations

from dryhouse.handbook.staples import staples
from dryhouse.kitchen.cautions.cautions import is_bought
from dryhouse.kitchen.records import Lot, MealPart

_STAPLE = "staple:"


def part_key(part: MealPart) -> str:
    """What an ingredient asks of the shelf: its food, or a staple of the pantry, which may be called like a food
    that is dried cooked."""
    return f"{_STAPLE}{part.staple}" if part.staple else part.food


def lot_key(lot: Lot) -> str:
    """What a lot gives: its food, or the staple it was bought as."""
    return f"{_STAPLE}{lot.food}" if is_bought(lot) and lot.food in staples() else lot.food


def is_staple(key: str) -> bool:
    """Whether it is a staple of the pantry that is asked for."""
    return key.startswith(_STAPLE)


def slug_of(key: str) -> str:
    """The slug of the food or the staple."""
    return key.removeprefix(_STAPLE)
