"""The records of an exported file or folder, one at a time, each after those it refers to."""

from __future__ import annotations

import csv
import errno
import io
from collections.abc import Iterator
from pathlib import Path
from typing import Any, NamedTuple

from dryhouse.kitchen.exchange.cells import columns, from_cells
from dryhouse.kitchen.exchange.files import FORMAT, MANIFEST, VERSION, table_file
from dryhouse.kitchen.exchange.formats import from_json, refuse_halves
from dryhouse.kitchen.exchange.json_stream import JsonStream
from dryhouse.kitchen.exchange.plain import plain
from dryhouse.kitchen.ports import Record
from dryhouse.kitchen.records import RECORD_KINDS
from dryhouse.kitchen.records.field_problems import short
from dryhouse.kitchen.records.links import LINKS, OWNERS_FIRST
from dryhouse.science.display import counted
from dryhouse.science.errors import InputProblem, WorldProblem

_KINDS: dict[str, type[Any]] = {kind.__name__: kind for kind in RECORD_KINDS}
_LONGEST_CELL = 1 << 24


class Entry(NamedTuple):
    """A record, and how much of the file has been read by then."""

    record: Any
    share: float
    sound: bool = False
    """Whether each of its fields by itself was found in order while it was read."""


def read_records(source: Path) -> list[Record]:
    """Every record of an exported file or folder. Raises InputProblem saying what is wrong where."""
    return [entry.record for entry in entries(source)]


def entries(source: Path) -> Iterator[Entry]:
    """The records one at a time. Raises InputProblem saying what is wrong where, and WorldProblem."""
    try:
        if not source.exists():
            raise InputProblem(f"There is no “{short(source)}” to import.")
        yield from _of_folder(source) if source.is_dir() else _of_file(source)
    except UnicodeDecodeError:
        raise InputProblem(f"“{source}” is not text that this program wrote; export the journal again.") from None
    except OSError as error:
        if error.errno == errno.ENAMETOOLONG:
            raise InputProblem(f"“{short(source)}” is longer than the name of any file.") from None
        why = error.strerror or error
        raise WorldProblem(f"“{short(source)}” could not be read ({why}).") from error


# --- JSON ------------------------------------------------------------------------------------------------


def _of_file(file: Path) -> Iterator[Entry]:
    with file.open("rb") as opened:
        yield from _JsonExport(JsonStream(opened, file), file).entries()


class _JsonExport:
    def __init__(self, text: JsonStream, file: Path) -> None:
        self._text, self._file = text, file
        self._size = file.stat().st_size
        self._seen: set[type] = set()
        self._later: list[tuple[type, tuple[int, int]]] = []
        """Lists that stand before those they refer to: of what kind, and where in the file."""

    def entries(self) -> Iterator[Entry]:
        text, said = self._text, dict[str, Any]()
        if text.next_mark() != "{":
            text.value()
            raise self._other()
        for name in text.members():
            if name == "records":
                self._refuse_other(said)
                yield from self._groups()
                said[name] = True
            else:
                said[name] = text.value()
        if text.next_mark():
            text.take("")
        self._refuse_other({"format": None, "version": None, **said})
        if "records" not in said:
            raise self._no_list()
        for kind, place in sorted(self._later, key=lambda later: OWNERS_FIRST.index(later[0])):
            text.go_to(place)
            yield from self._group(kind)

    def _refuse_other(self, said: dict[str, Any]) -> None:
        if "format" in said and said["format"] != FORMAT:
            raise self._other()
        if "version" in said and said["version"] != VERSION:
            version = short(said["version"])
            raise InputProblem(f"“{self._file}” has version {version}; this program reads version {VERSION}.")

    def _other(self) -> InputProblem:
        return InputProblem(f"“{self._file}” is not a journal's export: it does not say “{FORMAT}”.")

    def _no_list(self) -> InputProblem:
        return InputProblem(f"“{self._file}” has no list of records.")

    def _groups(self) -> Iterator[Entry]:
        text = self._text
        if text.next_mark() not in ("{", ""):
            raise self._no_list()
        for name in text.members():
            kind = _KINDS.get(name)
            if kind is None:
                strange = short(name)
                raise InputProblem(f"“{self._file}” has records of a kind not known here: “{strange}”.")
            if text.next_mark() not in ("[", ""):
                raise self._no_list()
            text.take("[")
            if self._seen.issuperset(LINKS.get(kind, {}).values()) and not self._waits(kind):
                self._seen.add(kind)
                yield from self._group(kind)
            else:
                self._later.append((kind, text.place()))
                for _ in text.bunches():
                    pass

    def _waits(self, kind: type) -> bool:
        waiting = {later for later, _ in self._later}
        return bool(waiting.intersection(LINKS.get(kind, {}).values()))

    def _group(self, kind: type[Any]) -> Iterator[Entry]:
        name, number = f"{self._file.name}, {kind.__name__}", 0
        for many in self._text.bunches():
            share = self._text.reached() / self._size
            for values, record in zip(many, plain(kind, many), strict=True):
                number += 1
                if self._text.halves:
                    refuse_halves(values, f"{name} {number}")
                if record is not None:
                    yield Entry(record, share, True)
                else:
                    yield Entry(from_json(kind, values, f"{name} {number}"), share)


