"""What of the major food allergens is in a food, as far as its name tells; and what only a label tells."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from functools import cache
from types import MappingProxyType

from dryhouse.handbook.reading import read

MILK, EGG, FISH, SHELLFISH, NUTS = "milk", "egg", "fish", "shellfish", "tree nuts"
PEANUT, WHEAT, SOY, SESAME, GLUTEN = "peanut", "wheat", "soy", "sesame", "gluten"
ALLERGENS = (MILK, EGG, FISH, SHELLFISH, NUTS, PEANUT, WHEAT, SOY, SESAME, GLUTEN)
"""In the order the law names them; gluten, which is none of the nine, last."""


@dataclass(frozen=True, slots=True)
class Held:
    """What a food holds by its nature, and whether its makers add what only a label tells."""

    allergens: frozenset[str]
    label: bool = False
    source: str = ""


NOTHING = Held(frozenset())


@cache
def allergens() -> Mapping[str, Held]:
    """By food, staple, category or trait; what has no row holds none of them by its nature."""
    found = {}
    for row in read("allergens", ("about", "holds", "label", "source", "note"), key=("about",)):
        held = frozenset(row.names("holds"))
        if held - set(ALLERGENS):
            raise row.fault(f"{', '.join(sorted(held - set(ALLERGENS)))} is no allergen of this table")
        found[row.text("about")] = Held(held, row.text("label") == "yes", row.source().citation)
    return MappingProxyType(found)


def held_by(slug: str, kinds: Collection[str] = ()) -> Held:
    """What is in a food or a staple of this slug: by its own row, else by those of its kinds."""
    rows = allergens()
    if slug in rows:
        return rows[slug]
    by_kind = [rows[kind] for kind in kinds if kind in rows]
    if not by_kind:
        return NOTHING
    every = frozenset[str]().union(*(row.allergens for row in by_kind))
    return Held(every, any(row.label for row in by_kind), by_kind[0].source)
