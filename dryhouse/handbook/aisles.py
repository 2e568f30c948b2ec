"""The aisles of a shop, and by what steps each sells: practice, with no source."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from dryhouse.handbook.reading import read
from dryhouse.handbook.staples import KINDS
from dryhouse.handbook.tables import CATEGORIES
from dryhouse.science.units import SIZES

FROZEN, CANNED, DRIED = "frozen", "canned", "dried"


@dataclass(frozen=True, slots=True)
class Aisle:
    """One aisle: what it holds, and the step (g) its food is sold by, where pounds are used and where grams are."""

    name: str
    holds: tuple[str, ...]
    us_step: float
    metric_step: float


@cache
def aisles() -> tuple[Aisle, ...]:
    """Every aisle, in the order one walks by."""
    found = []
    for row in read("aisles", ("aisle", "holds", "pounds", "grams", "source", "note"), key=("aisle",)):
        holds = row.names("holds")
        if strange := set(holds) - set(CATEGORIES) - KINDS - {FROZEN, CANNED, DRIED}:
            raise row.fault(f"nothing is {', '.join(sorted(strange))}")
        found.append(Aisle(row.text("aisle"), holds, row.required("pounds") * SIZES["lb"], row.required("grams")))
    return tuple(found)


def aisle_of(kind: str) -> Aisle:
    """Where a kind of food stands: a category of foods, a kind of staple, or frozen, canned or dried."""
    return next((aisle for aisle in aisles() if kind in aisle.holds), aisles()[-1])
