"""Records with nothing out of the ordinary in any field, read and judged in one go: nearly all of a long file's.

What a field may hold is asked of the same readers and the same judges as ever (`formats`, `field_problems`,
`typed_problems`); here it is only asked once where the same weight stands in the file a thousand times. Whatever
raises a doubt is left to them, with their sentences.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, date, datetime
from typing import Any

from dryhouse.kitchen.exchange.formats import value_of
from dryhouse.kitchen.records.field_problems import easily_sound, wrong
from dryhouse.kitchen.records.former import read_today
from dryhouse.kitchen.records.shapes import SUFFIXES, Shape, shapes
from dryhouse.kitchen.records.typed_problems import agrees
from dryhouse.science.errors import InputProblem

_Read = Callable[[Any], Any]
"""What a field holds, of a value as JSON has it; `_DOUBT` where that is not plain."""
_DOUBT = object()
_REMEMBERED = 1 << 14


def plain(kind: type[Any], values: Any) -> Any | None:
    """The record these values stand for, where each field by itself is in order; None where any may not be."""
    if type(values) is not dict:
        return None
    known, fields, asked = _KINDS.get(kind) or _known(kind)
    held = fields.copy()
    for name, value in read_today(kind, values).items():
        field = known.get(name)
        if field is None:
            return None
        place, usual, read = field
        if value is None or value is usual:
            continue
        found = read(value)
        if found is _DOUBT:
            return None
        held[place] = found
    for place in asked:
        if held[place] is _DOUBT:
            return None
    return kind(*held)


_Known = tuple[dict[str, tuple[int, Any, _Read]], list[Any], list[int]]
_KINDS: dict[type[Any], _Known] = {}


def _known(kind: type[Any]) -> _Known:
    """For each field its place, what it is where nothing is said, and how it is read; all of them where nothing is
    said; and the places of those of which something must be."""
    every = shapes(kind)
    asked = [n for n, s in enumerate(every) if s.required or (s.default is not None and wrong(s, s.default))]
    usual = [_DOUBT if n in asked else s.default for n, s in enumerate(every)]
    _KINDS[kind] = {s.name: (n, usual[n], _read_for(s)) for n, s in enumerate(every)}, usual, asked
    return _KINDS[kind]


def _read_for(shape: Shape) -> _Read:
    if shape.quantity is not None:
        return _quantity_for(shape)
    holds, easy = shape.holds, easily_sound(shape)
    if holds is bool:
        return lambda value: value if type(value) is bool else _DOUBT
    if holds in (date, datetime):
        return _moment_for(shape)

    def read(value: Any) -> Any:
        return value if type(value) is holds and (easy(value) or not wrong(shape, value)) else _DOUBT

    return read


def _moment_for(shape: Shape) -> _Read:
    easy, of_text = easily_sound(shape), getattr(shape.holds, "fromisoformat")  # noqa: B009
    zone = UTC if shape.holds is datetime else None

    def read(value: Any) -> Any:
        try:
            found = of_text(value)
        except (TypeError, ValueError):
            return _DOUBT
        return found if getattr(found, "tzinfo", None) is zone and easy(found) else _DOUBT

    return read


def _quantity_for(shape: Shape) -> _Read:
    assert shape.quantity is not None
    unit = SUFFIXES[shape.quantity]
    remembered: dict[tuple[float, str], Any] = {}

    def read(value: Any) -> Any:
        if type(value) is not dict or len(value) != 2:
            return _DOUBT
        si, typed = value.get(unit), value.get("typed")
        if type(si) is not float or type(typed) is not str or not si:
            return asked(value)  # 0 and -0 would be remembered as one
        found = remembered.get((si, typed))
        if found is None:
            found = asked(value)
            if len(remembered) >= _REMEMBERED:
                remembered.clear()
            remembered[si, typed] = found
        return found

    def asked(value: Any) -> Any:
        try:
            found = value_of(shape, value, "")
        except InputProblem:
            return _DOUBT
        return _DOUBT if wrong(shape, found) or (found.typed and not agrees(found)) else found

    return read
