"""A journal's records to a JSON file or a folder of tables, which is there whole or not at all."""

from __future__ import annotations

import csv
import json
import os
import re
import shutil
from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import ExitStack
from pathlib import Path
from typing import IO, Any

from dryhouse.kitchen.exchange.cells import as_cells, columns
from dryhouse.kitchen.exchange.formats import as_json
from dryhouse.kitchen.ports import BatchQuery, Journal, Record
from dryhouse.kitchen.records import Batch, BatchEvent, BatchPart, Weighing
from dryhouse.kitchen.records.links import OWNERS_FIRST
from dryhouse.science.errors import InputProblem, WorldProblem

FORMAT, VERSION = "dryhouse journal", 1
MANIFEST = "manifest.csv"
"""The table of a folder that says how many records each of the others holds."""
_OF_BATCHES = (BatchPart, Weighing, BatchEvent)
_AT_ONCE = 500
_PART = ".dryhouse-part"
Tell = Callable[[int], None]
"""Told now and then how many records are through; what it raises stops the work, and nothing is left of it."""


def every_record(journal: Journal) -> Iterator[Record]:
    """All records, each kind after those it refers to; batches and what belongs to them a few batches at a time, so
    that a long journal fits."""
    batches = tuple(journal.batch_ids(BatchQuery(sort="id", descending=False)))
    for kind in OWNERS_FIRST:
        if kind is Batch or kind in _OF_BATCHES:
            link = "id" if kind is Batch else "batch"
            for start in range(0, len(batches), _AT_ONCE):
                yield from journal.where(kind, **{link: batches[start : start + _AT_ONCE]})
        else:
            yield from journal.where(kind)


def write_records(records: Iterable[Record], destination: Path, tell: Tell = lambda _count: None) -> int:
    """Write a `.json` file, or a new folder of tables for any other name; answers how many records.

    What is written appears whole or not at all. Raises InputProblem where something is there already, and
    WorldProblem where the disk fails.
    """
    if isinstance(records, Sequence):
        records = sorted(records, key=lambda record: OWNERS_FIRST.index(type(record)))
    as_file = destination.suffix.lower() == ".json"
    _refuse_taken(destination, as_file)
    part = destination.with_name(f".{destination.name}{_PART}")
    try:
        destination.parent.mkdir(parents=True, exist_ok=True)
        _remove(part)
        count = (_to_file if as_file else _to_folder)(_counted(records, tell), part)
        _refuse_taken(destination, as_file)
        if destination.is_dir():
            destination.rmdir()
        os.replace(part, destination)
        _to_disk(destination.parent)
        return count
    except OSError as error:
        raise WorldProblem(f"“{destination}” could not be written ({error.strerror or error}).") from error
    finally:
        _remove(part)


def _refuse_taken(destination: Path, as_file: bool) -> None:
    if destination.suffix and not as_file and not destination.is_dir():
        raise InputProblem(f"“{destination}” is neither a .json file nor a folder; name one of these.")
    if not os.path.lexists(destination) or (not as_file and _is_empty_folder(destination)):
        return
    number = 2
    while os.path.lexists(free := destination.with_name(f"{destination.stem}-{number}{destination.suffix}")):
        number += 1
    raise InputProblem(f"“{destination}” is already there and stays as it is; “{free}” is a name that is free.")


def _is_empty_folder(path: Path) -> bool:
    return path.is_dir() and not path.is_symlink() and not any(path.iterdir())


def _counted(records: Iterable[Record], tell: Tell) -> Iterator[Record]:
    for count, record in enumerate(records):
        if count % _AT_ONCE == 0:
            tell(count)
        yield record


def _to_file(records: Iterable[Record], file: Path) -> int:
    encode = json.JSONEncoder(ensure_ascii=False, allow_nan=False).encode
    counts: Counter[type] = Counter()
    waiting = list(OWNERS_FIRST)
    with file.open("w", encoding="utf-8", newline="\n") as out:
        out.write(f'{{"format": {json.dumps(FORMAT)}, "version": {VERSION}, "records": {{')
        for record in records:
            kind = type(record)
            if not counts[kind]:
                _open_group(out, waiting, kind)
            out.write(f"{',' if counts[kind] else ''}\n{encode(as_json(record))}")
            counts[kind] += 1
        _open_group(out, waiting, None)
        named = {kind.__name__: counts[kind] for kind in OWNERS_FIRST}
        out.write(f'}},\n"counts": {json.dumps(named)}}}\n')
        _finish(out)
    return counts.total()


def _open_group(out: IO[str], waiting: list[type], kind: type | None) -> None:
    """Begin a kind's list; those that come before it and have no record are lists of nothing."""
    if kind is not None and kind not in waiting:
        raise ValueError(f"{kind} comes after kinds that refer to it")
    while waiting:
        close = "" if len(waiting) == len(OWNERS_FIRST) else "\n],"
        out.write(f'{close}\n"{waiting[0].__name__}": [')
        if waiting.pop(0) is kind:
            return
    out.write("\n]")


def table_file(kind: type[Any]) -> str:
    """The name of a kind's table: `batch_event.csv`."""
    return re.sub(r"(?<!^)(?=[A-Z])", "_", kind.__name__).lower() + ".csv"


def _to_folder(records: Iterable[Record], folder: Path) -> int:
    folder.mkdir()
    counts: Counter[type] = Counter()
    with ExitStack() as files:

        def begin(name: str, *first: str) -> Any:
            file = files.enter_context((folder / name).open("w", encoding="utf-8", newline=""))
            files.callback(_finish, file)
            lines = csv.writer(file)
            lines.writerow(first)
            return lines

        tables = {kind: begin(table_file(kind), *columns(kind)) for kind in OWNERS_FIRST}
        for record in records:
            tables[type(record)].writerow(as_cells(record))
            counts[type(record)] += 1
        manifest = begin(MANIFEST, "table", "records")
        manifest.writerows((table_file(kind), counts[kind]) for kind in OWNERS_FIRST)
    _to_disk(folder)
    return counts.total()


def _finish(file: IO[str]) -> None:
    """On the disk before it gets its name."""
    file.flush()
    os.fsync(file.fileno())


def _to_disk(folder: Path) -> None:
    if os.name != "nt":
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)


def _remove(part: Path) -> None:
    """What an export that was stopped left, or leaves."""
    if part.is_dir():
        shutil.rmtree(part, ignore_errors=True)
    else:
        part.unlink(missing_ok=True)
