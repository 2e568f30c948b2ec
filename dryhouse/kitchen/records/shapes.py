"""What each field of a record holds, so that the journal and its exports treat every kind alike."""

from __future__ import annotations

from collections import deque
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import MISSING, Field, dataclass, fields
from itertools import repeat
from types import NoneType
from typing import Any, TypeVar, get_args, get_type_hints

from dryhouse.kitchen.records.describing import NOTHING_SAID, About
from dryhouse.science.quantities import Area, Duration, Length, Mass, Quantity, Temperature, Volume

SUFFIXES: dict[type[Quantity], str] = {
    Mass: "g",
    Volume: "ml",
    Length: "mm",
    Area: "cm2",
    Temperature: "c",
    Duration: "s",
}
"""The stored unit, as it ends the name of a column: `prepared_mass_g`, `thickness_mm`."""

R = TypeVar("R")


@dataclass(frozen=True, slots=True)
class Shape:
    """One field: its name, what it holds, and whether it may be missing or left out."""

    name: str
    holds: type
    """`str`, `int`, `float`, `bool`, `date`, `datetime`, or one of the quantities."""
    missing: bool
    required: bool
    about: About = NOTHING_SAID
    default: Any = None
    """What it is where nothing is said."""

    @property
    def quantity(self) -> type[Quantity] | None:
        """The kind of quantity, or None for a plain value."""
        return self.holds if issubclass(self.holds, Quantity) else None

    @property
    def columns(self) -> tuple[str, ...]:
        """What it is kept in: of a quantity the value in its stored unit and what was typed."""
        quantity = self.quantity
        return (self.name,) if quantity is None else (f"{self.name}_{SUFFIXES[quantity]}", f"{self.name}_typed")


_SHAPES: dict[type[Any], tuple[Shape, ...]] = {}


def shapes(kind: type[Any]) -> tuple[Shape, ...]:
    """The fields of a kind of record, in order, worked out once."""
    if kind not in _SHAPES:
        _SHAPES[kind] = _shapes_of(kind)
    return _SHAPES[kind]


_Put = Callable[[Any, Any], None]
_PUT: dict[type[Any], dict[str, _Put]] = {}


def _put(kind: type[Any]) -> dict[str, _Put]:
    """For each field what puts a value into a frozen dataclass that is being made, and has slots. One that makes
    itself takes four times as long, and a long file has millions."""
    if kind not in _PUT:
        _PUT[kind] = {field.name: getattr(kind, field.name).__set__ for field in fields(kind)}
    return _PUT[kind]


def filled(kind: type[R], count: int, columns: Sequence[Iterable[Any]]) -> list[R]:
    """So many records whose fields hold these columns, in the order of the fields."""
    made = list(map(kind.__new__, repeat(kind, count)))
    for put, column in zip(_put(kind).values(), columns, strict=True):
        deque(map(put, made, column), maxlen=0)
    return made


def linked(record: R, links: Mapping[str, int | None]) -> R:
    """The record with other numbers in its links."""
    kind = type(record)
    made = kind.__new__(kind)
    for name, put in _put(kind).items():
        put(made, links[name] if name in links else getattr(record, name))
    return made


def label_of(kind: type[Any], name: str) -> str:
    """What a person calls a field."""
    return next(shape.about.label for shape in shapes(kind) if shape.name == name)


def _shapes_of(kind: type[Any]) -> tuple[Shape, ...]:
    hints = get_type_hints(kind)
    found = []
    for field in fields(kind):
        members = get_args(hints[field.name]) or (hints[field.name],)
        holds = next(m for m in members if m is not NoneType)
        found.append(
            Shape(field.name, holds, NoneType in members, field.default is MISSING, _about(field), _default(field))
        )
    return tuple(found)


def _about(field: Field[Any]) -> About:
    about: About = field.metadata.get("about", NOTHING_SAID)
    return about


def _default(field: Field[Any]) -> Any:
    return None if field.default is MISSING else field.default
