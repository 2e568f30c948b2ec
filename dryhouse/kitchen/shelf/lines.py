"""One lot as the shelf shows it on a day, what it is called, and the order lots stand in."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from dryhouse.kitchen.records import Lot
from dryhouse.science.statuses import Status
from dryhouse.words.dates import day_words


@dataclass(frozen=True, slots=True)
class ShelfLine:
    """One lot as the shelf shows it on a day."""

    lot: Lot
    food_name: str
    standing: Status
    reason: str
    keep_by: date | None
    """None also where it is not to be eaten: nothing is promised of that."""
    mass_left_g: float | None
    volume_left_ml: float | None
    place: str
    called: str = ""
    """What its batch is called; empty where it has none."""
    first: int | None = None
    """1 for the lot to use first, and so on; None for lots that are not in good standing."""

    at_least: bool = False
    """It keeps at least until then: where it stands it is colder than anything published."""

    @property
    def keeps_until(self) -> str:
        """Its keep-by in words, `at least 20 May 2027`; empty where it has none."""
        return "" if self.keep_by is None else until_words(self.keep_by, at_least=self.at_least)

    @property
    def title(self) -> str:
        """What to call the lot: as its batch or its food is called, and its own name where it has one."""
        return titled(self.called or self.food_name, self.lot.name)


def until_words(day: date, *, at_least: bool) -> str:
    """`at least 20 May 2027`, `20 May 2027`."""
    return f"at least {day_words(day)}" if at_least else day_words(day)


def titled(what: str, name: str) -> str:
    """A food and the name of a lot of it, without saying the food twice."""
    said = what if not name else name if what.casefold() in name.casefold() else f"{what}, {name}"
    return said[:1].upper() + said[1:]


def in_order(lines: Sequence[ShelfLine]) -> list[ShelfLine]:
    """By standing as a person should see it, then by keep-by."""
    rank = {name: n for n, name in enumerate(Status)}
    far = date.max
    return sorted(lines, key=lambda line: (rank[line.standing], line.keep_by or far, line.lot.id))
