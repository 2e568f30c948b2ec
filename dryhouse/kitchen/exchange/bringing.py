"""Records from elsewhere joined to a journal: checked, renumbered together, and none of them twice."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import replace
from typing import Any

from dryhouse.handbook.tables import ANIMAL_CATEGORIES
from dryhouse.kitchen.exchange.files import every_record
from dryhouse.kitchen.foods.catalog import food
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.ports import Done, Journal, Pending, Record
from dryhouse.kitchen.records import RECORD_KINDS, Batch, OwnFood
from dryhouse.kitchen.records.foods import PLANT, UNKNOWN, contents_of
from dryhouse.kitchen.records.links import LINKS, ONCE, OWNERS_FIRST
from dryhouse.kitchen.records.problems import called, problems
from dryhouse.kitchen.records.typed_problems import typed_problems
from dryhouse.kitchen.surroundings import Surroundings
from dryhouse.science.display import counted
from dryhouse.science.errors import InputProblem
from dryhouse.words.messages import problem_sentence

_AT_MOST = 6
"""How many problems of a file are said at once."""


def bring_in(kitchen: Kitchen, records: Sequence[Record]) -> Done[Record]:
    """Join the records to the journal in one write; undo takes them all out again.

    An empty journal keeps their numbers. In any other they are numbered anew, with all that refers to
    them, and those that stand there already, the same in every field, are not added again; where only
    one of a name can be, the one already there stays. Raises InputProblem and then changes nothing.
    """
    listed = _numbered(records)
    _refuse_broken(listed)
    _refuse_unsound(kitchen, listed)
    journal = kitchen.journal
    pending, kept = Pending(), 0
    if any(journal.where(kind) for kind in RECORD_KINDS):
        new, kept = _joined(journal, listed)
        pending.add(*new)
    else:
        pending.add(*sorted(listed, key=lambda r: OWNERS_FIRST.index(type(r))))
    return kitchen.commit(_what(pending, len(listed), kept), pending, judged=True)


def _numbered(records: Iterable[Record]) -> list[Any]:
    """The records, each with a number: a table kept by hand may leave them out and means its lines in order."""
    listed = list(records)
    highest: Counter[type] = Counter()
    for record in listed:
        highest[type(record)] = max(highest[type(record)], record.id)
    numbered = []
    for record in listed:
        if record.id == 0:
            highest[type(record)] += 1
            record = replace(record, id=highest[type(record)])
        numbered.append(record)
    return numbered


def _refuse_broken(records: Sequence[Any]) -> None:
    present: dict[type, set[int]] = defaultdict(set)
    for record in records:
        kind = type(record).__name__
        if record.id < 0 or record.id in present[type(record)]:
            raise InputProblem(f"{kind} {record.id} stands twice, or has a number below 1; each needs its own.")
        present[type(record)].add(record.id)
    for record in records:
        for name, target in LINKS.get(type(record), {}).items():
            number = getattr(record, name)
            if number is not None and number not in present[target]:
                kind = type(record).__name__
                raise InputProblem(f"{kind} {record.id} belongs to {target.__name__} {number}, which is not there.")
    for once, names in ONCE.items():
        seen = Counter(_mark(r, names) for r in records if type(r) is once)
        for mark, times in seen.items():
            if times > 1:
                raise InputProblem(f"There are {times} records {once.__name__} of the name “{' '.join(mark)}”.")


def _refuse_unsound(kitchen: Kitchen, records: Sequence[Any]) -> None:
    """Each record is judged as if it were typed, among those that come with it. Says the first few problems."""
    around = Surroundings(None, kitchen.handbook, kitchen.local)
    mine = {own.slug: own for own in kitchen.journal.where(OwnFood)}
    around.coming(mine.values())
    around.coming(records)
    said: list[str] = []
    for record in records:
        if isinstance(record, OwnFood) and record.slug in mine:
            same_kind(kitchen, record, "this journal")
        for problem in (*problems(record, around), *typed_problems(record)):
            said.append(f"{called(type(record)).capitalize()} {record.id}: {problem_sentence(problem)}")
    if said:
        more = f" And {len(said) - _AT_MOST} more of the kind." if len(said) > _AT_MOST else ""
        raise InputProblem(" ".join(said[:_AT_MOST]) + more)


def same_kind(kitchen: Kitchen, theirs: OwnFood, where: str) -> None:
    """Two kitchens may call different things by one name; an animal food is never taken for a plant."""
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


def _mark(record: Any, names: tuple[str, ...]) -> tuple[str, ...]:
    return tuple(getattr(record, name) for name in names)


def _joined(journal: Journal, records: Sequence[Any]) -> tuple[list[Any], int]:
    """Those that are new, with new numbers, and how many of hers were kept over others of the same name; what is
    the same as one there stands for that one."""
    kept = 0
    standing: dict[Any, list[int]] = defaultdict(list)
    taken: dict[Any, int] = {}
    for record in every_record(journal):
        standing[replace(record, id=0)].append(record.id)
        if names := ONCE.get(type(record)):
            taken[type(record), _mark(record, names)] = record.id
    numbers: dict[tuple[type, int], int] = {}
    new = []
    for record in sorted(records, key=lambda r: OWNERS_FIRST.index(type(r))):
        links = {
            name: numbers[target, getattr(record, name)]
            for name, target in LINKS.get(type(record), {}).items()
            if getattr(record, name) is not None
        }
        moved = replace(record, id=0, **links)
        names = ONCE.get(type(record), ())
        if same := standing.get(moved):
            numbers[type(record), record.id] = same.pop(0)
        elif names and (there := taken.get((type(record), _mark(record, names)))):
            numbers[type(record), record.id] = there
            kept += 1
        else:
            number = journal.next_id(type(record))
            numbers[type(record), record.id] = number
            new.append(replace(moved, id=number))
    return new, kept


def _what(pending: Pending, given: int, kept: int) -> str:
    added = len(pending.changes)
    batches = sum(isinstance(c.record, Batch) for c in pending.changes)
    known = given - added - kept
    over = f"; {counted(kept, 'record')} of yours kept over another of the same name" if kept else ""
    there = f"; {known} {'was' if known == 1 else 'were'} there already" if known else ""
    return f"Imported {counted(added, 'record')}, among them {counted(batches, 'batch', 'batches')}{there}{over}"
