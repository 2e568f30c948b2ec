"""How much faster a food dries when it is warmer: published activation energies of drying, in kJ/mol."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cache

from dryhouse.handbook.reading import read
from dryhouse.science.values import Fact

COLUMNS = (
    "foods", "name", "form", "temperature_low_c", "temperature_high_c",
    "low_kj_mol", "middle_kj_mol", "high_kj_mol", "source", "how", "note",
)  # fmt: skip
LEAST_EITHER_WAY = 8.0
"""kJ/mol: studies of one food differ among themselves more than foods do, so no energy is held tighter than this
(our own choice, after the spread of the table's own rows)."""


@dataclass(frozen=True, slots=True)
class ActivationRow:
    """One study: the foods (slugs) it speaks of, and the energy it found, low to high."""

    foods: tuple[str, ...]
    name: str
    form: str
    energy: Fact
    temperature_low_c: float | None
    temperature_high_c: float | None


@cache
def activation_rows() -> tuple[ActivationRow, ...]:
    """Every study, the row for any food first."""
    rows = []
    for row in read("activation", COLUMNS):
        low, high = row.required("low_kj_mol"), row.required("high_kj_mol")
        given = row.number("middle_kj_mol")
        middle = (low + high) / 2 if given is None else given
        energy = Fact(middle, "kJ/mol", row.source().citation, row.how(), low, high, note=row.text("note"))
        rows.append(
            ActivationRow(
                row.names("foods"), row.text("name"), row.text("form"), energy,
                row.number("temperature_low_c"), row.number("temperature_high_c"),
            )
        )  # fmt: skip
    return tuple(rows)


@cache
def activation_of(food: str) -> Fact:
    """The energy to reckon with for this food (slug), kJ/mol, with its low and high.

    The middle of its own studies where there are any, never held tighter than they differ among themselves or
    than `LEAST_EITHER_WAY`; otherwise that of any food.
    """
    rows = activation_rows()
    own = [r.energy for r in rows if food in r.foods]
    if not own:
        return rows[0].energy
    middle = sum(e.value for e in own) / len(own)
    low = min(middle - LEAST_EITHER_WAY, *(e.low if e.low is not None else e.value for e in own))
    high = max(middle + LEAST_EITHER_WAY, *(e.high if e.high is not None else e.value for e in own))
    sources = "; ".join(dict.fromkeys(e.source for e in own))
    return replace(own[0], value=middle, low=low, high=high, source=sources, n=len(own))
