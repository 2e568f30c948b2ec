"""Records from elsewhere joined to a journal: looked through in one pass, judged as if typed, none of them twice.

What differs from a record of hers is hers to choose: `look_through` lists it, `take_in` is told what to take. Until
then, and where anything stops it, the journal is as it was.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Callable, Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from dryhouse.handbook.tables import ANIMAL_CATEGORIES
from dryhouse.kitchen.exchange.matching import Known, settled
from dryhouse.kitchen.exchange.numbers import Numbers
from dryhouse.kitchen.exchange.reading import Entry
from dryhouse.kitchen.foods.catalog import food
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.ports import Change, Done, Record, Staging, joined
from dryhouse.kitchen.records import Batch, OwnFood
from dryhouse.kitchen.records.foods import PLANT, UNKNOWN, contents_of
from dryhouse.kitchen.records.learned import MARKS, batch_of, forgotten, share_of_mark
from dryhouse.kitchen.records.links import LINKS, ONCE, OWNERS_FIRST
from dryhouse.kitchen.records.problems import called, problems, problems_around
from dryhouse.kitchen.records.shapes import linked
from dryhouse.kitchen.records.typed_problems import typed_problems
from dryhouse.kitchen.surroundings import Surroundings, judge
from dryhouse.science.display import counted
from dryhouse.science.errors import InputProblem
from dryhouse.words.messages import problem_sentence

_AT_MOST = 6
"""How many problems of a file are said at once."""
MOST_UNDONE = 5000
"""So many changes are kept for undo; behind more a backup goes back."""
_HELD = 4096
Tell = Callable[[float], None]
"""Told now and then how much has been read, from 0 to 1; what it raises stops the import."""


@dataclass(frozen=True, eq=False)
class Difference:
    """A record of hers, and what comes in its place if she wants it."""

    mine: Any
    theirs: Any
    fields: tuple[str, ...]
    needed_by: list[str] = field(default_factory=list)
    """What would be wrong with new records if hers stayed."""


@dataclass
class Coming:
    """What an import would do. It holds what waits, and must be closed."""

    staging: Staging
    added: Counter[type] = field(default_factory=Counter)
    same: int = 0
    differences: list[Difference] = field(default_factory=list)
    few: list[Any] = field(default_factory=list)
    """The new records themselves, as far as undo keeps them."""
    contradicted: list[Batch] = field(default_factory=list)
    """New batches whose weighings are not those that the file's dry matter was read from."""
    added_to: set[int] = field(default_factory=set)
    """The numbers of batches of hers that get new weighings, events or ingredients."""

    def close(self) -> None:
        """Let go of what waits."""
        self.staging.close()


def bring_in(kitchen: Kitchen, records: Sequence[Record], *, take_theirs: bool = False) -> Done[Record]:
    """Join records at hand to the journal; of what differs hers stays, or all of theirs is taken.

    A kind of which the journal never had a record keeps its numbers; others are numbered anew, with all that refers
    to them. Raises InputProblem and then changes nothing.
    """
    listed = sorted(records, key=lambda record: OWNERS_FIRST.index(type(record)))
    coming = look_through(kitchen, (Entry(record, 0.0) for record in listed))
    try:
        return take_in(kitchen, coming, coming.differences if take_theirs else ())
    finally:
        coming.close()


def look_through(kitchen: Kitchen, entries: Iterable[Entry], tell: Tell = lambda _share: None) -> Coming:
    """Read and judge every record; nothing is changed. Raises InputProblem with the first few things wrong."""
    staging = kitchen.journal.stage()
    try:
        return _Look(kitchen, staging).through(entries, tell)
    except BaseException:
        staging.close()
        raise


def take_in(kitchen: Kitchen, coming: Coming, theirs: Collection[Difference] = ()) -> Done[Record]:
    """Write what waits in one durable transaction, and of the differences those that are chosen.

    Raises InputProblem where what is chosen does not go together, and WorldProblem; then nothing has changed.
    """
    chosen, made = set(theirs), list[Change]()
    for difference in coming.differences:
        if difference not in chosen and difference.needed_by:
            raise InputProblem(difference.needed_by[0])

    def edits(bases: Mapping[type, int]) -> list[Change]:
        changes = _not_contradicted(kitchen, coming, theirs, bases)
        around = Surroundings(kitchen.journal, kitchen.handbook, kitchen.local)
        for wrong in (*judge(changes, around), *(p for c in changes for p in typed_problems(c.after))):
            raise InputProblem(f"What you take from the file can't be right: {problem_sentence(wrong)}")
        made.extend(changes)
        return changes

    if not coming.added and not theirs:
        return Done(_what(coming, 0))
    bases = kitchen.journal.take_in(coming.staging, edits)
    what = _what(coming, len(theirs))
    if coming.added.total() + len(theirs) > MOST_UNDONE:
        return Done(what, beyond=frozenset(coming.added).union(type(d.mine) for d in theirs))
    new = (replace(settled(r, bases), id=bases[type(r)] + r.id) for r in coming.few)
    return Done(what, joined([Change(None, record) for record in new], made))