# --- tables ----------------------------------------------------------------------------------------------


def _of_folder(folder: Path) -> Iterator[Entry]:
    tables = [(kind, folder / table_file(kind)) for kind in OWNERS_FIRST if (folder / table_file(kind)).is_file()]
    if not tables:
        raise InputProblem(f"“{folder}” holds none of the tables of a journal, such as batch.csv.")
    expected = _manifest(folder / MANIFEST)
    there = {file.name for _, file in tables}
    for name in expected:
        if name not in there:
            raise InputProblem(f"“{folder}” has lost {name}, which was exported with it; export the journal again.")
    sizes = {file: file.stat().st_size for _, file in tables}
    before, whole = 0, sum(sizes.values())
    for kind, file in tables:
        count = 0
        for record, at in _of_table(kind, file):
            count += 1
            yield Entry(record, (before + at) / whole)
        before += sizes[file]
        if count < expected.get(file.name, 0):
            raise InputProblem(
                f"{file.name} has {counted(count, 'record')}, and {expected[file.name]} were exported; export the "
                f"journal again, or remove {MANIFEST} where you took lines out yourself."
            )


def _manifest(file: Path) -> dict[str, int]:
    """How many records each table was exported with; nothing where nobody says."""
    if not file.is_file():
        return {}
    with file.open(encoding="utf-8-sig", newline="") as lines:
        said = [line for line in csv.reader(lines) if line]
    counted_right = all(len(line) == 2 and line[1].isdecimal() for line in said[1:])
    if said[:1] != [["table", "records"]] or not counted_right:
        raise InputProblem(f"{file.name} is not the list of tables that was exported; export the journal again.")
    return {name: int(count) for name, count in said[1:] if len(count) < 16}


def _of_table(kind: type[Any], file: Path) -> Iterator[tuple[Any, int]]:
    known = {*columns(kind), *(name.rsplit("_", 1)[0] for name in columns(kind) if name.endswith("_typed"))}
    csv.field_size_limit(_LONGEST_CELL)
    with file.open("rb") as opened, io.TextIOWrapper(opened, encoding="utf-8-sig", newline="") as lines:
        table = csv.DictReader(lines)
        try:
            names = table.fieldnames
            if not names:
                raise InputProblem(f"{file.name} is empty: its first line should name the columns, such as id.")
            if strange := sorted(set(names) - known):
                raise InputProblem(
                    f"{file.name} has a column “{short(strange[0])}”, which {kind.__name__} records do not have."
                )
            if len(set(names)) < len(names):
                raise InputProblem(f"{file.name} has a column twice; each stands there once.")
            for cells in table:
                where = f"{file.name}, line {table.line_num}"
                if None in cells or None in cells.values():
                    raise InputProblem(f"{where} has not as many cells as the table has columns.")
                yield from_cells(kind, cells, where), opened.tell()
        except csv.Error as error:
            raise InputProblem(f"{file.name}, line {table.line_num}: {error}.") from None
