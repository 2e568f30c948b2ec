"""One record as JSON values or CSV cells, and back, field by field. What cannot be read is an InputProblem.

In JSON a quantity is `{"g": 1133.98, "typed": "2 lb 8 oz"}`. In CSV it is two columns, `prepared_mass_g` and
`prepared_mass_typed`; a table kept by hand may have the one column `prepared_mass`, as typed, instead.
"""

from __future__ import annotations

import json
import math
import re
from collections.abc import Mapping
from datetime import UTC, date, datetime
from typing import Any

from dryhouse.kitchen.ports import Record
from dryhouse.kitchen.records.field_problems import LARGEST, short
from dryhouse.kitchen.records.former import read_today
from dryhouse.kitchen.records.shapes import SUFFIXES, Shape, shapes
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Quantity, parse
from dryhouse.words.messages import problem_sentence

_LEFT_OUT = object()


def as_json(record: Record) -> dict[str, Any]:
    """The record as JSON values; what is missing is left out."""
    values = {shape.name: getattr(record, shape.name) for shape in shapes(type(record))}
    return {name: _json(value) for name, value in values.items() if value is not None}


def _json(value: Any) -> Any:
    if isinstance(value, Quantity):
        return {SUFFIXES[type(value)]: value.si, "typed": value.typed}
    return value.isoformat() if isinstance(value, date) else value


def from_json(kind: type[Any], values: Mapping[str, Any], where: str) -> Any:
    """The record these values stand for. `where` says which entry of which file, for the sentence."""
    if not isinstance(values, dict):
        raise InputProblem(f"{where} is not a record: it should be a group of named values.")
    known = shapes(kind)
    if strange := sorted(set(values) - {shape.name for shape in known}):
        raise InputProblem(f"{where} has “{strange[0]}”, which a {kind.__name__} does not have.")
    values = read_today(kind, values)
    return _made(kind, {s.name: _from_json(s, values[s.name], where) for s in known if s.name in values}, where)


_ESCAPED = re.compile(r"\\u[dD][89a-fA-F]")


def refuse_half_characters(text: str, content: Any, where: str) -> None:
    """Half of a character that JSON can spell and nothing can write. Raises InputProblem."""
    if not _ESCAPED.search(text):
        return
    try:
        json.dumps(content, ensure_ascii=False).encode("utf-8")
    except UnicodeEncodeError:
        raise InputProblem(f"{where} holds half a character, which cannot be kept; write it whole.") from None


def _from_json(shape: Shape, value: Any, where: str) -> Any:
    if value is None:
        return None
    if shape.quantity is None:
        return _plain(shape, value, where)
    unit = SUFFIXES[shape.quantity]
    if not isinstance(value, dict) or set(value) != {unit, "typed"} or not isinstance(value["typed"], str):
        raise InputProblem(f'{where}: “{shape.name}” should look like {{"{unit}": 12.5, "typed": "…"}}.')
    return shape.quantity(_finite(shape, value[unit], where), value["typed"])


def _plain(shape: Shape, value: Any, where: str) -> Any:
    if shape.holds in (date, datetime):
        return _moment(shape, value, where)
    if shape.holds is float:
        return _finite(shape, value, where)
    if type(value) is not shape.holds or (isinstance(value, int) and not -LARGEST <= value <= LARGEST):
        raise _wrong(shape, value, where)
    return value


def _moment(shape: Shape, value: Any, where: str) -> Any:
    try:
        if shape.holds is date:
            return date.fromisoformat(value)
        moment = datetime.fromisoformat(value)
        if moment.tzinfo is None:
            raise InputProblem(
                f"{where}: “{shape.name}” is {value}, without its zone; write it like {value}+00:00."
            )
        return moment.astimezone(UTC)
    except InputProblem:
        raise
    except (TypeError, ValueError, OverflowError):
        raise _wrong(shape, value, where) from None


def _finite(shape: Shape, value: Any, where: str) -> float:
    if isinstance(value, bool) or not isinstance(value, (int, float)):
        raise _wrong(shape, value, where)
    try:
        number = float(value)
    except OverflowError:
        raise _wrong(shape, value, where) from None
    if not math.isfinite(number):
        raise _wrong(shape, value, where)
    return number


_WANTED: dict[type, str] = {
    str: "text",
    int: "a whole number",
    float: "a number",
    bool: "yes or no",
    date: "a day such as 2026-08-21",
    datetime: "a moment such as 2026-08-21T18:30+00:00",
}


def _wrong(shape: Shape, value: Any, where: str) -> InputProblem:
    return InputProblem(
        f"{where}: “{shape.name}” is “{short(value)}”; it should be {_WANTED.get(shape.holds, 'a number')}."
    )


def _made(kind: type[Any], values: dict[str, Any], where: str) -> Any:
    for shape in shapes(kind):
        if shape.required and values.get(shape.name) is None:
            raise InputProblem(f"{where} has no “{shape.name}”, which every {kind.__name__} needs.")
        if values.get(shape.name, _LEFT_OUT) is None and not shape.missing:
            del values[shape.name]
    return kind(**values)


# --- tables ----------------------------------------------------------------------------------------------


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
            cells[f"{shape.name}_typed"] = "" if value is None else value.typed
        elif isinstance(value, bool):
            cells[shape.name] = "yes" if value else "no"
        else:
            cells[shape.name] = "" if value is None else str(_json(value))
    return [cells[name] for name in columns(type(record))]


def from_cells(kind: type[Any], cells: Mapping[str, str], where: str) -> Any:
    """The record one line of a table stands for. An empty cell is missing."""
    values: dict[str, Any] = {}
    cells = read_today(kind, cells)
    for shape in shapes(kind):
        if shape.quantity is not None:
            values[shape.name] = _quantity(shape, cells, where)
        elif shape.holds is str:
            text = cells.get(shape.name)
            values[shape.name] = None if not text and shape.about.needed and not shape.required else text
        elif cells.get(shape.name, "").strip():
            values[shape.name] = _from_json(shape, _number_or_text(shape, cells[shape.name].strip(), where), where)
    return _made(kind, values, where)


def _quantity(shape: Shape, cells: Mapping[str, str], where: str) -> Quantity | None:
    assert shape.quantity is not None
    stored = f"{shape.name}_{SUFFIXES[shape.quantity]}"
    if stored not in cells:
        return _typed(shape.quantity, cells.get(shape.name, "").strip(), where)
    if not cells[stored].strip():
        return None
    value = _finite(shape, _number_or_text(shape, cells[stored].strip(), where), where)
    return shape.quantity(value, cells.get(f"{shape.name}_typed", ""))


def _typed(kind: type[Quantity], typed: str, where: str) -> Quantity | None:
    try:
        return parse(typed, kind, allow_zero=True) if typed else None
    except InputProblem as problem:
        raise InputProblem(f"{where}: {problem_sentence(problem)}") from None


def _number_or_text(shape: Shape, text: str, where: str) -> Any:
    try:
        if shape.holds is int:
            return int(text)
        if shape.holds is float or shape.quantity is not None:
            return float(text)
    except ValueError:
        raise _wrong(shape, text, where) from None
    return {"yes": True, "no": False}.get(text.lower(), text) if shape.holds is bool else text
