"""One lot as the shelf shows it on a day, what it is called, and the order lots stand in."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from dryhouse.kitchen.records import Lot
from dryhouse.science.statuses import Status


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
    place_id: int | None
    called: str = ""
    """What its batch is called; empty where it has none."""
    first: int | None = None
    """1 for the lot to use first, and so on; None for lots that are not in good standing."""

    @property
    def title(self) -> str:
        """What to call the lot: as its batch or its food is called, and its own name where it has one."""
        return titled(self.called or self.food_name, self.lot.name)


def titled(what: str, name: str) -> str:
    """A food and the name of a lot of it, without saying the food twice."""
    said = what if not name else name if what.casefold() in name.casefold() else f"{what}, {name}"
    return said[:1].upper() + said[1:]


def in_order(lines: Sequence[ShelfLine]) -> list[ShelfLine]:
    """By standing as a person should see it, then by keep-by."""
    rank = {name: n for n, name in enumerate(Status)}
    far = date.max
    return sorted(lines, key=lambda line: (rank[line.standing], line.keep_by or far, line.lot.id))
