"""What is asked before anything can be used, in SQL of our own: the first page of batches, the few records that
everything asks for, and a food's yields.

A measurement asks for it: importing SQLAlchemy takes longer than an empty window (`tests/benchmarks/startup.py`)
and than half of a yield on the command line (`tests/benchmarks/yields_speed.py`). Everything else goes through
SQLAlchemy.
"""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Iterable, Iterator, Sequence
from math import isfinite
from typing import Any

from dryhouse.journal.mapping import Unreadable, from_micros, mapped
from dryhouse.kitchen.ports import R, YieldPair
from dryhouse.kitchen.records.shapes import filled

_ORDERS = {
    "started": ("started",),
    "food": ("food", "started"),
    "fresh": ("prepared_mass_g",),
    "dried": ("dried_mass_g",),
    "yield": ("dried_mass_g / prepared_mass_g",),
    "rating": ("rating",),
    "id": ("id",),
}


_ONLY_ENDED = "SELECT 1 FROM batch WHERE started IS NULL AND ended IS NOT NULL LIMIT 1"


def every(driver: sqlite3.Connection, kind: type[R]) -> tuple[R, ...]:
    """Every record of a kind there are only a few of, by number."""
    return tuple(map(mapped(kind).record, driver.execute(f"{_listed(kind)} ORDER BY id")))


def records_numbered(driver: sqlite3.Connection, kind: type[R], ids: Iterable[int]) -> list[R]:
    """The records of these numbers, in no order."""
    found = driver.execute(f"{_listed(kind)} WHERE id IN (SELECT value FROM json_each(?))", (_text(ids),))
    return list(map(mapped(kind).record, found))


def rows(driver: sqlite3.Connection, kind: type[Any], newest: int | None = None) -> Iterator[tuple[Any, ...]]:
    """Every row of a kind, its columns as `Mapped.record` reads them, by number; or so many, the newest first."""
    if newest is not None:
        return driver.execute(f"{_listed(kind)} ORDER BY id DESC LIMIT ?", (newest,))
    return driver.execute(f"{_listed(kind)} ORDER BY id")


def rows_numbered(driver: sqlite3.Connection, kind: type[Any], number: int) -> Iterator[tuple[Any, ...]]:
    """The row of that number, if there is one."""
    return driver.execute(f"{_listed(kind)} WHERE id = ?", (number,))


def _listed(kind: type[Any]) -> str:
    of = mapped(kind)
    columns = ", ".join(f'"{column}"' for column in of.columns)
    return f"SELECT {columns} FROM {of.table}"


def batches_ordered(driver: sqlite3.Connection, sort: str) -> tuple[list[int], list[int]]:
    """The numbers of all batches in rising order, and of those that have nothing to be sorted by. What has no start
    stands by its end; without any such, the index alone answers."""
    if sort == "dryer":
        dryers = driver.execute("SELECT id FROM dryer ORDER BY name, id").fetchall()
        each = "SELECT id FROM batch WHERE dryer = ? ORDER BY started, id"
        known = [batch for dryer in dryers for batch in _numbers(driver, each, dryer)]
        return known, _numbers(driver, "SELECT id FROM batch WHERE dryer IS NULL ORDER BY id")
    if sort == "started" and driver.execute(_ONLY_ENDED).fetchone() is not None:
        when = "coalesce(started, ended)"
        known = _numbers(driver, f"SELECT id FROM batch WHERE {when} IS NOT NULL ORDER BY {when}, id")
        return known, _numbers(driver, f"SELECT id FROM batch WHERE {when} IS NULL ORDER BY id")
    first, *_ = columns = _ORDERS[sort]
    by = ", ".join((*columns, "id"))
    known = _numbers(driver, f"SELECT id FROM batch WHERE {first} IS NOT NULL ORDER BY {by}")
    return known, _numbers(driver, f"SELECT id FROM batch WHERE {first} IS NULL ORDER BY id")


def _numbers(driver: sqlite3.Connection, query: str, values: tuple[Any, ...] = ()) -> list[int]:
    """The one column of an answer: as one long text, a hundred thousand numbers take a third of the time."""
    (text,) = driver.execute(f"SELECT json_group_array(id) FROM ({query})", values).fetchone()
    found: list[int] = json.loads(text)
    return found


def weighings_counted(driver: sqlite3.Connection, batches: Iterable[int]) -> dict[int, int]:
    """How many weighings each of these batches has, where it has any."""
    counted = "SELECT batch, count(*) FROM weighing WHERE batch IN (SELECT value FROM json_each(?)) GROUP BY batch"
    return dict(driver.execute(counted, (_text(batches),)))


def yield_pairs(driver: sqlite3.Connection, food: str) -> tuple[YieldPair, ...]:
    """Every finished batch of the food with both a prepared and a dried mass, oldest first."""
    rows = driver.execute(_PAIRS, (food,)).fetchall()
    try:
        return tuple(_pairs(rows)) if rows else ()
    except (ValueError, OverflowError, TypeError):
        return tuple(map(_pair, rows))  # which says of which batch it is


def _pairs(rows: Sequence[tuple[Any, ...]]) -> list[YieldPair]:
    """All of them at once, in a third of the time: a person waits for it while she types."""
    *known, start_moisture, started, ended = zip(*rows, strict=True)
    if not all(map(isfinite, [value for amounts in known[4:9] for value in amounts if value is not None])):
        raise ValueError("an infinite amount")
    times = zip(started, ended, strict=True)
    hours = [(end - start) / 3.6e9 if start is not None and end is not None else None for start, end in times]
    began = [None if start is None else from_micros(start) for start in started]
    return filled(YieldPair, len(rows), (*known, hours, began, start_moisture))


_PAIRS = """SELECT id, food, form, pretreatment, prepared_mass_g, dried_mass_g, prepared_volume_ml, dried_volume_ml,
    set_temperature_c, dryer, trays, start_moisture_pct, started, ended FROM batch
    WHERE food = ? AND state = 'finished' AND prepared_mass_g IS NOT NULL AND dried_mass_g IS NOT NULL
    ORDER BY started, id"""


def _pair(row: tuple[Any, ...]) -> YieldPair:
    *known, start_moisture, started, ended = row
    try:
        hours = (ended - started) / 3.6e9 if started is not None and ended is not None else None
        began = None if started is None else from_micros(started)
        if not all(value is None or isfinite(value) for value in known[4:9]):
            raise ValueError("an infinite amount")
    except (ValueError, OverflowError, TypeError) as error:
        raise Unreadable(f"batch {row[0]}: {error}") from error
    return YieldPair(*(*known, hours, began, start_moisture))


def _text(ids: Iterable[int]) -> str:
    return json.dumps([int(id) for id in ids])
