"""The figures of the pot and of the plan: limits, assumptions and habits, each named and each a row.

Nothing here looks measured that isn't: a row is published, recalled, common practice, or this program's
own assumption, and the workings of a meal say which.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from functools import cache
from types import MappingProxyType

from dryhouse.handbook.reading import read
from dryhouse.science.values import Fact


@cache
def pot_figures() -> Mapping[str, Fact]:
    """Every figure by key."""
    found: dict[str, Fact] = {}
    for row in read("pot", ("key", "value", "unit", "source", "how", "note"), key=("key",)):
        fact = row.fact("value", row.text("unit"))
        if fact is None:
            raise row.fault("value is empty")
        found[row.text("key")] = replace(fact, note=row.text("note"))
    return MappingProxyType(found)


def pot(key: str) -> Fact:
    """The figure of this key."""
    return pot_figures()[key]
