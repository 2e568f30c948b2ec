"""What a check found, put right where that loses nothing.

Indexes are made anew, what is strange is taken out, and records that cannot be read are set aside in a file of
their own.
"""

from __future__ import annotations

import json
import os
from collections.abc import Iterable
from math import isfinite
from pathlib import Path
from typing import Any

from dryhouse.journal.backup_names import folder_of, stamp
from dryhouse.journal.database import Database, connect
from dryhouse.journal.parts import left_over, missing, strange
from dryhouse.journal.problems import as_world_problem
from dryhouse.journal.record_check import judge_all
from dryhouse.journal.revision import HEAD, revision_of
from dryhouse.journal.sqlite import mends
from dryhouse.journal.sqlite.file import copy_whole, damage_in, enforce_foreign_keys, keep_unreadable_text
from dryhouse.journal.sqlite.word_index import make_anew
from dryhouse.kitchen.records import RECORD_KINDS
from dryhouse.kitchen.records.links import LINKS
from dryhouse.kitchen.records.shapes import shapes
from dryhouse.science.errors import WorldProblem
from dryhouse.science.messages import Message, message
from dryhouse.science.messages import MessageKind as Kind

_MENDABLE = frozenset(
    {Kind.PART_MISSING, Kind.STRANGE_PART, Kind.WRONG_WORDS, Kind.UNREADABLE_RECORD, Kind.BELONGS_TO_NOTHING}
)
"""What is told by these can be mended, as far as tables and pages are there."""


def mendable(found: Message) -> bool:
    """Whether what a check found can be mended: of the file itself only what is wrong in one row."""
    if found.kind is not Kind.FILE_DAMAGED:
        return found.kind in _MENDABLE
    return all(mends.is_of_one_row(str(term.value)) for term in found.terms if term.name == "found")


_ALL = 10**9


def mend(path: Path) -> list[Message]:
    """Mend what can be mended, in one transaction, and say what was done; the file as it was is kept beside.

    Raises WorldProblem, and changes nothing, where a part of the file itself is gone: a backup is needed then.
    """
    path = path.resolve()
    with as_world_problem(path):
        database = connect(path, "rw")
        try:
            if revision_of(database, path) != HEAD or not _can_be_mended(database):
                raise WorldProblem(message(Kind.NOT_MENDABLE, path=str(path)))
            keep_unreadable_text(database.driver)
            return _mended(database, path)
        finally:
            database.close()


def _can_be_mended(database: Database) -> bool:
    wrong = [said for said in damage_in(database.driver, _ALL, quick=True) if not mends.is_of_one_row(said)]
    tables = {part.name for part in missing(database) if part.what in ("table", "column")}
    return not wrong and all(name.startswith("batch_words") for name in tables)


def _mended(database: Database, path: Path) -> list[Message]:
    folder = folder_of(path)
    folder.mkdir(exist_ok=True)
    moment = stamp()
    former = folder / f"{path.stem}-before-mending-{moment}{path.suffix}"
    copy_whole(database.driver, former)
    done: list[Message] = []
    aside = folder / f"{path.stem}-set-aside-{moment}.json"
    enforce_foreign_keys(database.driver, False)
    try:
        with database.transaction() as connection:
            for part in (*strange(database), *left_over(database)):
                mends.take_out(database.driver, part)
                done.append(message(Kind.TAKEN_OUT, name=part.name))
            done += [message(Kind.MADE_ANEW, name=name) for name in _indexes(database, connection)]
            mends.without_word_index(database.driver)
            rows, cleared = _set_aside(database)
            make_anew(database.driver)
            mends.compare_indexes(database.driver)
            done += cleared
            if rows:
                _write(aside, rows)
                done.append(message(Kind.SET_ASIDE, count=len(rows), path=str(aside)))
    finally:
        enforce_foreign_keys(database.driver, True)
    return [*done, message(Kind.WORDS_MADE_ANEW), message(Kind.FORMER_KEPT, path=str(former))]


def _indexes(database: Database, connection: Any) -> Iterable[str]:
    from dryhouse.journal.tables import metadata

    lost = {part.name for part in missing(database) if part.what == "index"}
    for table in metadata.tables.values():
        for index in table.indexes:
            if index.name in lost:
                index.create(connection)
                yield str(index.name)


def _set_aside(database: Database) -> tuple[list[dict[str, Any]], list[Message]]:
    """Take out the records that cannot be read and those whose owner is gone, with what belongs to them.

    A link that may be missing is emptied instead. Answers the rows that were taken out, and what was emptied.
    """
    aside = _Aside(database)
    for kind, ids in judge_all(database, _ALL).unreadable.items():
        for id in ids:
            aside.take(kind, id)
    for kind in RECORD_KINDS:
        for name, owner in LINKS.get(kind, {}).items():
            aside.loosen(kind, name, mends.orphans(database.driver, kind, name, owner))
    return aside.taken, aside.cleared


class _Aside:
    """What is taken out of a journal on the way."""

    def __init__(self, database: Database) -> None:
        self.driver = database.driver
        self.taken: list[dict[str, Any]] = []
        self.cleared: list[Message] = []

    def take(self, kind: type[Any], id: int) -> None:
        """Take a row out, with what belongs to it."""
        row = mends.row(self.driver, kind, id)
        if row is None:
            return
        self.taken.append({"kind": kind.__name__, "row": {name: _plain(value) for name, value in row.items()}})
        mends.remove(self.driver, kind, id)
        for belonging, links in LINKS.items():
            for name, owner in links.items():
                if owner is kind:
                    self.loosen(belonging, name, mends.numbers_where(self.driver, belonging, name, id))

    def loosen(self, kind: type[Any], name: str, ids: list[int]) -> None:
        """Empty the link of these rows; where it may not be missing, take the rows out."""
        may_be_missing = next(shape.missing for shape in shapes(kind) if shape.name == name)
        for id in ids:
            if may_be_missing:
                mends.empty(self.driver, kind, name, id)
                self.cleared.append(message(Kind.LINK_EMPTIED, what=kind.__name__, number=str(id), name=name))
            else:
                self.take(kind, id)


def _plain(value: Any) -> Any:
    """A value of a column as JSON holds it; what is no text or no number is written out."""
    if isinstance(value, bytes):
        return {"bytes": value.hex()}
    if isinstance(value, float) and not isfinite(value):
        return {"number": repr(value)}
    return value


def _write(file: Path, rows: list[dict[str, Any]]) -> None:
    """On the disk before the records are gone from the journal."""
    with file.open("w", encoding="utf-8") as out:
        json.dump({"rows": rows}, out, indent=1)
        out.flush()
        os.fsync(out.fileno())
