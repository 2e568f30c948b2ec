"""Published GAB sorption constants by food."""

from __future__ import annotations

from functools import cache

from dryhouse.handbook.reading import read
from dryhouse.science.sorption import USUAL_RANGE, Isotherm, refuse_unphysical

COLUMNS = (
    "food", "name", "state", "temperature_low_c", "temperature_high_c", "m0", "c", "k",
    "aw_low", "aw_high", "source", "how", "note",
)  # fmt: skip


@cache
def _table() -> tuple[tuple[str, Isotherm], ...]:
    rows = []
    for row in read("gab", COLUMNS):
        fact = row.fact("m0", "g/g")
        assert fact is not None
        m0, c, k = fact.value, row.required("c"), row.required("k")
        refuse_unphysical(m0, c, k)
        low, high = row.number("aw_low"), row.number("aw_high")
        rows.append(
            (
                row.text("food"),
                Isotherm(
                    m0, c, k, row.required("temperature_low_c"), row.required("temperature_high_c"), fact.basis,
                    USUAL_RANGE[0] if low is None else low, USUAL_RANGE[1] if high is None else high,
                ),
            )
        )  # fmt: skip
    return tuple(rows)


def isotherms(food: str) -> tuple[Isotherm, ...]:
    """The published isotherms of a food by its slug; empty where nothing is published."""
    return tuple(i for slug, i in _table() if slug == food)
