"""The records of the shelf, by lot and by place, read from the journal in a few sweeps and kept up to date."""

from __future__ import annotations

from bisect import insort
from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass, field
from datetime import date, datetime
from typing import Any, Self

from dryhouse.kitchen.cautions.cautions import place_of
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.ports import Change, Record
from dryhouse.kitchen.records import Lot, LotCheck, LotDraw, LotMove, Place, PlaceTemperature


@dataclass
class ShelfRecords:
    """Lots and places by their numbers; what befell a lot, and how warm a place was, in the order of time."""

    kitchen: Kitchen
    lots: dict[int, Lot] = field(default_factory=dict)
    moves: dict[int, list[LotMove]] = field(default_factory=lambda: defaultdict(list))
    draws: dict[int, list[LotDraw]] = field(default_factory=lambda: defaultdict(list))
    checks: dict[int, list[LotCheck]] = field(default_factory=lambda: defaultdict(list))
    places: dict[int, Place] = field(default_factory=dict)
    temperatures: dict[int, list[PlaceTemperature]] = field(default_factory=lambda: defaultdict(list))

    @classmethod
    def read(cls, kitchen: Kitchen, lot: int | None = None, *, food: str = "") -> Self:
        """The whole shelf, or the records of one lot, or of the lots of one food."""
        journal = kitchen.journal
        read = cls(kitchen)
        chosen: dict[str, Any] = {"id": lot} if lot is not None else {"food": food} if food else {}
        found = journal.where(Lot, **chosen)
        one: dict[str, Any] = {"lot": tuple(record.id for record in found)} if chosen else {}
        for records in (
            found,
            *(journal.where(kind, **one) for kind in (LotMove, LotDraw, LotCheck)),
            journal.where(Place),
            journal.where(PlaceTemperature),
        ):
            read._add(records)
        return read

    @property
    def batches(self) -> set[int]:
        """The numbers of the batches that the lots came from."""
        return {lot.batch for lot in self.lots.values() if lot.batch is not None}

    def checks_by(self, lot: int, on: date) -> list[LotCheck]:
        """The checks of a lot up to a day, that day's own among them."""
        return [check for check in self.checks.get(lot, ()) if check.on <= on]

    def place_at(self, lot: int, moment: datetime) -> int | None:
        """The place the lot is in at a moment; None before it was put anywhere."""
        return place_of(self.moves.get(lot, ()), moment)

    def replace(self, change: Change) -> None:
        """Take in what an act changed; a record that is not of the shelf is passed over."""
        before, after = change.before, change.after
        if before is not None:
            home = self._home(before)
            if isinstance(home, dict):
                home.pop(before.id, None)
            elif home is not None and before in home:
                home.remove(before)
        if after is not None:
            home = self._home(after)
            if not isinstance(home, list) or after not in home:
                self._add([after])

    def _add(self, records: Iterable[Record]) -> None:
        for record in records:
            home = self._home(record)
            if isinstance(home, dict):
                home[record.id] = record
            elif home is not None:
                insort(home, record, key=_when)

    def _home(self, record: Record) -> list[Any] | dict[int, Any] | None:
        match record:
            case Lot():
                return self.lots
            case Place():
                return self.places
            case LotMove():
                return self.moves[record.lot]
            case LotDraw():
                return self.draws[record.lot]
            case LotCheck():
                return self.checks[record.lot]
            case PlaceTemperature():
                return self.temperatures[record.place]
        return None


def _when(record: Any) -> tuple[Any, int]:
    moment = next(name for name in ("on", "since", "at") if hasattr(record, name))
    return getattr(record, moment), record.id
