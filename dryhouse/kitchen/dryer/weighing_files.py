"""Bringing in a file of weighings: what each line says, and what is wrong with it.

`weighing_sheets` reads the cells and guesses the columns; here `map_rows` turns lines into weighings or into
errors by line, and nothing is written before `import_weighings`.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import UTC, datetime, timedelta

from dryhouse.kitchen.dryer.doubts import without_doubtful
from dryhouse.kitchen.dryer.drying import AHEAD, far_too_heavy, weighings_of
from dryhouse.kitchen.dryer.weighing_sheets import HOURS, MOMENTS, TIME_KINDS, Sheet, SheetColumns
from dryhouse.kitchen.foods.catalog import food_name
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.ports import Done, Pending
from dryhouse.kitchen.records import Batch, Weighing
from dryhouse.kitchen.records.batches import PLANNED
from dryhouse.kitchen.records.weighings import LOAD, SCOPES
from dryhouse.kitchen.typed_moments import read_moment
from dryhouse.science.display import counted
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Mass, Temperature, parse_mass, parse_number, parse_temperature
from dryhouse.words.messages import problem_sentence


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
class SheetWeighings:
    """Every line of the file, read or refused."""

    rows: tuple[MappedRow, ...]
    errors: tuple[LineError, ...]
    scope: str = LOAD


def map_rows(kitchen: Kitchen, sheet: Sheet, mapping: SheetColumns, started: datetime) -> SheetWeighings:
    """Each line as a weighing or as an error. Hours and minutes count from the start of the batch; clock
    times without a date begin on its day and roll over midnight. Raises InputProblem."""
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
            errors.append(LineError(number, problem_sentence(problem)))
            continue
        rows.append(row)
        last = row.at
    return SheetWeighings(tuple(rows), tuple(errors), mapping.scope)


def _when(kitchen: Kitchen, cell: str, mapping: SheetColumns, started: datetime, last: datetime) -> datetime:
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


def _row(line: int, cells: tuple[str, ...], at: datetime, mapping: SheetColumns) -> MappedRow:
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


def read_weighings(kitchen: Kitchen, batch: int, sheet: Sheet, mapping: SheetColumns) -> SheetWeighings:
    """What an import into this batch would write. Raises InputProblem."""
    into = kitchen.present(Batch, batch, "batch", "batch")
    if into.started is None:
        raise InputProblem("This batch has no start; enter it first, since the file's times count from it.")
    mapped = map_rows(kitchen, sheet, mapping, into.started)
    heavy = {
        row.line: doubt
        for row in mapped.rows
        if (doubt := far_too_heavy(kitchen, into, Weighing(batch, row.at, row.gross, row.tare, mapped.scope)))
    }
    errors = [*mapped.errors, *(LineError(line, doubt) for line, doubt in heavy.items())]
    return replace(
        mapped,
        rows=tuple(row for row in mapped.rows if row.line not in heavy),
        errors=tuple(sorted(errors, key=lambda error: error.line)),
    )


def import_weighings(kitchen: Kitchen, batch: int, mapped: SheetWeighings) -> Done[Weighing]:
    """Write every line that could be read. Readings that stand in the batch already are left alone.

    Raises InputProblem.
    """
    into = kitchen.present(Batch, batch, "batch", "batch")
    if into.state == PLANNED:
        raise InputProblem(f"Batch {batch} is planned and not yet started; start it first.", "batch")
    known = {(w.at.astimezone(UTC), w.scope) for w in weighings_of(kitchen, batch)}
    fresh = [row for row in mapped.rows if (row.at.astimezone(UTC), mapped.scope) not in known]
    if not fresh:
        reason = "every reading in it is recorded already" if mapped.rows else "no line of it could be read"
        raise InputProblem(f"There is nothing to import: {reason}.")
    number = kitchen.journal.next_id(Weighing)
    read = [
        Weighing(batch, row.at, row.gross, row.tare, mapped.scope, row.temperature, id=number + n)
        for n, row in enumerate(fresh)
    ]
    judged = without_doubtful(kitchen, into, weighings_of(kitchen, batch), read)
    pending = Pending()
    pending.add(*judged)
    left_out = sum(w.left_out for w in judged)
    aside = f", {left_out} of them left out of the curve: they can't be true" if left_out else ""
    return kitchen.commit(
        f"Imported {counted(len(fresh), 'weighing')} of {food_name(kitchen, into.food)}{aside}", pending
    )
