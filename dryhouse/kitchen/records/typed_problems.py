"""Whether a quantity is what was typed for it: for records that come from elsewhere, or have lain in a file.

What an act records was read from what was typed, so it is not asked again at every step.
"""

from __future__ import annotations

import re
from functools import lru_cache
from typing import Any

from dryhouse.kitchen.records.field_problems import short
from dryhouse.kitchen.records.shapes import SUFFIXES, Shape, shapes
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Quantity, Temperature, parse
from dryhouse.science.units import STORED, both_scales

_KINDS = {kind.dimension: kind for kind in SUFFIXES}
_SHARE = 0.02
_DEGREES = 1.0
"""What was typed may have been rounded; a slip of unit or scale is far more."""


def typed_problems(record: Any) -> list[InputProblem]:
    """Quantities that say one thing and hold another."""
    found = []
    for name, shape in _quantities(type(record)):
        value = getattr(record, name)
        if value is not None and value.typed and not agrees(value):
            held = both_scales(value.si) if isinstance(value, Temperature) else _held(value)
            label = shape.about.label or name.replace("_", " ")
            said = f"“{label}” holds {held} but was typed “{short(value.typed)}”; which of the two is right?"
            found.append(InputProblem(said, name))
    return found


_QUANTITIES: dict[type[Any], tuple[tuple[str, Shape], ...]] = {}


def _quantities(kind: type[Any]) -> tuple[tuple[str, Shape], ...]:
    if kind not in _QUANTITIES:
        _QUANTITIES[kind] = tuple((s.name, s) for s in shapes(kind) if s.quantity is not None)
    return _QUANTITIES[kind]


def _held(value: Quantity) -> str:
    return f"{value.si:.6g} {STORED[value.dimension]}"


_PLAIN = re.compile(r"(\d{1,9}(?:\.\d{1,9})?) ?([A-Za-z]+)", re.ASCII)
"""A number and a unit: what is typed nearly always."""


def agrees(value: Quantity) -> bool:
    """Whether it is what was typed for it, as far as that can be read."""
    meant = _plainly(value.dimension, value.typed)
    if meant is not None and abs(value.si - meant) <= _SHARE * abs(meant):
        return True
    meanings = _meanings(value.dimension, value.typed)
    if not meanings:
        return True
    slack = _DEGREES if isinstance(value, Temperature) else 0.0
    return any(abs(value.si - meant) <= max(_SHARE * abs(meant), slack) for meant in meanings)


@lru_cache(maxsize=16384)
def _plainly(dimension: str, typed: str) -> float | None:
    """What a number and a unit mean; None where it is anything else."""
    plain = _PLAIN.fullmatch(typed)
    scale = None if plain is None else _scale(dimension, plain[2])
    return None if plain is None or scale is None else scale[0] + float(plain[1]) * (scale[1] - scale[0])


@lru_cache(maxsize=1024)
def _scale(dimension: str, unit: str) -> tuple[float, float] | None:
    """What 0 and 1 of a unit are in the stored one; None where the word is no unit of it."""
    try:
        nought, one = (parse(f"{n} {unit}", _KINDS[dimension], allow_zero=True).si for n in (0, 1))
    except InputProblem:
        return None
    return nought, one


@lru_cache(maxsize=4096)
def _meanings(dimension: str, typed: str) -> tuple[float, ...]:
    """What the words may mean with a unit of their own; nothing where they name none or can't be read."""
    found = []
    for comma in (False, True):
        try:
            found.append(parse(typed, _KINDS[dimension], decimal_comma=comma, allow_zero=True).si)
        except InputProblem:
            continue
    return tuple(found)
