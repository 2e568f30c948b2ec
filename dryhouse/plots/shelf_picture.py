"""What the timeline of the shelf shows, as plain values: it can be made before anything is read that draws."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from dryhouse.science.statuses import Status
from dryhouse.words import charts

FOOT, HEAD = 0.62, 0.55
"""Inches below and above the rows, at our usual text."""
_ROW = 0.24
"""Inches a row takes."""
_WIDE = 8.0
_RANK = {status: n for n, status in enumerate(Status)}


@dataclass(frozen=True, slots=True)
class ShelfBar:
    """One lot: its name, from when to when, its status on the day looked at."""

    name: str
    packed_on: date
    keep_by: date | None
    standing: str
    amount: str = ""
    until: str = ""
    """Its keep-by in words; empty where it has none."""


@dataclass(frozen=True, slots=True)
class ShelfPicture:
    """Every lot, the two days the picture is about, and the trips: name, first and last day."""

    bars: tuple[ShelfBar, ...]
    today: date
    chosen: date
    trips: tuple[tuple[str, date, date], ...] = ()

    @property
    def unknown(self) -> int:
        """How many lots have no keep-by."""
        return sum(bar.keep_by is None for bar in self.bars)

    def passed(self) -> tuple[ShelfBar, ...]:
        """What will have passed by the chosen day."""
        return tuple(bar for bar in self.bars if ended(bar, self.chosen))

    def passing(self) -> tuple[ShelfBar, ...]:
        """What is good today and will have passed by the chosen day."""
        return tuple(bar for bar in self.passed() if not ended(bar, self.today))

    def in_order(self) -> tuple[ShelfBar, ...]:
        """The gravest status first; in each the soonest keep-by first."""
        return tuple(sorted(self.bars, key=lambda b: (_RANK[Status(b.standing)], b.keep_by or date.min, b.name)))


def ended(bar: ShelfBar, day: date) -> bool:
    """Whether its keep-by is before this day."""
    return bar.keep_by is not None and bar.keep_by < day


def size_of(picture: ShelfPicture) -> tuple[float, float]:
    """The inches in which every lot can be read."""
    return _WIDE, HEAD + 0.6 + FOOT + _ROW * max(6, len(picture.bars))


def say(picture: ShelfPicture) -> str:
    """The picture in a sentence."""
    passed = len(picture.passed())
    on = picture.chosen if picture.chosen > picture.today else None
    known = len(picture.bars) - picture.unknown
    return charts.shelf_sentence(known, passed, passed - len(picture.passing()), on, picture.unknown)


def table(picture: ShelfPicture) -> list[tuple[str, ...]]:
    """The rows behind the picture, headings first."""
    rows = [
        (b.name, b.packed_on.isoformat(), "" if b.keep_by is None else b.keep_by.isoformat(), b.standing, b.amount)
        for b in picture.in_order()
    ]
    return [("lot", "packed", "keep-by", "status", "left"), *rows]
