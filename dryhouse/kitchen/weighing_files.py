"""Bringing in a file of weighings: which column is what, what each line says, and what is wrong with it.

Three steps, each shown before the next: `read_sheet` splits the text into cells, `guess` says what the
columns are likely to mean (to be put right by the person), `map_rows` turns lines into weighings or into
errors by line. Nothing is written before `import_weighings`.
"""

from __future__ import annotations

import codecs
import csv
import io
import re
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from pathlib import Path

from dryhouse.kitchen.drying import AHEAD, SCOPES, batch_numbered, weighings_of
from dryhouse.kitchen.foods import food_name
from dryhouse.kitchen.moments import read_moment
from dryhouse.kitchen.ports import Done, Pending
from dryhouse.kitchen.records import Weighing
from dryhouse.kitchen.records.batches import LOAD, PLANNED
from dryhouse.kitchen.room import Kitchen
from dryhouse.science.display import counted
from dryhouse.science.errors import InputProblem, WorldProblem
from dryhouse.science.quantities import Mass, Temperature, parse_mass, parse_number, parse_temperature
from dryhouse.science.units import MASS, written_as

HOURS, MINUTES, MOMENTS = "hours", "minutes", "moments"
TIME_KINDS = (HOURS, MINUTES, MOMENTS)
LARGEST_BYTES = 20_000_000

_TIME_WORDS = (
    "time",
    "hour",
    "hours",
    "h",
    "elapsed",
    "minutes",
    "min",
    "clock",
    "when",
    "date",
    "datetime",
    "at",
    "t",
)
_MASS_WORDS = (
    "gross",
    "reading",
    "scale",
    "mass",
    "weight",
    "grams",
    "gram",
    "g",
    "oz",
    "kg",
    "lb",
    "ounces",
    "net",
    "load",
)
_TARE_WORDS = ("tare", "tray", "empty")
_HEAT_WORDS = ("temperature", "temp", "dryer", "air", "f", "c")


@dataclass(frozen=True, slots=True)
class Sheet:
    """The cells of a file, and the line of the file each row stands in."""

    header: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    lines: tuple[int, ...]
    decimal_comma: bool


@dataclass(frozen=True, slots=True)
class Mapping:
    """Which column (by position) holds what, and how to read it. None means the file has no such column."""

    time: int | None = None
    mass: int | None = None
    time_kind: str = HOURS
    mass_unit: str = "g"
    tare: int | None = None
    temperature: int | None = None
    temperature_unit: str = "C"
    scope: str = LOAD
    decimal_comma: bool = False


@dataclass(frozen=True, slots=True)
class LineError:
    """What is wrong with one line of the file, in a sentence."""

    line: int
    sentence: str


@dataclass(frozen=True, slots=True)
class MappedRow:
    """One line as it would be written."""

    line: int
    at: datetime
    gross: Mass
    tare: Mass | None = None
    temperature: Temperature | None = None


@dataclass(frozen=True, slots=True)
class Mapped:
    """Every line of the file, read or refused."""

    rows: tuple[MappedRow, ...]
    errors: tuple[LineError, ...]
    scope: str = LOAD


def read_file(path: Path) -> Sheet:
    """The cells of a file on disk. UTF-8 (with or without a mark), UTF-16 or Windows' Western letters."""
    try:
        if path.stat().st_size > LARGEST_BYTES:
            raise InputProblem(f"{path.name} is larger than a file of weighings can be; is it the right file?")
        data = path.read_bytes()
    except OSError as problem:
        raise WorldProblem(f"{path.name} could not be read ({problem.strerror}). Nothing was changed.") from None
    wide = data.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE))
    if b"\x00" in data and not wide:
        raise InputProblem(f"{path.name} is not a text file; save the sheet as CSV and choose that.")
    try:
        text = data.decode("utf-16" if wide else "utf-8-sig")
    except UnicodeDecodeError:
        text = data.decode("cp1252", errors="replace")
    return read_sheet(text)


