"""One record as JSON values, and back, field by field. What cannot be read is an InputProblem.

A quantity is `{"g": 1133.98, "typed": "2 lb 8 oz"}`, a day or a moment is ISO text, what is missing is left out.
"""

from __future__ import annotations

import json
import math
import re
import sys
from collections.abc import Callable, Mapping
from datetime import UTC, date, datetime
from typing import Any

from dryhouse.kitchen.ports import Record
from dryhouse.kitchen.records.field_problems import LARGEST, short
from dryhouse.kitchen.records.former import read_today
from dryhouse.kitchen.records.shapes import SUFFIXES, Shape, shapes
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Quantity

_Field = tuple[str, str, bool]


_FIELDS: dict[type[Any], tuple[_Field, ...]] = {}


def _fields(kind: type[Any]) -> tuple[_Field, ...]:
    """Each field's name, the stored unit of a quantity (else empty), and whether it is a day or a moment."""
    if kind not in _FIELDS:
        _FIELDS[kind] = tuple(
            (s.name, SUFFIXES[s.quantity] if s.quantity is not None else "", s.holds in (date, datetime))
            for s in shapes(kind)
        )
    return _FIELDS[kind]


def as_json(record: Record) -> dict[str, Any]:
    """The record as JSON values; what is missing is left out."""
    found: dict[str, Any] = {}
    for name, unit, dated in _fields(type(record)):
        value = getattr(record, name)
        if value is None:
            continue
        if unit:
            value = {unit: value.si, "typed": value.typed}
        elif dated:
            value = value.isoformat()
        found[name] = value
    return found


_Read = Callable[[Any, str], Any]
"""What a field holds, of a value as JSON has it and where it stands."""


_READERS: dict[type[Any], Mapping[str, tuple[Any, _Read]]] = {}


def _readers(kind: type[Any]) -> Mapping[str, tuple[Any, _Read]]:
    """What each field of a kind is where nothing is said, and how it is read, worked out once."""
    if kind not in _READERS:
        _READERS[kind] = {shape.name: (shape.default, _read_for(shape)) for shape in shapes(kind)}
    return _READERS[kind]


def from_json(kind: type[Any], values: Any, where: str) -> Any:
    """The record these values stand for. `where` says which entry of which file, for the sentence.

    Raises InputProblem.
    """
    if not isinstance(values, dict):
        raise InputProblem(f"{where} is not a record: it should be a group of named values.")
    known = _readers(kind)
    if not known.keys() >= values.keys():
        strange = short(min(values.keys() - known.keys()))
        raise InputProblem(f"{where} has “{strange}”, which {kind.__name__} records do not have.")
    values = read_today(kind, values)
    there = {}
    for name, value in values.items():
        usual, read = known[name]
        if value is not None and value is not usual:
            there[name] = read(value, where)
    return made(kind, there, where)


_ESCAPED = re.compile(r"\\u[dD][89a-fA-F]")


def may_hold_halves(text: str) -> bool:
    """Whether JSON text spells a character that may be half of one."""
    return _ESCAPED.search(text) is not None


def refuse_halves(content: Any, where: str) -> None:
    """Half of a character that JSON can spell and nothing can write. Raises InputProblem."""
    try:
        json.dumps(content, ensure_ascii=False).encode("utf-8")
    except UnicodeEncodeError:
        raise InputProblem(f"{where} holds half a character, which cannot be kept; write it whole.") from None


def value_of(shape: Shape, value: Any, where: str) -> Any:
    """What a field holds, of a value as JSON has it."""
    return _read_for(shape)(value, where)


def _read_for(shape: Shape) -> _Read:
    holds: Any = shape.holds
    if shape.quantity is not None:
        return _quantity_for(shape, shape.quantity)
    whole = holds is int

    def plain(value: Any, where: str) -> Any:
        if type(value) is not holds or (whole and not -LARGEST <= value <= LARGEST):
            raise wrong_value(shape, value, where)
        return value

    def number(value: Any, where: str) -> Any:
        return finite(shape, value, where)

    def dated(value: Any, where: str) -> Any:
        return _moment(shape, value, where)

    return dated if holds in (date, datetime) else number if holds is float else plain


def _quantity_for(shape: Shape, kind: type[Quantity]) -> _Read:
    unit = SUFFIXES[kind]

    def read(value: Any, where: str) -> Any:
        if not isinstance(value, dict) or len(value) != 2 or unit not in value:
            raise _unlike(shape, unit, where)
        typed = value.get("typed")
        if type(typed) is not str:
            raise _unlike(shape, unit, where)
        return kind(finite(shape, value[unit], where), typed)

    return read


def _unlike(shape: Shape, unit: str, where: str) -> InputProblem:
    return InputProblem(f'{where}: “{shape.name}” should look like {{"{unit}": 12.5, "typed": "…"}}.')


def _moment(shape: Shape, value: Any, where: str) -> Any:
    try:
        if shape.holds is date:
            return date.fromisoformat(value)
        moment = datetime.fromisoformat(value)
        if moment.tzinfo is UTC:
            return moment
        if moment.tzinfo is None:
            raise InputProblem(
                f"{where}: “{shape.name}” is {value}, without its zone; write it like {value}+00:00."
            )
        return moment.astimezone(UTC)
    except InputProblem:
        raise
    except (TypeError, ValueError, OverflowError):
        raise wrong_value(shape, value, where) from None


_FINITE = sys.float_info.max


def finite(shape: Shape, value: Any, where: str) -> float:
    """A number that can be reckoned with."""
    if type(value) is float and -_FINITE <= value <= _FINITE:
        return value
    if isinstance(value, bool) or not isinstance(value, (int, float)):
        raise wrong_value(shape, value, where)
    try:
        number = float(value)
    except OverflowError:
        raise wrong_value(shape, value, where) from None
    if not math.isfinite(number):
        raise wrong_value(shape, value, where)
    return number


_EXPECTED: dict[type, str] = {
    str: "text",
    int: "a whole number",
    float: "a number",
    bool: "yes or no",
    date: "a day such as 2026-08-21",
    datetime: "a moment such as 2026-08-21T18:30+00:00",
}


def wrong_value(shape: Shape, value: Any, where: str) -> InputProblem:
    """What stands in a field, and what should."""
    return InputProblem(
        f"{where}: “{shape.name}” is “{short(value)}”; it should be {_EXPECTED.get(shape.holds, 'a number')}."
    )


def made(kind: type[Any], values: dict[str, Any], where: str) -> Any:
    """The record of the values that are there. Raises InputProblem where one that every record has is missing."""
    try:
        return kind(**values)
    except TypeError:
        missing = next(shape.name for shape in shapes(kind) if shape.required and shape.name not in values)
        raise InputProblem(f"{where} has no “{missing}”, which every {kind.__name__} needs.") from None
