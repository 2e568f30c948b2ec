"""Foods that people name and the handbook does not hold, with what comes nearest to each: never taken for it."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache

from dryhouse.handbook.reading import read
from dryhouse.handbook.spelling import ordered, words


@cache
def neighbors() -> Mapping[str, tuple[str, ...]]:
    """The slugs of the nearest foods, nearest first, by the name that is not held, its words in order."""
    rows = read("neighbors", ("names", "near"))
    return {ordered(words(name)): row.names("near") for row in rows for name in row.names("names")}
