"""Reading the handbook's tables: one CSV a table, every row with a source, nothing unknown let through.

A table module names its columns and its key, turns each `Row` into a frozen value, and caches the result.
A column too many or too few, a source that `sources.toml` does not list, a repeated key or a number that
is none is a `HandbookFault`: our own mistake, caught by the tests and never met by a person.
"""

from __future__ import annotations

import csv
import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Literal, cast

from dryhouse.science.values import Fact

FOLDER = Path(__file__).parent / "data"
HOW = ("read", "recalled", "computed", "common practice", "own rule")
How = Literal["read", "recalled", "computed", "entered", "common practice", "own rule"]


class HandbookFault(Exception):
    """A table that does not keep the handbook's rules."""


@dataclass(frozen=True, slots=True)
class Source:
    """Where figures come from, and whether it was read or recalled."""

    id: str
    citation: str
    how: str
    year: int | None = None
    note: str = ""


@cache
def sources() -> dict[str, Source]:
    """Every source the handbook may name, by id."""
    import tomllib

    with (FOLDER / "sources.toml").open("rb") as file:
        listed = tomllib.load(file)
    return {
        key: Source(key, entry["citation"], entry["how"], entry.get("year"), entry.get("note", ""))
        for key, entry in listed.items()
    }


@dataclass(frozen=True, slots=True)
class Row:
    """One line of a table, read by column name. An empty cell is missing, never zero; `read` has taken the blanks
    around each away."""

    table: str
    line: int
    cells: dict[str, str]

    def text(self, column: str) -> str:
        """The cell as it stands; empty where nothing is given."""
        return self.cells[column]

    def number(self, column: str) -> float | None:
        """The cell as a finite number, or None where it is empty."""
        text = self.text(column)
        if not text:
            return None
        try:
            value = float(text)
        except ValueError:
            raise self.fault(f"{column} is “{text}”, which is no number") from None
        if not math.isfinite(value):
            raise self.fault(f"{column} is not finite")
        return value

    def required(self, column: str) -> float:
        """The cell as a number; an empty cell is a fault."""
        value = self.number(column)
        if value is None:
            raise self.fault(f"{column} is empty")
        return value

    def names(self, column: str) -> tuple[str, ...]:
        """A cell of several entries separated by semicolons."""
        return tuple(part.strip() for part in self.text(column).split(";") if part.strip())

    def source(self) -> Source:
        """The source of this row."""
        try:
            return sources()[self.text("source")]
        except KeyError:
            raise self.fault(f"source “{self.text('source')}” is not in sources.toml") from None

    def how(self) -> How:
        """How the figure is known: the row's own `how` where it has one, else the source's."""
        how = (self.text("how") if "how" in self.cells else "") or self.source().how
        if how not in HOW:
            raise self.fault(f"how is “{how}”; it is one of {', '.join(HOW)}")
        return cast(How, how)

    def fact(self, value: str, unit: str, low: str = "", high: str = "") -> Fact | None:
        """The number in column `value` as a fact of this row's source, or None where it is empty."""
        number = self.number(value)
        if number is None:
            return None
        return Fact(
            number,
            unit,
            self.source().citation,
            self.how(),
            low=self.number(low) if low else None,
            high=self.number(high) if high else None,
        )

    def fault(self, what: str) -> HandbookFault:
        """What is wrong with this row, and where it stands."""
        return HandbookFault(f"{self.table}.csv, line {self.line}: {what}")


def read(table: str, columns: Sequence[str], key: Sequence[str] = ()) -> list[Row]:
    """The rows of `data/<table>.csv`, checked for exactly these columns, known sources and unique keys."""
    with (FOLDER / f"{table}.csv").open(encoding="utf-8", newline="") as file:
        reader = csv.reader(file)
        header = next(reader)
        if list(header) != list(columns):
            raise HandbookFault(f"{table}.csv: the columns are {header}, expected {list(columns)}")
        rows, seen = [], set()
        known = sources() if "source" in header else None
        for cells in reader:
            row = Row(table, reader.line_num, dict(zip(header, map(str.strip, cells), strict=True)))
            if known is not None and row.cells["source"] not in known:
                row.source()
            if key:
                mark = tuple([row.cells[k] for k in key])
                if mark in seen:
                    raise row.fault(f"{dict(zip(key, mark, strict=True))} stands twice")
                seen.add(mark)
            rows.append(row)
    return rows