def _not_contradicted(
    kitchen: Kitchen, coming: Coming, theirs: Collection[Difference], bases: Mapping[type, int]
) -> list[Change]:
    """What is taken of the differences, and without what weighings taught wherever that rests on others now."""
    changes = {(type(d.mine), d.mine.id): Change(d.mine, settled(d.theirs, bases)) for d in theirs}
    for number in coming.added_to.union(batch_of(d.mine) for d in theirs) - {0}:
        taken = changes.get((Batch, number))
        mine = kitchen.journal.get(Batch, number) if taken is None else taken.before
        after = mine if taken is None else taken.after
        if isinstance(after, Batch) and after.curve_mark is not None:
            changes[Batch, number] = Change(mine, forgotten(after))
    for waited in coming.contradicted:
        new = replace(settled(waited, bases), id=bases[Batch] + waited.id)
        changes[Batch, new.id] = Change(new, forgotten(new))
    return [*changes.values()]


def _what(coming: Coming, taken: int) -> str:
    batches, same, kept = coming.added[Batch], coming.same, len(coming.differences) - taken
    total = coming.added.total()
    what = f"Imported {counted(total, 'record')}" if total else "Nothing new"
    if batches:
        what += f", {batches} of them {'a batch' if batches == 1 else 'batches'}"
    if same:
        what += f"; {same} {'was' if same == 1 else 'were'} there already"
    if taken:
        what += f"; {counted(taken, 'record')} of yours changed to what the file says"
    if kept:
        what += f"; {counted(kept, 'record')} of yours kept, where the file says otherwise"
    return what


