"""Whether a journal is whole: its file, the parts of it, its index of words, every record, and its backups."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from dryhouse.journal.backup_names import backups_of
from dryhouse.journal.database import Database, connect, in_memory
from dryhouse.journal.file_faults import AT_MOST, faults_of, is_sound
from dryhouse.journal.opening import newest_in_memory
from dryhouse.journal.parts import left_over, missing, strange
from dryhouse.journal.problems import as_world_problem
from dryhouse.journal.record_check import any_unreadable, judge_all
from dryhouse.journal.revision import HEAD, revision_of
from dryhouse.journal.sqlite.file import damage_in, keep_unreadable_text
from dryhouse.journal.sqlite.word_index import faults_in_index
from dryhouse.science.errors import WorldProblem
from dryhouse.science.messages import Message, message
from dryhouse.science.messages import MessageKind as Kind


def check(path: Path) -> list[Message]:
    """Everything that is wrong with the journal, a message each; nothing where it is whole. Only reads.

    Raises WorldProblem.
    """
    path = path.resolve()
    if not path.exists():
        raise WorldProblem(message(Kind.NOTHING_TO_CHECK, path=str(path)))
    with as_world_problem(path):
        database = connect(path, "ro")
        try:
            newest = revision_of(database, path) == HEAD
            found = [*faults_of(database), *wrong_parts(database, newest=newest)]
            if not (found and damage_in(database.driver, 1, quick=True)) and _can_be_read(database, newest=newest):
                if not newest:
                    database = newest_in_memory(database, path)
                keep_unreadable_text(database.driver)
                found += wrong_words(database) if not found else []
                found += judge_all(database, AT_MOST).said
        finally:
            database.close()
    return [*found, *faulty_backups(path)]


def unsound_among_newest(path: Path) -> bool:
    """Whether a record that cannot be right is among the newest of its kind: what a command may have stumbled over.
    A look of a second or two, however large the journal is."""
    path = path.resolve()
    return path.exists() and _of_its_records(path, lambda database: bool(judge_all(database, 1, _NEWEST).said))


def can_be_restored(backup: Path) -> bool:
    """Whether a backup is whole, and the newest records of each kind in it can be read: one that was made after
    something had gone wrong in a record is of no help. A look of a second or two, as above."""
    try:
        return is_sound(backup) and not _of_its_records(backup, lambda kept: any_unreadable(kept, _NEWEST))
    except WorldProblem:
        return False


_NEWEST = 20_000


def _of_its_records(path: Path, ask: Callable[[Database], bool]) -> bool:
    """The answer of a journal's records, of an older one as they are read here."""
    with as_world_problem(path):
        database = connect(path, "ro")
        try:
            if revision_of(database, path) != HEAD:
                database = newest_in_memory(database, path)
            keep_unreadable_text(database.driver)
            return ask(database)
        finally:
            database.close()


def _can_be_read(database: Database, *, newest: bool) -> bool:
    return not newest or not any(part.what in ("table", "column") for part in missing(database))


def wrong_parts(database: Database, *, newest: bool) -> list[Message]:
    """Tables, columns, indexes and triggers that should be there and are not, and triggers and views of another."""
    lost = missing(database)[:AT_MOST] if newest else []
    return [
        *(message(Kind.PART_MISSING, what=part.what, name=part.name) for part in lost),
        *(message(Kind.STRANGE_PART, name=part.name) for part in strange(database)),
        *(message(Kind.STRANGE_PART, name=part.name) for part in (left_over(database) if newest else [])),
    ]


def wrong_words(database: Database) -> list[Message]:
    """Whether the index of words says otherwise than the batches. It is asked of a copy, since asking writes."""
    copy = in_memory()
    try:
        database.driver.backup(copy.driver)
        return [message(Kind.WRONG_WORDS)] if faults_in_index(copy.driver) else []
    finally:
        copy.close()


def faulty_backups(path: Path) -> list[Message]:
    """The journal's backups that could not be restored."""
    return [message(Kind.FAULTY_BACKUP, path=str(kept)) for kept in backups_of(path) if not is_sound(kept)]
