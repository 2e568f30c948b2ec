"""The cells of a file of weighings, and what its columns are likely to mean.

`read_file` splits a file into cells; `guess` says which column is what, to be put right by the person.
"""

from __future__ import annotations

import codecs
import csv
import io
import re
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from dryhouse.kitchen.records.weighings import LOAD
from dryhouse.science.errors import InputProblem, WorldProblem
from dryhouse.science.units import MASS, written_as

HOURS, MINUTES, MOMENTS = "hours", "minutes", "moments"
TIME_KINDS = (HOURS, MINUTES, MOMENTS)
MOST_COLUMNS = 200
"""Far more columns than a log of a scale has."""
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
_TARE_WORDS = ("tare", "empty")
_HEAT_WORDS = ("temperature", "temp", "dryer", "air", "f", "c")


@dataclass(frozen=True, slots=True)
class Sheet:
    """The cells of a file, and the line of the file each row stands in."""

    header: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    lines: tuple[int, ...]
    decimal_comma: bool


@dataclass(frozen=True, slots=True)
class SheetColumns:
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


def read_file(path: Path) -> Sheet:
    """The cells of a file on disk. UTF-8 (with or without a mark), UTF-16 or Windows' Western letters.

    Raises InputProblem or WorldProblem.
    """
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


_SEPARATOR = re.compile(r"\s*\"?sep=([;,\t])\"?[ \t;,]*(?:\r\n|\r|\n)", re.IGNORECASE)
"""A first line by which a spreadsheet says what stands between the cells."""


def _without_empty_end(cells: tuple[str, ...]) -> tuple[str, ...]:
    """The cells up to the last that holds something: a spreadsheet may write commas to its right edge."""
    filled = len(cells)
    while filled and not cells[filled - 1]:
        filled -= 1
    return cells[:filled]


def read_sheet(text: str) -> Sheet:
    """Cells from text separated by commas, semicolons or tabs; a semicolon or tab lets a comma be the
    decimal mark. A first line without any number is the header. Raises InputProblem."""
    told = _SEPARATOR.match(text)
    text = text if told is None else "\n" + text[told.end() :]
    lines = text.splitlines()
    sample = next((line for line in lines if line.strip() and not line.lstrip().startswith("#")), "")
    delimiter = told[1] if told is not None else next((mark for mark in "\t;" if mark in sample), ",")
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
    table = [(number, _without_empty_end(cells)) for number, cells in table]
    header = _without_empty_end(header)
    for number, cells in table:
        if len(cells) > MOST_COLUMNS:
            raise InputProblem(f"Line {number} has {len(cells)} cells; a file of weighings has a few columns.")
    if len(header) > MOST_COLUMNS:
        raise InputProblem(f"The first line names {len(header)} columns; a file of weighings has a few.")
    width = max(len(header), *(len(cells) for _, cells in table))
    header = header or tuple(f"column {n + 1}" for n in range(width))
    rows = tuple(cells + ("",) * (width - len(cells)) for _, cells in table)
    header, rows = _day_and_clock(header, rows)
    comma = delimiter != "," and any(re.fullmatch(r"-?[\d.]+,\d+", c) for cells in rows for c in cells)
    return Sheet(header, rows, tuple(number for number, _ in table), comma)


def _day_and_clock(
    header: tuple[str, ...], rows: tuple[tuple[str, ...], ...]
) -> tuple[tuple[str, ...], tuple[tuple[str, ...], ...]]:
    """The same with the day and the time of day in one cell, where the file keeps them in two columns."""
    names = [name.strip().casefold() for name in header]
    day = next((n for n, name in enumerate(names) if name in ("date", "day")), None)
    clock = next((n for n, name in enumerate(names) if name in ("time", "clock", "time of day")), None)
    if day is None or clock is None:
        return header, rows
    filled = [cells for cells in rows if cells[day] or cells[clock]]
    if any(":" in cells[day] or not re.match(r"\d{1,2}:\d\d", cells[clock]) for cells in filled):
        return header, rows
    joined = tuple(
        tuple(f"{cells[day]} {cell}".strip() if n == clock else cell for n, cell in enumerate(cells) if n != day)
        for cells in rows
    )
    return tuple(name for n, name in enumerate(header) if n != day), joined


def _numbered(text: str, delimiter: str) -> list[tuple[int, list[str]]]:
    reader = csv.reader(io.StringIO(text, newline=None), delimiter=delimiter)
    try:
        return [(reader.line_num, cells) for cells in reader if cells]
    except csv.Error as problem:
        raise InputProblem(f"The file is not a table that can be read here ({problem}).") from None


def guess(sheet: Sheet) -> SheetColumns:
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
    tare = claim(_TARE_WORDS)
    mass = claim(_MASS_WORDS)
    temperature = claim(_HEAT_WORDS)
    nameless = sheet.header[0] == "column 1"
    if nameless:
        time, mass = 0, 1 if len(sheet.rows[0]) > 1 else None
    kind = _time_kind(names[time], [row[time] for row in sheet.rows[:5]]) if time is not None else HOURS
    units = written_as((MASS,))
    unit = next((units[w].name for w in (names[mass] if mass is not None else []) if w in units), "g")
    scale = "F" if temperature is not None and {"f", "fahrenheit"} & set(names[temperature]) else "C"
    return SheetColumns(time, mass, kind, unit, tare, temperature, scale, LOAD, sheet.decimal_comma)


def _time_kind(words: Sequence[str], cells: Sequence[str]) -> str:
    if any(re.search(r"\d[:h-]\d|\d/\d|[ap]m", cell.casefold()) for cell in cells):
        return MOMENTS
    return MINUTES if {"min", "mins", "minutes", "minute"} & set(words) else HOURS
