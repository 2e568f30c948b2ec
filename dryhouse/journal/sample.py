"""The sample journal: built once for each state of the files in `sample_data`, then copied for whoever asks."""

from __future__ import annotations

import atexit
import hashlib
import os
import shutil
import tempfile
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from pathlib import Path

from dryhouse.journal.database import in_memory
from dryhouse.journal.file_faults import is_sound
from dryhouse.journal.opening import open_journal
from dryhouse.journal.problems import as_world_problem
from dryhouse.journal.revision import HEAD, create
from dryhouse.journal.sqlite.file import copy_whole
from dryhouse.journal.store import SqlJournal
from dryhouse.kitchen.ports import Change
from dryhouse.kitchen.records import Batch, BatchEvent, Weighing
from dryhouse.kitchen.records.batches import DRYING


def sample_folder() -> Path:
    """Where the sample's tables are: inside an installed package, or beside it in a checkout."""
    package = Path(__file__).resolve().parent.parent
    inside = package / "_sample_data"
    return (inside if inside.is_dir() else package.parent / "sample_data") / "gullwing"


def fresh_copy() -> Path:
    """A copy of the sample journal of its own, gone again when the program ends."""
    with as_world_problem(_cache_folder()):
        built = _built()
    with as_world_problem(Path(tempfile.gettempdir())):
        folder = Path(tempfile.mkdtemp(prefix="dryhouse-sample-"))
        atexit.register(shutil.rmtree, folder, ignore_errors=True)
        copy = Path(shutil.copyfile(built, folder / "sample.dryhouse"))
    bring_to_the_present(copy, datetime.now(UTC))
    return copy


def bring_to_the_present(file: Path, now: datetime) -> None:
    """Move the batches that are on a dryer by whole hours, so that they still are: last weighed within the hour."""
    journal = open_journal(file, write=True)
    try:
        changes: list[Change] = []
        for batch in journal.where(Batch, state=DRYING):
            weighings = journal.where(Weighing, batch=batch.id)
            late = hours_since(max((w.at for w in weighings), default=now), now)
            if late and batch.started is not None:
                changes.append(Change(batch, replace(batch, started=batch.started + late)))
                changes += [Change(w, replace(w, at=w.at + late)) for w in weighings]
                events = journal.where(BatchEvent, batch=batch.id)
                changes += [Change(e, replace(e, at=e.at + late)) for e in events]
        if changes:
            journal.write(changes)
    finally:
        journal.close()


def hours_since(moment: datetime, now: datetime) -> timedelta:
    """The whole hours that have passed; none where it is still to come."""
    return timedelta(hours=max((now - moment) // timedelta(hours=1), 0))


def _cache_folder() -> Path:
    from platformdirs import user_cache_path

    return user_cache_path("dryhouse", appauthor=False)


def _built() -> Path:
    """The sample as a file in the person's cache, made where it is not there yet or no longer whole."""
    tables = sorted(sample_folder().glob("*.csv"))
    state = hashlib.sha256(HEAD.encode() + b"".join(table.read_bytes() for table in tables)).hexdigest()[:16]
    cache = _cache_folder() / f"sample-{state}.dryhouse"
    try:
        cache.parent.mkdir(parents=True, exist_ok=True)
    except OSError:
        cache = Path(tempfile.gettempdir()) / cache.name
    if not cache.exists() or not is_sound(cache):
        made = cache.with_name(f"{cache.name}.{os.getpid()}")
        build(made)
        os.replace(made, cache)
    return cache


def build(file: Path) -> None:
    """The sample's tables as one journal file."""
    from dryhouse.handbook.reader import handbook
    from dryhouse.kitchen.exchange import bring_in, read_records
    from dryhouse.kitchen.kitchen import Kitchen

    database = in_memory()
    create(database)
    journal = SqlJournal(database, file)
    bring_in(Kitchen(journal, handbook()), read_records(sample_folder()))
    copy_whole(database.driver, file)
    journal.close()