def read_sheet(text: str) -> Sheet:
    """Cells from text separated by commas, semicolons or tabs; a semicolon or tab lets a comma be the
    decimal mark. A first line without any number is the header."""
    lines = text.splitlines()
    sample = next((line for line in lines if line.strip() and not line.lstrip().startswith("#")), "")
    delimiter = next((mark for mark in "\t;" if mark in sample), ",")
    table = [
        (number, tuple(cell.strip() for cell in cells))
        for number, cells in _numbered(text, delimiter)
        if any(cell.strip() for cell in cells) and not cells[0].lstrip().startswith("#")
    ]
    if not table:
        raise InputProblem("The file holds no weighings; it wants a column of times and a column of weights.")
    header: tuple[str, ...] = ()
    if not any(re.match(r"\s*[\d.,]*\d", cell) for cell in table[0][1]):
        header = table.pop(0)[1]
    if not table:
        raise InputProblem("The file has a header and no weighings below it.")
    width = max(len(cells) for _, cells in table)
    header = header or tuple(f"column {n + 1}" for n in range(width))
    rows = tuple(cells + ("",) * (width - len(cells)) for _, cells in table)
    comma = delimiter != "," and any(re.fullmatch(r"-?[\d.]+,\d+", c) for cells in rows for c in cells)
    return Sheet(header, rows, tuple(number for number, _ in table), comma)


def _numbered(text: str, delimiter: str) -> list[tuple[int, list[str]]]:
    reader = csv.reader(io.StringIO(text, newline=None), delimiter=delimiter)
    try:
        return [(reader.line_num, cells) for cells in reader if cells]
    except csv.Error as problem:
        raise InputProblem(f"The file is not a table that can be read here ({problem}).") from None


def guess(sheet: Sheet) -> Mapping:
    """What the columns seem to be, from their names and their first cells."""
    names = [re.sub(r"[^a-z0-9]+", " ", h.casefold()).split() for h in sheet.header]

    def column(words: Sequence[str], taken: set[int]) -> int | None:
        for word in words:
            for n, parts in enumerate(names):
                if n not in taken and word in parts:
                    return n
        return None

    taken: set[int] = set()

    def claim(words: Sequence[str]) -> int | None:
        found = column(words, taken)
        if found is not None:
            taken.add(found)
        return found

    time = claim(_TIME_WORDS)
    tare = claim(("tare", "empty"))
    mass = claim(_MASS_WORDS)
    temperature = claim(_HEAT_WORDS)
    nameless = sheet.header[0] == "column 1"
    if nameless:
        time, mass = 0, 1 if len(sheet.rows[0]) > 1 else None
    kind = _time_kind(names[time], [row[time] for row in sheet.rows[:5]]) if time is not None else HOURS
    units = written_as((MASS,))
    unit = next((units[w].name for w in (names[mass] if mass is not None else []) if w in units), "g")
    scale = "F" if temperature is not None and {"f", "fahrenheit"} & set(names[temperature]) else "C"
    return Mapping(time, mass, kind, unit, tare, temperature, scale, LOAD, sheet.decimal_comma)


def _time_kind(words: Sequence[str], cells: Sequence[str]) -> str:
    if any(re.search(r"\d[:h-]\d|\d/\d|[ap]m", cell.casefold()) for cell in cells):
        return MOMENTS
    return MINUTES if {"min", "mins", "minutes", "minute"} & set(words) else HOURS


def map_rows(kitchen: Kitchen, sheet: Sheet, mapping: Mapping, started: datetime) -> Mapped:
    """Each line as a weighing or as an error. Hours and minutes count from the start of the batch; clock
    times without a date begin on its day and roll over midnight."""
    if mapping.time is None or mapping.mass is None:
        raise InputProblem("Say which column holds the time and which the weight.")
    if mapping.scope not in SCOPES or mapping.time_kind not in TIME_KINDS:
        raise InputProblem("Say what was weighed and how the times are written.")
    rows: list[MappedRow] = []
    errors: list[LineError] = []
    last = started
    for number, cells in zip(sheet.lines, sheet.rows, strict=True):
        try:
            at = _when(kitchen, cells[mapping.time], mapping, started, last)
            row = _row(number, cells, at, mapping)
            _check(row, started, kitchen.now(), rows)
        except InputProblem as problem:
            errors.append(LineError(number, problem.sentence))
            continue
        rows.append(row)
        last = row.at
    return Mapped(tuple(rows), tuple(errors), mapping.scope)


