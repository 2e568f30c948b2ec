"""What the kitchen needs from outside: a journal to keep records in, and what a write answers with."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from contextlib import AbstractContextManager
from dataclasses import dataclass, field
from datetime import datetime
from pathlib import Path
from typing import Any, Generic, Protocol, TypeVar, cast

from dryhouse.kitchen.records import (
    RECORD_KINDS,
    AfterTrip,
    Batch,
    BatchEvent,
    BatchPart,
    CookingNote,
    CookingNotePart,
    Dryer,
    Lot,
    LotCheck,
    LotDraw,
    LotMove,
    Meal,
    MealPart,
    OwnFigure,
    OwnFood,
    Place,
    PlaceTemperature,
    Preference,
    Trip,
    TripMeal,
    TripPerson,
    Weighing,
)

Record = (
    Preference
    | OwnFood
    | OwnFigure
    | Dryer
    | Place
    | PlaceTemperature
    | Batch
    | BatchPart
    | Weighing
    | BatchEvent
    | Lot
    | LotMove
    | LotDraw
    | LotCheck
    | Meal
    | MealPart
    | Trip
    | TripMeal
    | TripPerson
    | AfterTrip
    | CookingNote
    | CookingNotePart
)
R = TypeVar("R", bound=Record)
About = TypeVar("About", bound=Record, covariant=True)


@dataclass(frozen=True, slots=True)
class Change:
    """One record that came (before is None), went (after is None) or was edited (both)."""

    before: Record | None
    after: Record | None

    @property
    def record(self) -> Record:
        """The record as it now is, or as it last was."""
        record = self.after if self.after is not None else self.before
        assert record is not None
        return record

    def reversed(self) -> Change:
        """The change that takes this one back."""
        return Change(self.after, self.before)


def joined(changes: Sequence[Change], further: Sequence[Change]) -> tuple[Change, ...]:
    """Changes and the edits that followed them as one list, in which each record stands once."""
    edits = {(type(c.record), c.record.id): c.after for c in further}
    once = [
        Change(c.before, edits.pop((type(c.record), c.record.id), c.after)) if c.after is not None else c
        for c in changes
    ]
    return (*once, *(c for c in further if (type(c.record), c.record.id) in edits))


@dataclass(frozen=True, slots=True)
class Done(Generic[About]):
    """What an act did, in a few words for the person, and every record it changed. `Done[Batch]` is about a batch.

    Undo needs nothing else: writing `undone().changes` takes the act back.
    """

    what: str
    changes: tuple[Change, ...] = ()
    beyond: frozenset[type] = frozenset()
    """The kinds of what came in numbers beyond what undo keeps: a backup goes back behind it."""

    @property
    def kinds(self) -> frozenset[type]:
        """The kinds of record that changed, so that a place can tell whether it is stale."""
        return self.beyond.union(type(c.record) for c in self.changes)

    @property
    def record(self) -> About:
        """The record the act is about: the first one it changed. IndexError where it changed nothing."""
        return cast(About, self.changes[0].record)

    def undone(self) -> Done[Record]:
        """The act that takes this one back."""
        return Done(self.what, tuple(c.reversed() for c in reversed(self.changes)))


class ReadByInstruments(Done[Record]):
    """Weights that came by themselves: nobody waits for them to be shown, and she may be typing."""

    @classmethod
    def of(cls, acts: Sequence[Done[Record]]) -> ReadByInstruments:
        """Several as one, called by the last."""
        return cls(acts[-1].what, tuple(change for done in acts for change in done.changes))


class WrittenElsewhere(Done[Record]):
    """Another window or program has written to the journal: any record may be another one now."""

    @property
    def kinds(self) -> frozenset[type]:
        """All there are."""
        return frozenset(RECORD_KINDS)


@dataclass(frozen=True, slots=True)
class KeptCopy:
    """A backup as it is offered: where it is, when it was made (UTC), how many batches are in it (None where that
    cannot be read), and whether it is whole."""

    path: Path
    at: datetime
    batches: int | None
    whole: bool


@dataclass(frozen=True, slots=True)
class BatchQuery:
    """Which batches to list and in what order. Empty means all, newest first."""

    text: str = ""
    """Free words, each of which must begin a word of the food's names, title, form, notes or dryer."""
    foods: tuple[str, ...] = ()
    dryer: int | None = None
    states: tuple[str, ...] = ()
    since: datetime | None = None
    until: datetime | None = None
    sort: str = "started"
    """`started`, `food`, `dryer`, `fresh`, `dried`, `yield`, `rating` or `id`."""
    descending: bool = True


