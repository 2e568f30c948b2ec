"""Every record of a journal read and judged as if it were typed: what cannot be read, and what cannot be right."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from typing import Any

from dryhouse.journal.database import Database
from dryhouse.journal.mapping import Unreadable, mapped
from dryhouse.journal.sqlite import direct_sql
from dryhouse.journal.sqlite.file import orphans_in
from dryhouse.kitchen.records import Lot, LotDraw
from dryhouse.kitchen.records.links import LINKS, OWNERS_FIRST
from dryhouse.kitchen.records.problems import called, problems
from dryhouse.kitchen.records.typed_problems import typed_problems
from dryhouse.kitchen.surroundings import Surroundings
from dryhouse.science.messages import Message, message
from dryhouse.science.messages import MessageKind as Kind

_SLACK, _SCALE_G = 1.02, 1.0
_OWNERS = frozenset(owner for links in LINKS.values() for owner in links.values())
_CANNOT_JUDGE = (ValueError, TypeError, OverflowError, ArithmeticError)


@dataclass(slots=True)
class Judged:
    """What was found in the records: messages, and the numbers of those that cannot be read, by kind."""

    said: list[Message] = field(default_factory=list)
    unreadable: dict[type[Any], list[int]] = field(default_factory=lambda: defaultdict(list))

    def say(self, kind: type[Any], id: int, because: Message | str) -> None:
        """Something is wrong with this record."""
        named = {"what": called(kind).capitalize(), "number": str(id)}
        found = Kind.UNSOUND_RECORD if because else Kind.UNREADABLE_RECORD
        if isinstance(because, str) and because.startswith(f"{named['what']} {id} "):
            found = Kind.UNSOUND_RECORD_NAMED
        self.said.append(message(found, because=because, **named))


def judge_all(database: Database, most: int, newest: int | None = None) -> Judged:
    """Read and judge the records, owners before what belongs to them, until so many faults are found.

    A record whose owner is not there is read and not judged. With `newest` only so many of each kind are looked at.
    """
    from dryhouse.handbook.reader import handbook

    judged, taken = Judged(), defaultdict[int, float](float)
    around = Surroundings(_Lenient(database), handbook(), lambda moment: moment)  # type: ignore[arg-type]
    lost = orphans_in(database.driver) if newest is None else ()
    orphans = {(table, number) for table, number, _ in lost}
    for kind in OWNERS_FIRST:
        for id, record, bounded in _records(kind, direct_sql.rows(database.driver, kind, newest)):
            if record is None:
                judged.unreadable[kind].append(id)
                judged.say(kind, id, "")
            else:
                if kind in _OWNERS:
                    around.coming([record])
                if isinstance(record, LotDraw) and record.mass is not None:
                    taken[record.lot] += record.mass.si
                wrong = [] if (mapped(kind).table, id) in orphans else _wrong(record, around)
                if not bounded:
                    judged.unreadable[kind].append(id)
                    wrong = ["", *(because for because in wrong[:1] if because)]
                for because in wrong:
                    judged.say(kind, id, because)
            if len(judged.said) >= most:
                return judged
    judged.said += _overdrawn(around, taken) if newest is None else ()
    return judged


def any_unreadable(database: Database, newest: int) -> bool:
    """Whether one of so many of the newest records of a kind cannot be read."""
    return any(
        not readable
        for kind in OWNERS_FIRST
        for _, _, readable in _records(kind, direct_sql.rows(database.driver, kind, newest))
    )


def _records(kind: type[Any], rows: Iterable[tuple[Any, ...]]) -> Iterator[tuple[int, Any, bool]]:
    """Each row's number, its record (None where there is none in it), and whether the program can use it."""
    of = mapped(kind)
    at = of.columns.index("id")
    for row in rows:
        try:
            yield row[at], of.record(row), True
        except Unreadable:
            try:
                yield row[at], of.record(row, bounded=False), False
            except Unreadable:
                yield row[at], None, False


class _Lenient:
    """Answers what `Surroundings` looks up, also where a record is of no use to the program."""

    def __init__(self, database: Database) -> None:
        self._database = database

    def get(self, kind: type[Any], id: int) -> Any:
        found = _records(kind, direct_sql.rows_numbered(self._database.driver, kind, id))
        return next((record for _, record, _ in found), None)

    def where(self, kind: type[Any], **equals: Any) -> tuple[Any, ...]:
        rows = direct_sql.rows(self._database.driver, kind)
        found = (record for _, record, _ in _records(kind, rows) if record is not None)
        return tuple(r for r in found if all(getattr(r, name) == value for name, value in equals.items()))


def _wrong(record: Any, around: Surroundings) -> list[Message | str]:
    try:
        return [problem.said for problem in (*problems(record, around), *typed_problems(record))]
    except _CANNOT_JUDGE:
        return [""]


def _overdrawn(around: Surroundings, taken: dict[int, float]) -> Iterable[Message]:
    for number, grams in sorted(taken.items()):
        lot = around.get(Lot, number)
        if lot is not None and lot.mass is not None and grams > lot.mass.si * _SLACK + _SCALE_G:
            yield message(Kind.OVERDRAWN, number=str(number), food=lot.food)
