"""Whether a quantity is what was typed for it: for records that come from elsewhere, or have lain in a file.

What an act records was read from what was typed, so it is not asked again at every step.
"""

from __future__ import annotations

from functools import lru_cache
from typing import Any

from dryhouse.kitchen.records.field_problems import short
from dryhouse.kitchen.records.shapes import SUFFIXES, shapes
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
    for shape in shapes(type(record)):
        value = getattr(record, shape.name)
        if isinstance(value, Quantity) and value.typed and not _agrees(value):
            held = both_scales(value.si) if isinstance(value, Temperature) else _held(value)
            label = shape.about.label or shape.name.replace("_", " ")
            said = f"“{label}” holds {held} but was typed “{short(value.typed)}”; which of the two is right?"
            found.append(InputProblem(said, shape.name))
    return found


def _held(value: Quantity) -> str:
    return f"{value.si:.6g} {STORED[value.dimension]}"


def _agrees(value: Quantity) -> bool:
    meanings = _meanings(value.dimension, value.typed)
    if not meanings:
        return True
    slack = _DEGREES if isinstance(value, Temperature) else 0.0
    return any(abs(value.si - meant) <= max(_SHARE * abs(meant), slack) for meant in meanings)


@lru_cache(maxsize=65536)
def _meanings(dimension: str, typed: str) -> tuple[float, ...]:
    """What the words may mean with a unit of their own; nothing where they name none or can't be read."""
    found = []
    for comma in (False, True):
        try:
            found.append(parse(typed, _KINDS[dimension], decimal_comma=comma, allow_zero=True).si)
        except InputProblem:
            continue
    return tuple(found)