@dataclass(frozen=True, slots=True)
class YieldPair:
    """What an own batch says of yield: masses in grams, volumes in millilitres, None where not recorded."""

    batch: int
    food: str
    form: str
    pretreatment: str
    prepared_g: float
    dried_g: float
    prepared_ml: float | None = None
    dried_ml: float | None = None
    set_temperature_c: float | None = None
    dryer: int | None = None
    trays: int | None = None
    hours: float | None = None
    started: datetime | None = None
    start_moisture_pct: float | None = None


@dataclass(frozen=True, slots=True)
class BatchRow:
    """One line of the batch table: the batch itself and the names the line shows."""

    batch: Batch
    dryer_name: str = ""
    weighings: int = 0


class Staging(Protocol):
    """New records on their way into a journal, kept beside it until all have come.

    In a record that waits, a link below 0 names a record that is there already; any other one that waits too.
    """

    def add(self, record: Record) -> None:
        """One more record, under a number that no other of its kind has here."""

    def get(self, kind: type[R], id: int) -> R | None:
        """A record that waits."""

    def close(self) -> None:
        """Let go of all that waits."""


class Journal(Protocol):
    """Everything the person recorded. Several programs may have it open; every write is one durable transaction."""

    @property
    def path(self) -> Path:
        """The file it is kept in."""

    def get(self, kind: type[R], id: int) -> R | None:
        """The record, or None where there is none of that number."""

    def where(self, kind: type[R], **equals: Any) -> tuple[R, ...]:
        """Every record whose fields equal (or are in the given tuple of) these values, by number."""

    def next_id(self, kind: type[Record]) -> int:
        """A number no record of this kind has had."""

    def write(self, changes: Iterable[Change]) -> None:
        """All of the changes, or none: durable when this returns."""

    def alone(self) -> AbstractContextManager[None]:
        """Nobody else writes while this lasts; what is written inside is durable when it ends, all or nothing."""

    def stage(self) -> Staging:
        """A place for new records that are too many to hold; it must be closed."""

    def highest_id(self, kind: type[Record]) -> int:
        """The highest number a record of this kind has had; 0 where there never was one. Gives none out."""

    def take_in(
        self, staging: Staging, edits: Callable[[Mapping[type, int]], Iterable[Change]]
    ) -> Mapping[type, int]:
        """All that waits, and the edits, or none of it: durable when this returns.

        Answers how much was added to the numbers of each kind; `edits` is told before it is asked.
        """

    def at_one_moment(self) -> AbstractContextManager[None]:
        """What is read inside is the journal as it was when this began, whoever writes meanwhile."""

    def version(self) -> int:
        """A number that changes when another window or program has written."""

    def batch_ids(self, query: BatchQuery) -> Sequence[int]:
        """The numbers of the batches asked for, in order."""

    def batch_rows(self, ids: Sequence[int]) -> list[BatchRow]:
        """One line for each number, in the order given; numbers that are gone are left out."""

    def yield_pairs(self, food: str) -> tuple[YieldPair, ...]:
        """Every finished batch of the food with both a prepared and a dried mass, oldest first."""

    def get_ready(self) -> None:
        """Make ready what the first search and the first write would otherwise wait for."""

    def close(self) -> None:
        """Leave the file in order and let others open it."""


@dataclass(frozen=True, slots=True)
class Pending:
    """Collects the changes of one act before they are written together."""

    changes: list[Change] = field(default_factory=list)

    def add(self, *records: Record) -> None:
        """New records."""
        self.changes.extend(Change(None, r) for r in records)

    def edit(self, before: Record, after: Record) -> None:
        """A record that changed; nothing is noted where nothing did."""
        if before != after:
            self.changes.append(Change(before, after))

    def remove(self, *records: Record) -> None:
        """Records that go."""
        self.changes.extend(Change(r, None) for r in records)