class _Look:
    """One pass over what comes."""

    def __init__(self, kitchen: Kitchen, staging: Staging) -> None:
        self.kitchen, self.coming = kitchen, Coming(staging)
        self.known = Known(kitchen.journal)
        self.numbers = Numbers()
        self.theirs: dict[tuple[type, int], Difference] = {}
        """The differences by the numbers of hers."""
        self.mine = {own.slug: own for own in kitchen.journal.where(OwnFood)}
        self.around = self._around(theirs=True)
        self.around_mine = self._around(theirs=False)
        self.said: list[str] = []
        self.wrong = 0
        self.unsound: dict[tuple[type, int], Any] = {}
        self.once: defaultdict[type, Counter[tuple[str, ...]]] = defaultdict(Counter)
        self.marks: dict[int, int] = {}
        """Of new batches that say what their weighings taught: what is still lacking of the mark of those."""

    def _around(self, *, theirs: bool) -> Surroundings:
        joined: Any = _Joined(self, theirs=theirs)
        return Surroundings(joined, self.kitchen.handbook, self.kitchen.local)

    def through(self, entries: Iterable[Entry], tell: Tell) -> Coming:
        for count, (record, share, sound) in enumerate(entries):
            if count % _HELD == 0:
                tell(share)
                self.around.forget()
                self.around_mine.forget()
            self._look_at(record, sound)
        if self.wrong:
            more = f" And {self.wrong - _AT_MOST} more of the kind." if self.wrong > _AT_MOST else ""
            raise InputProblem(" ".join(self.said) + more)
        for number in (number for number, lacking in self.marks.items() if lacking % MARKS):
            contradicted = self.coming.staging.get(Batch, number)
            if contradicted is not None:
                self.coming.contradicted.append(contradicted)
        tell(1.0)
        return self.coming

    def _look_at(self, record: Any, sound: bool) -> None:
        kind = type(record)
        number = self.numbers.take(record)
        if record.id != number:
            record = replace(record, id=number)
        if kind in ONCE:
            self._refuse_repeated(record)
        moved = self._moved(record)
        met = None if self.known.none_of[kind] else self.known.find(moved, number)
        if isinstance(record, OwnFood):
            if record.slug in self.mine:
                same_kind(self.kitchen, record, "this journal")
            self.around.coming([record])
        if met is not None:
            self._met(record, moved, *met)
            return
        found = self._judged(record, self.around, sound)
        if found:
            self._say(found)
            self.unsound[kind, number] = record
            return
        if self.theirs:
            self._note_needed(record, moved)
        self.coming.added[kind] += 1
        new = number if self.known.none_of[kind] else self.coming.added[kind]
        self.numbers.note(kind, number, new)
        if new != moved.id:
            moved = replace(moved, id=new)
        self.coming.staging.add(moved)
        self._mark(moved)
        if len(self.coming.few) <= MOST_UNDONE:
            self.coming.few.append(moved)

    def _mark(self, new: Any) -> None:
        """Weighings, events and ingredients are what the dry matter of their batch is read from."""
        if isinstance(new, Batch):
            if new.curve_mark is not None:
                self.marks[new.id] = new.curve_mark - share_of_mark(new)
        elif (batch := batch_of(new)) in self.marks:
            self.marks[batch] -= share_of_mark(new)
        elif batch < 0:
            self.coming.added_to.add(-batch)

    def _moved(self, record: Any) -> Any:
        """The record with its links as what waits has them. Raises InputProblem where one leads nowhere."""
        links = {}
        for name, target in LINKS.get(type(record), {}).items():
            number = getattr(record, name)
            if number is None or (self.unsound and (target, number) in self.unsound):
                continue
            to = self.numbers.of(target, number)
            if to is None:
                kind = type(record).__name__
                raise InputProblem(f"{kind} {record.id} belongs to {target.__name__} {number}, which is not there.")
            if to != number:
                links[name] = to
        return linked(record, links) if links else record

    def _met(self, record: Any, moved: Any, mine: Any, fields: tuple[str, ...]) -> None:
        kind = type(record)
        self.numbers.note(kind, record.id, -mine.id)
        if not fields:
            self.coming.same += 1
            return
        difference = Difference(mine, replace(moved, id=mine.id), fields)
        self.theirs[kind, mine.id] = difference
        self.coming.differences.append(difference)

    def _judged(self, record: Any, around: Surroundings, sound: bool = False) -> list[str]:
        found = problems_around(record, around) if sound else [*problems(record, around), *typed_problems(record)]
        if not found:
            return []
        name = f"{called(type(record)).capitalize()} {record.id}"
        said = map(problem_sentence, found)
        return [sentence if sentence.startswith(f"{name} ") else f"{name}: {sentence}" for sentence in said]

    def _say(self, found: list[str]) -> None:
        self.wrong += len(found)
        self.said += found[: _AT_MOST - len(self.said)]

    def _note_needed(self, record: Any, moved: Any) -> None:
        """A new record that hangs on one that differs is judged beside hers too."""
        for name, target in LINKS.get(type(record), {}).items():
            number = getattr(moved, name)
            difference = None if number is None else self.theirs.get((target, -number))
            if difference is not None and not difference.needed_by:
                difference.needed_by.extend(self._judged(record, self.around_mine))

    def _refuse_repeated(self, record: Any) -> None:
        mark = tuple(getattr(record, name) for name in ONCE[type(record)])
        self.once[type(record)][mark] += 1
        if self.once[type(record)][mark] > 1:
            raise InputProblem(f"There are 2 records {type(record).__name__} of the name “{' '.join(mark)}”.")


class _Joined:
    """What a record that comes is judged beside, asked by the numbers of the file: what waits, or hers."""

    def __init__(self, look: _Look, *, theirs: bool) -> None:
        self._look, self._theirs = look, theirs

    def get(self, kind: type[Any], number: int) -> Any:
        """The record, called by the number that the file knows."""
        look = self._look
        if (kind, number) in look.unsound:
            return look.unsound[kind, number]
        to = look.numbers.of(kind, number)
        if to is None:
            return None
        if to > 0:
            found = look.coming.staging.get(kind, to)
        elif self._theirs and (kind, -to) in look.theirs:
            found = look.theirs[kind, -to].theirs
        else:
            found = look.kitchen.journal.get(kind, -to)
        return found if found is None or found.id == number else replace(found, id=number)

    def where(self, kind: type[Any], **equals: Any) -> tuple[Any, ...]:
        """Of her own foods."""
        found: tuple[Any, ...] = self._look.kitchen.journal.where(kind, **equals)
        return found


def same_kind(kitchen: Kitchen, theirs: OwnFood, where: str) -> None:
    """Two kitchens may call different things by one name; an animal food is never taken for a plant.

    Raises InputProblem.
    """
    here = food(kitchen, theirs.slug)
    if _holds_animal(kitchen, theirs) and not here.animal:
        raise InputProblem(
            f"“{theirs.name}” is an animal food where {where} comes from and {here.category} here; give yours "
            "another name first.",
            "food",
        )


def _holds_animal(kitchen: Kitchen, own: OwnFood) -> bool:
    """Whether it is known to be of animal origin, by its kind, by what is in it or by the food it is like."""
    like = kitchen.handbook.foods.get(own.like)
    held = set(contents_of(own)) - {PLANT, UNKNOWN}
    return own.category in ANIMAL_CATEGORIES or bool(held) or (like is not None and like.animal)
