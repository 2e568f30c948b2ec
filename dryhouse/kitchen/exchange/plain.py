"""Records with nothing out of the ordinary in any field, read and judged many at once: nearly all of a long file's.

What a field may hold is asked of the same readers and the same judges as ever (`formats`, `field_problems`,
`typed_problems`); here it is asked of a whole column of a field at once, and only once where the same weight
stands in the file a thousand times. Whatever raises a doubt is left to them, with their sentences.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Mapping, Sequence
from datetime import UTC, date, datetime
from itertools import repeat
from operator import attrgetter, itemgetter
from typing import Any, NamedTuple

from dryhouse.kitchen.exchange.formats import value_of
from dryhouse.kitchen.records.field_problems import easily_sound, wrong
from dryhouse.kitchen.records.former import read_today
from dryhouse.kitchen.records.shapes import SUFFIXES, Shape, filled, shapes
from dryhouse.kitchen.records.typed_problems import agrees
from dryhouse.science.errors import InputProblem

_One = Callable[[Any], Any]
"""What a field holds, of a value as JSON has it; `_DOUBT` where that is not plain."""
_Together = Callable[[Sequence[Any]], Sequence[Any] | None]
"""The same of one field of many records; None where some of them are to be asked one by one."""
_DOUBT: Any = object()
_REMEMBERED = 1 << 14


class _Field(NamedTuple):
    place: int
    usual: Any
    """What it is where nothing is said; `_DOUBT` where something must be."""
    together: _Together
    one: _One


def plain(kind: type[Any], many: Sequence[Any]) -> list[Any | None]:
    """For each of these values the record it stands for, where each field by itself is in order; None where any
    may not be."""
    today = [read_today(kind, values) if type(values) is dict else None for values in many]
    alike: defaultdict[tuple[str, ...], list[int]] = defaultdict(list)
    for number, values in enumerate(today):
        if values is not None:
            alike[tuple(values)].append(number)
    found: list[Any | None] = [None] * len(many)
    for names, numbers in alike.items():
        records = _alike(kind, names, [today[number] for number in numbers])
        for number, record in zip(numbers, records, strict=False):
            found[number] = record
    return found


def _alike(kind: type[Any], names: tuple[str, ...], many: Sequence[Any]) -> Sequence[Any | None]:
    """The records of values that say something of the same fields; fewer where none of them is plain."""
    known, usual, asked = _KINDS.get(kind) or _known(kind)
    if not asked.issubset(names) or not known.keys() >= set(names):
        return ()
    columns: list[Any] = [repeat(value, len(many)) for value in usual]
    doubtful: set[int] = set()
    for name, held in zip(names, zip(*(values.values() for values in many), strict=True), strict=True):
        field = known[name]
        column = field.together(held)
        if column is None:
            nothing = (None, field.usual)
            column = [field.usual if any(value is n for n in nothing) else field.one(value) for value in held]
            doubtful.update(number for number, value in enumerate(column) if value is _DOUBT)
        columns[field.place] = column
    if not doubtful:
        return filled(kind, len(many), columns)
    rows = enumerate(zip(*columns, strict=True))
    return [None if number in doubtful else kind(*row) for number, row in rows]


_Known = tuple[Mapping[str, _Field], Sequence[Any], frozenset[str]]
_KINDS: dict[type[Any], _Known] = {}


def _known(kind: type[Any]) -> _Known:
    """The fields; what each is where nothing is said; and the names of those of which something must be."""
    every = shapes(kind)
    asked = frozenset(s.name for s in every if s.required or (s.default is not None and wrong(s, s.default)))
    usual = [_DOUBT if s.name in asked else s.default for s in every]
    known = {s.name: _Field(n, usual[n], *_read_for(s)) for n, s in enumerate(every)}
    _KINDS[kind] = known, usual, asked
    return _KINDS[kind]


def _read_for(shape: Shape) -> tuple[_Together, _One]:
    if shape.quantity is not None:
        return _quantities_for(shape)
    if shape.holds in (date, datetime):
        return _moments_for(shape)
    holds = shape.holds
    if holds is bool:
        return (lambda held: held if set(map(type, held)) == {bool} else None), (
            lambda value: value if type(value) is bool else _DOUBT
        )
    easy = easily_sound(shape)

    def one(value: Any) -> Any:
        return value if type(value) is holds and (easy(value) or not wrong(shape, value)) else _DOUBT

    def together(held: Sequence[Any]) -> Sequence[Any] | None:
        if set(map(type, held)) != {holds}:
            return None
        if holds is int:
            return held if easy(min(held)) and easy(max(held)) else None
        return held if all(map(easy, held)) else None

    return together, one


def _moments_for(shape: Shape) -> tuple[_Together, _One]:
    easy, of_text = easily_sound(shape), getattr(shape.holds, "fromisoformat")  # noqa: B009
    zone = UTC if shape.holds is datetime else None
    zone_of = attrgetter("tzinfo") if shape.holds is datetime else lambda _day: None

    def one(value: Any) -> Any:
        try:
            found = of_text(value)
        except (TypeError, ValueError):
            return _DOUBT
        return found if zone_of(found) is zone and easy(found) else _DOUBT

    def together(held: Sequence[Any]) -> Sequence[Any] | None:
        try:
            found = list(map(of_text, held))
        except (TypeError, ValueError):
            return None
        return found if set(map(zone_of, found)) == {zone} and easy(min(found)) and easy(max(found)) else None

    return together, one


def _quantities_for(shape: Shape) -> tuple[_Together, _One]:
    assert shape.quantity is not None
    unit = SUFFIXES[shape.quantity]
    remembered: dict[tuple[float, str], Any] = {}

    def one(value: Any) -> Any:
        try:
            found = value_of(shape, value, "")
        except InputProblem:
            return _DOUBT
        return _DOUBT if wrong(shape, found) or (found.typed and not agrees(found)) else found

    def together(held: Sequence[Any]) -> Sequence[Any] | None:
        said = _said(unit, held)
        if said is None:
            return None
        found = list(map(remembered.get, said))
        for place in [place for place, each in enumerate(found) if each is None]:
            found[place] = each = one(held[place])
            if each is _DOUBT:
                return None
            if len(remembered) >= _REMEMBERED:
                remembered.clear()
            if each.si:  # 0 and -0 would be remembered as one
                remembered[said[place]] = each
        return found

    return together, one


def _said(unit: str, held: Sequence[Any]) -> list[tuple[float, str]] | None:
    """Of quantities as JSON has them the values, and what was typed; None where any is anything else."""
    if set(map(type, held)) != {dict} or set(map(len, held)) != {2}:
        return None
    try:
        said = list(map(itemgetter(unit, "typed"), held))
    except KeyError:
        return None
    values, typed = zip(*said, strict=True)
    return said if set(map(type, values)) == {float} and set(map(type, typed)) == {str} else None
