"""Published yields: what a known amount of fresh food came to when it was dried.

A row that strays far from the solids of its food, or that is of a commercial product, is kept and marked
as such, with the reason: a weighed batch beats any yield table.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from dryhouse.handbook.reading import How, read
from dryhouse.science.values import Basis, Fact

_COLUMNS = (
    *("food", "form", "as_purchased_g", "prepared_g", "prepared_ml", "dried_g", "dried_ml_low", "dried_ml_high"),
    *("comparable", "why", "source", "locator", "how"),
)


@dataclass(frozen=True, slots=True)
class PublishedYield:
    """One published yield: grams and millilitres, None where the source doesn't say."""

    food: str
    form: str
    as_purchased_g: float | None
    prepared_g: float | None
    prepared_ml: float | None
    dried_g: float | None
    dried_ml_low: float | None
    dried_ml_high: float | None
    comparable: bool
    """Whether it agrees with the solids of its food, and may be shown beside a home batch as it stands."""
    strays: bool
    """Whether it is of a home batch like the comparable ones, but far from what the solids allow."""
    why: str
    """Why not, or what to know of it."""
    source: str
    how: How

    @property
    def basis(self) -> Basis:
        """The basis of whatever rests on this row."""
        return Fact(0.0, "", self.source, self.how).basis


@cache
def published_yields() -> tuple[PublishedYield, ...]:
    """Every published yield, comparable or not, in the order of the table."""
    rows = []
    for row in read("yield_table", _COLUMNS):
        comparable = row.text("comparable")
        if comparable not in ("yes", "strays", "no"):
            raise row.fault("comparable is yes, strays or no")
        if comparable != "yes" and not row.text("why"):
            raise row.fault("a row that can't be compared says why")
        locator = row.text("locator")
        rows.append(
            PublishedYield(
                row.text("food"),
                row.text("form"),
                row.number("as_purchased_g"),
                row.number("prepared_g"),
                row.number("prepared_ml"),
                row.number("dried_g"),
                row.number("dried_ml_low"),
                row.number("dried_ml_high"),
                comparable == "yes",
                comparable == "strays",
                row.text("why"),
                row.source().citation + (f", {locator}" if locator else ""),
                row.how(),
            )
        )
    return tuple(rows)
