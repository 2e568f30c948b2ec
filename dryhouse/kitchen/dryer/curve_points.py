"""The points of a run kept in a file of hours and grams: read, put in order, and what was put right said."""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import datetime, tzinfo
from itertools import pairwise
from pathlib import Path

from dryhouse.kitchen.dryer.weighing_sheets import MINUTES, MOMENTS, Sheet, SheetColumns, guess, read_file
from dryhouse.kitchen.kitchen import utc_now
from dryhouse.kitchen.records.batches import HOTTEST_DRYER_C
from dryhouse.kitchen.typed_moments import read_moment
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Duration, parse, parse_number
from dryhouse.science.units import MASS, SIZES, written_as
from dryhouse.words.messages import problem_sentence

_LONGEST_H = 366 * 24.0
"""No run is longer."""
_CLOSEST_H = 0.5 / 3600.0
"""Weighings closer than half a second count as one: no scale settles faster, and no rate shows between them."""


@dataclass(frozen=True)
class _MachineClock:
    """The machine's own clock and time zone: a file says its times, and no kitchen is open."""

    now: Callable[[], datetime] = utc_now
    zone: tzinfo | None = None

    def local(self, moment: datetime) -> datetime:
        """The moment on this clock."""
        return moment.astimezone(self.zone)


_WALL = _MachineClock()


@dataclass(frozen=True, slots=True)
class Points:
    """Weighings in order of time, hours from the first of them, and what had to be put right."""

    hours: tuple[float, ...]
    grams: tuple[float, ...]
    notes: tuple[str, ...] = ()
    heats: tuple[tuple[float, float], ...] = ()
    """Hour and °C of every temperature in the file."""

    def half_a_second_apart(self) -> Points:
        """The same points; those within half a second of another are one, of their mean weight, as a note says."""
        groups: list[list[tuple[float, float]]] = []
        for hours, grams in zip(self.hours, self.grams, strict=True):
            if groups and hours - groups[-1][0][0] < _CLOSEST_H:
                groups[-1].append((hours, grams))
            else:
                groups.append([(hours, grams)])
        several = [group for group in groups if len(group) > 1]
        if not several:
            return self
        same = [group[0][0] for group in several if group[0][0] == group[-1][0]]
        close = [group[0][0] for group in several if group[0][0] != group[-1][0]]
        notes = list(self.notes)
        if same:
            notes.append(
                f"{'One time stands' if len(same) == 1 else f'{len(same)} times stand'} more than once "
                f"(first at {same[0]:g} h); the mean of the weights is used."
            )
        if close:
            notes.append(
                f"Weighings less than half a second apart (first at {close[0]:g} h) count as one; the mean of "
                "their weights is used."
            )
        weights = [[grams for _, grams in group] for group in groups]
        return Points(
            tuple(g[0][0] for g in groups), tuple(sum(w) / len(w) for w in weights), tuple(notes), self.heats
        )


def read_points(path: Path) -> Points:
    """Points of a CSV with columns `hours` (minutes, moments) and `grams` (another mass). Raises InputProblem."""
    if not path.is_file():
        raise InputProblem(f"There is no file {path}; name a CSV file with the columns hours and grams.", "file")
    return points_of(read_file(path))


def points_of(sheet: Sheet) -> Points:
    """Points from cells: an error names its line; unsorted and repeated times are put right and said.

    Raises InputProblem.
    """
    columns = guess(sheet)
    if columns.time is None or columns.mass is None:
        raise InputProblem(
            "The file wants two columns, hours and grams, with those names in its first line "
            f"(found: {', '.join(sheet.header)})."
        )
    per_hour = 60.0 if columns.time_kind == MINUTES else 1.0
    clock = _clock_hours(sheet, columns.time) if _has_days(sheet, columns) else None
    found: list[tuple[float, float]] = []
    heats: list[float | None] = []
    for n, (line, cells) in enumerate(zip(sheet.lines, sheet.rows, strict=True)):
        comma = columns.decimal_comma
        if any(cells[len(sheet.header) :]):
            raise InputProblem(
                f"Line {line} has more cells than the first line has names; with a decimal comma, put semicolons "
                "between the columns."
            )
        hours = clock[n] if clock is not None else _hours(line, cells[columns.time], comma, per_hour)
        grams = _cell(line, cells[columns.mass], "weight", comma, zero=False) * SIZES[columns.mass_unit]
        found.append((hours, grams))
        told = columns.temperature is not None and cells[columns.temperature]
        heats.append(_heat(line, told, columns) if told else None)
    notes = []
    if columns.time_kind == MOMENTS and clock is None and (shift := _past_midnight(found)):
        found = [(hours + days, grams) for (hours, grams), days in zip(found, shift, strict=True)]
        notes.append("The clock goes past midnight in this file; its times are read as times of day.")
    warmths = [(hours, heat) for (hours, _), heat in zip(found, heats, strict=True) if heat is not None]
    if any(b[0] < a[0] for a, b in pairwise(found)):
        notes.append("The lines were not in order of time; they have been put in order.")
    found.sort(key=lambda point: point[0])
    start = found[0][0]
    warm = tuple(sorted((h - start, heat) for h, heat in warmths))
    in_order = Points(tuple(h for h, _ in found), tuple(g for _, g in found), tuple(notes)).half_a_second_apart()
    said = [f"Hours are counted from the first weighing, at {start:g} h in the file."] if start > 0 else []
    return Points(tuple(h - start for h in in_order.hours), in_order.grams, (*in_order.notes, *said), warm)


