"""One record as a line of a CSV table, and back. What cannot be read is an InputProblem.

A quantity is two columns, `prepared_mass_g` and `prepared_mass_typed`; a table kept by hand may have the one
column `prepared_mass`, as typed, instead. Text that a spreadsheet would run as a formula goes out with an
apostrophe before it, as one types it there to mean text, and comes in without.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from datetime import date
from typing import Any

from dryhouse.kitchen.exchange.formats import finite, made, value_of, wrong_value
from dryhouse.kitchen.ports import Record
from dryhouse.kitchen.records.former import read_today
from dryhouse.kitchen.records.shapes import SUFFIXES, Shape, shapes
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Quantity, parse
from dryhouse.words.messages import problem_sentence

_FORMULA = re.compile(r"'*[=+\-@\t\r\n＝＋－＠]")
"""How a text begins that a spreadsheet may take for a formula; apostrophes that are there already count with it, so
that each text comes back as it was. The beginnings are those of OWASP's page on CSV injection."""
_MARKED = re.compile(r"'+[=+\-@\t\r\n＝＋－＠]")


def inert(text: str) -> str:
    """The text as no spreadsheet runs it."""
    return f"'{text}" if _FORMULA.match(text) else text


def as_written(cell: str) -> str:
    """The text that `inert` was given."""
    return cell[1:] if _MARKED.match(cell) else cell


def columns(kind: type[Any]) -> list[str]:
    """The columns of a kind's table, its number first."""
    names = ["id"]
    for shape in shapes(kind):
        if shape.quantity is not None:
            names += [f"{shape.name}_{SUFFIXES[shape.quantity]}", f"{shape.name}_typed"]
        elif shape.name != "id":
            names.append(shape.name)
    return names


def as_cells(record: Record) -> list[str]:
    """The record as one line of its table."""
    cells: dict[str, str] = {}
    for shape in shapes(type(record)):
        value = getattr(record, shape.name)
        if shape.quantity is not None:
            cells[f"{shape.name}_{SUFFIXES[shape.quantity]}"] = "" if value is None else repr(value.si)
            cells[f"{shape.name}_typed"] = "" if value is None else inert(value.typed)
        elif isinstance(value, bool):
            cells[shape.name] = "yes" if value else "no"
        elif isinstance(value, str):
            cells[shape.name] = inert(value)
        elif isinstance(value, date):
            cells[shape.name] = value.isoformat()
        else:
            cells[shape.name] = "" if value is None else str(value)
    return [cells[name] for name in columns(type(record))]


def from_cells(kind: type[Any], cells: Mapping[str, str], where: str) -> Any:
    """The record one line of a table stands for. An empty cell is missing."""
    values: dict[str, Any] = {}
    cells = read_today(kind, cells)
    for shape in shapes(kind):
        if shape.quantity is not None:
            values[shape.name] = _quantity(shape, cells, where)
        elif shape.holds is str:
            cell = cells.get(shape.name)
            text = None if cell is None else as_written(cell)
            values[shape.name] = None if not text and shape.about.needed and not shape.required else text
        elif cells.get(shape.name, "").strip():
            values[shape.name] = value_of(shape, _number_or_text(shape, cells[shape.name].strip(), where), where)
    return made(kind, {name: value for name, value in values.items() if value is not None}, where)


def _quantity(shape: Shape, cells: Mapping[str, str], where: str) -> Quantity | None:
    assert shape.quantity is not None
    stored = f"{shape.name}_{SUFFIXES[shape.quantity]}"
    if stored not in cells:
        return _typed(shape.quantity, as_written(cells.get(shape.name, "")).strip(), where)
    if not cells[stored].strip():
        return None
    value = finite(shape, _number_or_text(shape, cells[stored].strip(), where), where)
    return shape.quantity(value, as_written(cells.get(f"{shape.name}_typed", "")))


def _typed(kind: type[Quantity], typed: str, where: str) -> Quantity | None:
    try:
        return parse(typed, kind, allow_zero=True) if typed else None
    except InputProblem as problem:
        raise InputProblem(f"{where}: {problem_sentence(problem)}") from None


def _number_or_text(shape: Shape, text: str, where: str) -> Any:
    try:
        if ("_" in text or not text.isascii()) and shape.holds is not bool:
            raise ValueError
        if shape.holds is int:
            return int(text)
        if shape.holds is float or shape.quantity is not None:
            return float(text)
    except ValueError:
        raise wrong_value(shape, text, where) from None
    return {"yes": True, "no": False}.get(text.lower(), text) if shape.holds is bool else text
