"""Whether a journal is whole: the file, its tables, and every record, read and judged as if it were typed."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

from dryhouse.journal.database import Database, connect, in_memory
from dryhouse.journal.file_faults import AT_MOST, faults_of
from dryhouse.journal.opening import open_journal
from dryhouse.journal.problems import as_world_problem
from dryhouse.journal.revision import HEAD, create, revision_of
from dryhouse.journal.sqlite.file import parts_in
from dryhouse.kitchen.exchange.files import every_record
from dryhouse.kitchen.ports import Journal
from dryhouse.kitchen.records import RECORD_KINDS, Lot, LotDraw
from dryhouse.kitchen.records.problems import called, problems
from dryhouse.kitchen.records.typed_problems import typed_problems
from dryhouse.kitchen.surroundings import Surroundings
from dryhouse.science.errors import WorldProblem
from dryhouse.science.messages import Message, message
from dryhouse.science.messages import MessageKind as Kind

_UNREADABLE = (WorldProblem, ValueError, TypeError, OverflowError)
_CANNOT_READ = (ValueError, TypeError, OverflowError, WorldProblem)
_SLACK, _SCALE_G = 1.02, 1.0


def check(path: Path) -> list[Message]:
    """Everything that is wrong with the journal, a message each; nothing where it is whole. Only reads."""
    if not path.exists():
        raise WorldProblem(message(Kind.NOTHING_TO_CHECK, path=str(path)))
    with as_world_problem(path):
        database = connect(path, "ro")
        try:
            revision = revision_of(database, path)
            if found := faults_of(database) or (missing_parts(database) if revision == HEAD else []):
                return found
        finally:
            database.close()
        journal = open_journal(path, write=False)
        try:
            return unsound_records(journal)
        finally:
            journal.close()


def missing_parts(database: Database) -> list[Message]:
    """Tables, columns, indexes and triggers that should be there and are not, and triggers that should not be."""
    sound = in_memory()
    try:
        create(sound)
        expected, there = parts_in(sound.driver), parts_in(database.driver)
    finally:
        sound.close()
    lost = [message(Kind.PART_MISSING, what=what, name=name) for what, name in sorted(expected - there)]
    strange = sorted(name for what, name in there - expected if what in ("trigger", "view"))
    return [*lost[:AT_MOST], *(message(Kind.STRANGE_PART, name=name) for name in strange)]


def unsound_records(journal: Journal) -> list[Message]:
    """Records the program would stumble over, or that contradict themselves or each other."""
    try:
        return _unsound(journal)
    except _CANNOT_READ:
        found = [said for kind in RECORD_KINDS for said in _unreadable_of(journal, kind)]
        if not found:
            raise
        return found[:AT_MOST]


def _unreadable_of(journal: Journal, kind: type[Any]) -> Iterator[Message]:
    for id in range(1, journal.next_id(kind)):
        if not _reads(lambda id=id: journal.get(kind, id)):  # type: ignore[misc]
            yield message(Kind.UNREADABLE_RECORD, what=called(kind).capitalize(), number=str(id))


def _reads(read: Callable[[], object]) -> bool:
    try:
        read()
    except _UNREADABLE:
        return False
    return True


def _unsound(journal: Journal) -> list[Message]:
    from dryhouse.handbook.reader import handbook

    around = Surroundings(journal, handbook(), lambda moment: moment)
    taken: dict[int, float] = defaultdict(float)
    found: list[Message] = []
    for record in every_record(journal):
        if isinstance(record, LotDraw) and record.mass is not None:
            taken[record.lot] += record.mass.si
        for problem in (*problems(record, around), *typed_problems(record)):
            what = called(type(record)).capitalize()
            found.append(message(Kind.UNSOUND_RECORD, because=problem.said, what=what, number=str(record.id)))
        if len(found) >= AT_MOST:
            return found[:AT_MOST]
    return [*found, *_overdrawn(journal, taken)]


def _overdrawn(journal: Journal, taken: dict[int, float]) -> Iterator[Message]:
    for number, grams in sorted(taken.items()):
        lot = journal.get(Lot, number)
        if lot is not None and lot.mass is not None and grams > lot.mass.si * _SLACK + _SCALE_G:
            yield message(Kind.OVERDRAWN, number=str(number), food=lot.food)
