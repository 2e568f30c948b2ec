"""What a record is judged against, looked up in a journal and a handbook: `records.around.Around` made true.

Records that come together (an act, an import) see each other before they are written.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from datetime import date, datetime
from typing import Any, TypeVar

from dryhouse.handbook.animal_words import animal_words
from dryhouse.handbook.reader import Handbook
from dryhouse.handbook.spelling import words
from dryhouse.handbook.staples import staples
from dryhouse.kitchen.ports import Change, Journal
from dryhouse.kitchen.records import Batch, BatchPart, Lot, MealPart, OwnFigure, OwnFood
from dryhouse.kitchen.records.foods import PLANT, contents_of
from dryhouse.kitchen.records.problems import problems
from dryhouse.science.errors import InputProblem
from dryhouse.science.messages import Message

T = TypeVar("T")
_GONE = object()


@dataclass(eq=False)
class Surroundings:
    """Keeps what it has looked up: for one act or one file, not for longer."""

    journal: Journal | None
    """None where only the records that come together count."""
    handbook: Handbook
    local: Callable[[datetime], datetime]
    now: datetime | None = None
    _seen: dict[tuple[type, int], Any] = field(default_factory=dict)
    _own: dict[str, OwnFood] | None = None

    def coming(self, records: Iterable[Any]) -> None:
        """These records are written together with those that are judged."""
        for record in records:
            self._seen[type(record), record.id] = record
            if isinstance(record, OwnFood):
                self._foods()[record.slug] = record

    def going(self, records: Iterable[Any]) -> None:
        """These records go."""
        for record in records:
            self._seen[type(record), record.id] = _GONE
            if isinstance(record, OwnFood):
                self._foods().pop(record.slug, None)

    def forget(self) -> None:
        """Look everything up anew: of a long file not all can be held."""
        self._seen.clear()

    def day(self, moment: datetime) -> date:
        """The day a moment falls on where the person is."""
        return self.local(moment).date()

    def get(self, kind: type[T], id: int) -> T | None:
        """The record of that number."""
        found = self._seen.get((kind, id))
        if found is None:
            found = None if self.journal is None else self.journal.get(kind, id)  # type: ignore[type-var]
            self._seen[kind, id] = _GONE if found is None else found
        return None if found is _GONE else found

    def food_known(self, slug: str) -> bool:
        """In the handbook, of her own, or a staple of the pantry."""
        return self.in_handbook(slug) or slug in self._foods() or self.staple_known(slug)

    def in_handbook(self, slug: str) -> bool:
        """By slug."""
        return self.handbook.name(slug) is not None

    def is_animal(self, slug: str) -> bool:
        """By its kind, or by what it is said to hold; an own food nobody has answered for counts as one."""
        if slug in self._foods():
            own = self._foods()[slug]
            return contents_of(own) != (PLANT,) or (bool(own.like) and self.is_animal(own.like))
        known = self.handbook.foods.get(slug)
        return self.staple_animal(slug) if known is None else known.animal

    def animal_named(self, name: str, *, exactly: bool = False) -> str:
        """By the handbook's foods, and by the animals' words of many languages where it need not be exact."""
        found = self.handbook.animal_named(name, exactly=True)
        return found.name if found is not None else "" if exactly else ", ".join(animal_words(name))

    def is_called(self, slug: str, name: str) -> bool:
        """By its own name and its other ones."""
        own, known, bought = self._foods().get(slug), self.handbook.foods.get(slug), staples().get(slug)
        names = [n for f in (known, bought) if f is not None for n in (f.name, *f.other_names)]
        if own is not None:
            names = [own.name, *own.other_names.split(";")]
        return set(words(name)) in [set(words(n)) for n in names]

    def staple_known(self, slug: str) -> bool:
        """By slug."""
        return slug in staples()

    def staple_animal(self, slug: str) -> bool:
        """As the table of staples says."""
        return slug in staples() and bool(staples()[slug].animal)

    def _foods(self) -> dict[str, OwnFood]:
        if self._own is None:
            self._own = {} if self.journal is None else {own.slug: own for own in self.journal.where(OwnFood)}
        return self._own


def judge(changes: Iterable[Change], around: Surroundings) -> list[InputProblem]:
    """What is wrong with records as an act would leave them. What was wrong with one before it is left alone:
    whoever changes its notes is not asked to put its dates right."""
    listed = tuple(changes)
    before = [problem for c in listed if c.before is not None and c.after for problem in _said(c.before, around)]
    around.going(c.before for c in listed if c.before is not None and c.after is None)
    around.coming(c.after for c in listed if c.after is not None)
    found = [p for c in listed if c.after is not None for p in problems(c.after, around)]
    new = [p for p in found if (p.said, p.field) not in before]
    return [*new, *_left_behind(listed, around)]


def _said(record: Any, around: Surroundings) -> list[tuple[Message | str, str]]:
    return [(p.said, p.field) for p in problems(record, around)]


_OF_FOODS: tuple[type[Any], ...] = (Batch, BatchPart, Lot, MealPart, OwnFigure)


def _left_behind(changes: tuple[Change, ...], around: Surroundings) -> list[InputProblem]:
    """An own food that goes while something is still recorded of it."""
    found = []
    for change in changes:
        gone = change.before
        if not isinstance(gone, OwnFood) or change.after is not None or around.journal is None:
            continue
        left = [r for kind in _OF_FOODS for r in around.journal.where(kind, food=gone.slug)]
        going = {(type(c.before), c.before.id) for c in changes if c.before is not None and c.after is None}
        if any((type(r), r.id) not in going for r in left):
            found.append(InputProblem(f"Something is still recorded of {gone.name}; it stays.", "food"))
    return found
