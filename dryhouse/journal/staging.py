"""New records on their way into a journal: kept beside it until all have come, then written in one transaction."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable, Mapping
from contextlib import AbstractContextManager
from typing import Any

from dryhouse.journal.database import Database
from dryhouse.journal.mapping import mapped
from dryhouse.journal.reading import last_number
from dryhouse.journal.sqlite.waiting_rows import WaitingRows
from dryhouse.journal.writing import write
from dryhouse.kitchen.ports import Change, R, Record
from dryhouse.kitchen.records.links import OWNERS_FIRST

_AT_ONCE = 1000


class Waiting:
    """It keeps the promises of `kitchen.ports.Staging`."""

    def __init__(self) -> None:
        self._rows = WaitingRows()
        self._held: defaultdict[type[Any], list[Any]] = defaultdict(list)

    def add(self, record: Record) -> None:
        """One more record, under a number that no other of its kind has here."""
        held = self._held[type(record)]
        held.append(record)
        if len(held) >= _AT_ONCE:
            self._put(type(record))

    def get(self, kind: type[R], id: int) -> R | None:
        """A record that waits."""
        self._put(kind)
        row = self._rows.row(kind, id)
        return None if row is None else mapped(kind).record(row)

    def beside(self, database: Database) -> AbstractContextManager[None]:
        """Inside, what waits is moved much faster; to be begun before the transaction, where there is a choice."""
        for kind in tuple(self._held):
            self._put(kind)
        return self._rows.beside(database.driver)

    def move(
        self, database: Database, edits: Callable[[Mapping[type, int]], Iterable[Change]]
    ) -> Mapping[type, int]:
        """All that waits, and the edits, into a journal, inside a transaction that has been begun."""
        for kind in tuple(self._held):
            self._put(kind)
        bases = {kind: last_number(database.connection, kind) for kind in OWNERS_FIRST}
        for kind in OWNERS_FIRST:
            self._rows.move(kind, database.driver, bases)
        write(database, list(edits(bases)))
        return bases

    def close(self) -> None:
        """Let go of all that waits."""
        self._rows.close()

    def _put(self, kind: type[Any]) -> None:
        if held := self._held.pop(kind, None):
            self._rows.put(kind, held)
