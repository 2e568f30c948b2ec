"""The two journals that must keep the same promises: in memory, and in a file."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from dryhouse.journal.database import Database
from dryhouse.journal.opening import open_journal
from dryhouse.kitchen.ports import Journal
from tests.fakes import FakeJournal

BOTH = ("in memory", "in a file")


@contextmanager
def empty_journal(which: str) -> Iterator[Journal]:
    """An empty journal of one of the two sorts."""
    if which == "in memory":
        yield FakeJournal()
        return
    with TemporaryDirectory() as folder:
        journal = open_journal(Path(folder) / "journal.dryhouse", write=True)
        try:
            yield journal
        finally:
            journal.close()


def ask(database: Database, query: str, values: tuple[Any, ...] = ()) -> list[Any]:
    """What SQLite itself answers, row by row."""
    return database.driver.execute(query, values).fetchall()


def value(database: Database, query: str, values: tuple[Any, ...] = ()) -> Any:
    """The first value of its answer."""
    return ask(database, query, values)[0][0]