def _when(kitchen: Kitchen, cell: str, mapping: Mapping, started: datetime, last: datetime) -> datetime:
    if not cell:
        raise InputProblem("The time is missing.")
    if mapping.time_kind == MOMENTS:
        return read_moment(kitchen, cell, after=last)
    if re.match(r"\s*[-−]", cell):
        raise InputProblem(f"“{cell}” lies before the start.")
    count = parse_number(cell, decimal_comma=mapping.decimal_comma, what="time")
    seconds = count * (3600 if mapping.time_kind == HOURS else 60)
    if seconds > 366 * 86400:
        raise InputProblem(f"“{cell}” is more than a year of {mapping.time_kind}.")
    return started + timedelta(seconds=seconds)


def _row(line: int, cells: tuple[str, ...], at: datetime, mapping: Mapping) -> MappedRow:
    assert mapping.mass is not None
    comma = mapping.decimal_comma
    gross = parse_mass(cells[mapping.mass], default_unit=mapping.mass_unit, decimal_comma=comma)
    tare = heat = None
    if mapping.tare is not None and cells[mapping.tare]:
        tare = parse_mass(cells[mapping.tare], default_unit=mapping.mass_unit, decimal_comma=comma, allow_zero=True)
    if mapping.temperature is not None and (cell := cells[mapping.temperature]):
        heat = parse_temperature(cell, default_unit=mapping.temperature_unit, decimal_comma=comma)
    if tare is not None and tare.si >= gross.si:
        raise InputProblem("The tare is as heavy as the reading, which leaves nothing.")
    return MappedRow(line, at, gross, tare, heat)


def _check(row: MappedRow, started: datetime, now: datetime, before: Sequence[MappedRow]) -> None:
    if row.at < started:
        raise InputProblem("The time lies before the start of the batch.")
    if row.at > now + AHEAD:
        raise InputProblem("The time has not come yet.")
    if before and row.at == before[-1].at:
        raise InputProblem(f"The time is the same as in line {before[-1].line}.")
    if before and row.at < before[-1].at:
        raise InputProblem(f"The time is earlier than in line {before[-1].line}.")


def preview(kitchen: Kitchen, batch: int, sheet: Sheet, mapping: Mapping) -> Mapped:
    """What an import into this batch would write."""
    into = batch_numbered(kitchen, batch)
    if into.started is None:
        raise InputProblem("This batch has no start; enter it first, since the file's times count from it.")
    return map_rows(kitchen, sheet, mapping, into.started)


def import_weighings(kitchen: Kitchen, batch: int, mapped: Mapped) -> Done:
    """Write every line that could be read. Readings that stand in the batch already are left alone."""
    into = batch_numbered(kitchen, batch)
    if into.state == PLANNED:
        raise InputProblem(f"Batch {batch} is planned and not yet started; start it first.", "batch")
    known = {(w.at.astimezone(UTC), w.scope) for w in weighings_of(kitchen, batch)}
    fresh = [row for row in mapped.rows if (row.at.astimezone(UTC), mapped.scope) not in known]
    if not fresh:
        reason = "every reading in it is recorded already" if mapped.rows else "no line of it could be read"
        raise InputProblem(f"There is nothing to bring in: {reason}.")
    number = kitchen.journal.next_id(Weighing)
    pending = Pending()
    pending.add(
        *(
            Weighing(batch, row.at, row.gross, row.tare, mapped.scope, row.temperature, id=number + n)
            for n, row in enumerate(fresh)
        )
    )
    return kitchen.commit(
        f"Brought in {counted(len(fresh), 'weighing')} of {food_name(kitchen, into.food)}", pending
    )
