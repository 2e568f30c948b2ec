"""What one piece of a food weighs, prepared: a medium apple, a clove, an ear of corn."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from functools import cache
from types import MappingProxyType

from dryhouse.handbook.foods import load_foods
from dryhouse.handbook.reading import read
from dryhouse.science.values import Fact


@cache
def pieces() -> Mapping[str, Mapping[str, Fact]]:
    """Grams of one piece of each food, by what the piece is called: `medium`, `large ear`, `clove`, `piece`."""
    found: dict[str, dict[str, Fact]] = defaultdict(dict)
    for row in read("pieces", ("food", "piece", "grams", "source", "note", "how"), key=("food", "piece")):
        fact = row.fact("grams", "g")
        if row.text("food") not in load_foods() or fact is None or fact.value <= 0:
            raise row.fault(f"{row.text('food')} weighs nothing, or is no food")
        found[row.text("food")][row.text("piece")] = fact
    return MappingProxyType({food: MappingProxyType(kinds) for food, kinds in found.items()})
