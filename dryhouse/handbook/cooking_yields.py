"""What raw or dry food weighs once it is cooked: cooked mass over raw (or dry) mass.

Weighed yields come first, then those of the food surveys; what follows from the solids or the protein of the raw
and the cooked entry comes last, since some of either stays in the water. A survey names the plain kind of a food
before its special ones (instant or glutinous rice), and that row answers. Rows that start from frozen packages
stand in the table and answer nothing here.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from dryhouse.handbook.foods import load_foods
from dryhouse.handbook.reading import read
from dryhouse.science.values import Fact

KINDS = ("measured", "survey", "conserved")
"""How a yield is known, the strongest first."""
_COLUMNS = ("food", "what", "from_state", "to_state", "factor", "low", "high", "kind", "note", "source", "how")


@dataclass(frozen=True, slots=True)
class CookingYield:
    """One published yield: `fact` in grams cooked for a gram raw or dry."""

    food: str
    what: str
    from_state: str
    to_state: str
    kind: str
    fact: Fact


@cache
def cooking_yields() -> tuple[CookingYield, ...]:
    """Every row of the table."""
    rows = []
    for row in read("cooking_yields", _COLUMNS):
        fact = row.fact("factor", "g/g", "low", "high")
        if row.text("food") not in load_foods() or row.text("kind") not in KINDS:
            raise row.fault(f"“{row.text('food')}”, {row.text('kind')}")
        if fact is None or not 0.1 < fact.value < 7.0:
            raise row.fault("factor is empty, or no food cooks to so much of its mass")
        what = (row.text("what"), row.text("from_state"), row.text("to_state"))
        rows.append(CookingYield(row.text("food"), *what, row.text("kind"), fact))
    return tuple(rows)


def cooking_yield(food: str) -> Fact | None:
    """Grams cooked for a gram raw or dry, of the strongest kind of rows (the middle one, of a survey the first),
    with the ends of that kind and of what is conserved; None where nothing is published."""
    rows = [row for row in cooking_yields() if row.food == food and row.from_state != "frozen"]
    for kind in KINDS:
        found = [row.fact for row in rows if row.kind == kind]
        if not found:
            continue
        ends = [row.fact.value for row in rows if row.kind in (kind, "conserved")]
        middle = sorted(found, key=lambda fact: fact.value)[len(found) // 2]
        chosen = found[0] if kind == "survey" else middle
        return Fact(chosen.value, "g/g", chosen.source, chosen.how, low=min(ends), high=max(ends))
    return None
