"""A journal's records to a JSON file or a folder of tables, and from one."""

from __future__ import annotations

import csv
import io
import json
import os
import re
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import Any

from dryhouse.kitchen.exchange.formats import (
    as_cells,
    as_json,
    columns,
    from_cells,
    from_json,
    refuse_half_characters,
)
from dryhouse.kitchen.ports import Journal, Record
from dryhouse.kitchen.records import RECORD_KINDS, Batch, BatchEvent, BatchPart, Weighing
from dryhouse.science.errors import InputProblem, WorldProblem

FORMAT, VERSION = "dryhouse journal", 1
_OF_BATCHES = (BatchPart, Weighing, BatchEvent)
_AT_ONCE = 500
_KINDS: dict[str, type[Any]] = {kind.__name__: kind for kind in RECORD_KINDS}


def every_record(journal: Journal) -> Iterator[Record]:
    """All records, kind by kind; those of batches a few batches at a time, so that a long journal fits."""
    batches = sorted(b.id for b in journal.where(Batch))
    for kind in RECORD_KINDS:
        if kind in _OF_BATCHES:
            for start in range(0, len(batches), _AT_ONCE):
                yield from journal.where(kind, batch=tuple(batches[start : start + _AT_ONCE]))
        else:
            yield from journal.where(kind)


def write_records(records: Iterable[Record], destination: Path) -> int:
    """Write a `.json` file, or a folder of tables for any other name; answers how many records.

    A file appears whole or not at all. Raises InputProblem for a file that is already there and
    WorldProblem where the disk fails.
    """
    as_file = destination.suffix.lower() == ".json" and not destination.is_dir()
    if destination.exists() and not destination.is_dir():
        raise InputProblem(f"“{destination}” is already there; name a file that is not, or a folder.")
    if destination.suffix and not as_file and not destination.is_dir():
        raise InputProblem(f"“{destination}” is neither a .json file nor a folder; name one of these.")
    try:
        destination.parent.mkdir(parents=True, exist_ok=True)
        return _to_file(records, destination) if as_file else _to_folder(records, destination)
    except OSError as error:
        raise WorldProblem(f"“{destination}” could not be written ({error.strerror or error}).") from error


def _to_file(records: Iterable[Record], file: Path) -> int:
    part = file.with_name(file.name + ".part")
    count = 0
    last: type | None = None
    with part.open("w", encoding="utf-8") as out:
        out.write(f'{{"format": {json.dumps(FORMAT)}, "version": {VERSION}, "records": {{')
        for record in records:
            if type(record) is not last:
                out.write(("\n], " if last else "\n") + f'"{type(record).__name__}": [\n')
                last = type(record)
            else:
                out.write(",\n")
            out.write(json.dumps(as_json(record), ensure_ascii=False, allow_nan=False))
            count += 1
        out.write(("\n]" if last else "") + "}}\n")
        out.flush()
        os.fsync(out.fileno())
    os.replace(part, file)
    return count


def table_file(kind: type[Any]) -> str:
    """The name of a kind's table: `batch_event.csv`."""
    return re.sub(r"(?<!^)(?=[A-Z])", "_", kind.__name__).lower() + ".csv"


def _to_folder(records: Iterable[Record], folder: Path) -> int:
    folder.mkdir(exist_ok=True)
    lines: dict[type, Any] = {}
    files: list[io.TextIOWrapper] = []
    count = 0
    try:
        for kind in RECORD_KINDS:
            file = (folder / table_file(kind)).open("w", encoding="utf-8", newline="")
            files.append(file)
            lines[kind] = csv.writer(file)
            lines[kind].writerow(columns(kind))
        for record in records:
            lines[type(record)].writerow(as_cells(record))
            count += 1
    finally:
        for file in files:
            file.close()
    return count


def read_records(source: Path) -> list[Record]:
    """Every record of an exported file or folder, checked. Raises InputProblem saying what is wrong where."""
    if not source.exists():
        raise InputProblem(f"There is no “{source}” to import.")
    try:
        records = _from_folder(source) if source.is_dir() else _from_file(source)
    except UnicodeDecodeError:
        raise InputProblem(f"“{source}” is not text that this program wrote; export the journal again.") from None
    except OSError as error:
        raise WorldProblem(f"“{source}” could not be read ({error.strerror or error}).") from error
    return records


def _from_file(file: Path) -> list[Record]:
    text = file.read_text(encoding="utf-8-sig")
    try:
        content = json.loads(text)
    except (ValueError, RecursionError) as error:
        at = f" (line {error.lineno})" if isinstance(error, json.JSONDecodeError) else ""
        raise InputProblem(f"“{file}” is not a journal's export: it is not whole JSON{at}.") from None
    refuse_half_characters(text, content, file.name)
    if not isinstance(content, dict) or content.get("format") != FORMAT:
        raise InputProblem(f"“{file}” is not a journal's export: it does not say “{FORMAT}”.")
    if content.get("version") != VERSION:
        raise InputProblem(f"“{file}” has version {content.get('version')}; this program reads version {VERSION}.")
    groups = content.get("records")
    if not isinstance(groups, dict) or not all(isinstance(entries, list) for entries in groups.values()):
        raise InputProblem(f"“{file}” has no list of records.")
    if strange := sorted(set(groups) - set(_KINDS)):
        raise InputProblem(f"“{file}” has records of a kind not known here: “{strange[0]}”.")
    return [
        from_json(_KINDS[name], values, f"{file.name}, {name} {number}")
        for name, entries in groups.items()
        for number, values in enumerate(entries, 1)
    ]


def _from_folder(folder: Path) -> list[Record]:
    tables = [(kind, folder / table_file(kind)) for kind in RECORD_KINDS if (folder / table_file(kind)).is_file()]
    if not tables:
        raise InputProblem(f"“{folder}” holds none of the tables of a journal, such as batch.csv.")
    return [record for kind, file in tables for record in _from_table(kind, file)]


def _from_table(kind: type[Any], file: Path) -> Iterator[Record]:
    known = {*columns(kind), *(name.rsplit("_", 1)[0] for name in columns(kind) if name.endswith("_typed"))}
    csv.field_size_limit(1 << 24)
    with file.open(encoding="utf-8-sig", newline="") as lines:
        table = csv.DictReader(lines)
        if strange := sorted(set(table.fieldnames or ()) - known):
            raise InputProblem(f"{file.name} has a column “{strange[0]}”, which a {kind.__name__} does not have.")
        try:
            for cells in table:
                where = f"{file.name}, line {table.line_num}"
                if None in cells or None in cells.values():
                    raise InputProblem(f"{where} has not as many cells as the table has columns.")
                yield from_cells(kind, cells, where)
        except csv.Error as error:
            raise InputProblem(f"{file.name}, line {table.line_num}: {error}.") from None
