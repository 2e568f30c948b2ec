"""How long food takes to come back, by food, by the size of its pieces and by the way it is cooked.

A row answers for a food, for a kind of food (`any vegetable`) or for `any food`; of the size of its pieces (`fine`,
`small`, `large`) or of every size. The food's own rows answer before those of its kind; a row for the size before
one for every size. Rows of size `bought` speak of staples, by their slug.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from types import MappingProxyType

from dryhouse.handbook.foods import load_foods
from dryhouse.handbook.reading import read
from dryhouse.handbook.staples import staples
from dryhouse.handbook.tables import CATEGORIES, Food
from dryhouse.science.values import Fact

FINE, SMALL, LARGE, BOUGHT = "fine", "small", "large", "bought"
SIZES = (FINE, SMALL, LARGE)
_WAYS = frozenset({"no soak", "short soak", "boil and rest", "cold soak"})
_COLUMNS = ("about", "size", "way", "soak", "cook", "note", "source", "how")


@dataclass(frozen=True, slots=True)
class Softening:
    """Minutes in water before the flame, and over it (or standing, where the pot is taken off)."""

    soak: Fact
    cook: Fact


@cache
def softenings() -> Mapping[tuple[str, str, str], Softening]:
    """Every row by what it is about, the size of the pieces (empty for every size) and the way."""
    kinds = {"any food", *(f"any {category}" for category in CATEGORIES)}
    found: dict[tuple[str, str, str], Softening] = {}
    for row in read("softening", _COLUMNS):
        size, way = row.text("size"), row.text("way")
        known = staples() if size == BOUGHT else load_foods()
        if size not in ("", BOUGHT, *SIZES) or way not in _WAYS:
            raise row.fault(f"“{size}”, “{way}”")
        for about in row.names("about"):
            if (about, size, way) in found or (about not in known and (about not in kinds or size == BOUGHT)):
                raise row.fault(f"“{about}” stands twice, or is neither a food nor a kind of food")
            source, how, note = row.source().citation, row.how(), row.text("note")
            soak, cook = (
                Fact(row.number(minutes) or 0.0, "min", source, how, note=note) for minutes in ("soak", "cook")
            )
            if soak.value <= 0 and cook.value <= 0:
                raise row.fault("neither soak nor cook is given")
            found[about, size, way] = Softening(soak, cook)
    return MappingProxyType(found)


def softening(food: Food, size: str, way: str) -> Softening | None:
    """What a dried food in pieces of this size needs; None where nothing is known of the way."""
    rows = softenings()
    for about in (food.slug, f"any {food.category}", "any food"):
        found = rows.get((about, size, way)) or rows.get((about, "", way))
        if found is not None:
            return found
    return None


def staple_softening(slug: str, way: str) -> Softening | None:
    """What a bought staple needs, where the way has a row of its own."""
    return softenings().get((slug, BOUGHT, way))