def _heat(line: int, cell: str, columns: SheetColumns) -> float:
    """A temperature in °C; one that no dryer has is refused."""
    try:
        number = parse_number(cell, decimal_comma=columns.decimal_comma, what="temperature")
    except InputProblem as problem:
        raise InputProblem(f"Line {line}: {problem_sentence(problem)}") from None
    heat = (number - 32.0) / 1.8 if columns.temperature_unit == "F" else number
    if not 0.0 <= heat <= HOTTEST_DRYER_C:
        raise InputProblem(f"Line {line}: “{cell}” is not the temperature of a dryer; is it °C or °F?")
    return heat


def _has_days(sheet: Sheet, columns: SheetColumns) -> bool:
    """Whether the times are moments of some day rather than hours since the start."""
    return columns.time_kind == MOMENTS and not all(
        re.fullmatch(r"\d*\.?\d+|\d+[:h]\d\d|\d+\s*h", row[columns.time or 0].strip().lower()) for row in sheet.rows
    )


def _clock_hours(sheet: Sheet, column: int) -> list[float]:
    """Moments of some day, as the log of a scale keeps them, in hours from the earliest."""
    moments: list[datetime] = []
    for line, cells in zip(sheet.lines, sheet.rows, strict=True):
        cell = cells[column]
        if not cell:
            raise InputProblem(f"Line {line}: the time is missing.")
        try:
            moments.append(read_moment(_WALL, cell, after=moments[-1] if moments else None))
        except InputProblem as problem:
            raise InputProblem(f"Line {line}: {problem_sentence(problem)}") from None
    hours = [(at - min(moments)).total_seconds() / 3600.0 for at in moments]
    for line, cells, hour in zip(sheet.lines, sheet.rows, hours, strict=True):
        if hour > _LONGEST_H:
            raise InputProblem(
                f"Line {line}: “{cells[column]}” is more than a year after the first; is the day right?"
            )
    return hours


def _past_midnight(found: Sequence[tuple[float, float]]) -> list[float]:
    """Hours to be added to times of day without a date, where the clock goes on past midnight: it falls back by
    more than half a day while the load goes on losing weight. Empty where it never does."""
    added, days = [0.0], 0.0
    for (before, heavier), (hours, grams) in pairwise(found):
        if hours < before:
            if hours + 12.0 > before or grams > heavier or before >= 24.0:
                return []
            days += 24.0
        added.append(days)
    return added if days else []


def _hours(line: int, cell: str, comma: bool, per_hour: float) -> float:
    """A time in hours; `1:30` and `1h30` are an hour and a half."""
    if clock := re.fullmatch(r"(\d{1,4})[:h]([0-5]\d)", cell.strip().lower()):
        return int(clock[1]) + int(clock[2]) / 60.0
    if re.fullmatch(r"[\d.,/½¼¾ ]+(?![eE][+-]?\d)[a-zA-Z].*", cell):
        try:
            hours = parse(cell, Duration, decimal_comma=comma, allow_zero=True).si / 3600.0
        except InputProblem as problem:
            raise InputProblem(f"Line {line}: {problem_sentence(problem)}") from None
    else:
        hours = _cell(line, cell, "time", comma, zero=True) / per_hour
    if hours > _LONGEST_H:
        raise InputProblem(f"Line {line}: “{cell}” is more than a year of drying; are the times in hours?")
    return hours


def _cell(line: int, cell: str, what: str, comma: bool, *, zero: bool) -> float:
    if not cell:
        raise InputProblem(f"Line {line}: the {what} is missing.")
    if re.match(r"\s*[-−]", cell):
        raise InputProblem(f"Line {line}: “{cell}” cannot be negative; a {what} is 0 or more.")
    number, unit = re.fullmatch(r"(.*?)\s*([a-zA-Z]*)", cell, re.DOTALL).groups()  # type: ignore[union-attr]
    size = 1.0
    if unit and not re.fullmatch(r"(?i)e|inf|nan", unit):
        units = written_as((MASS,))
        if what != "weight" or unit.casefold() not in units:
            raise InputProblem(f"Line {line}: “{cell}” is not a {what}; write a plain number.")
        size = units[unit.casefold()].size
        cell = number
    try:
        value = float(cell) if re.fullmatch(r"[\d.]+[eE][+-]?\d+", cell) else None
        value = parse_number(cell, decimal_comma=comma, what=what) if value is None else value
    except InputProblem as problem:
        raise InputProblem(f"Line {line}: {problem_sentence(problem)}") from None
    if not zero and value <= 0:
        raise InputProblem(f"Line {line}: the {what} must be above 0; leave the line out or correct it.")
    if not math.isfinite(value) or value > 1e7:
        raise InputProblem(f"Line {line}: “{cell}” is larger than a {what} can be.")
    return value * size
