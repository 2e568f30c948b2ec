"""What can be wrong with one field by itself: its bounds, its choices, and what no journal can hold.

Which bounds and choices a field has is said where the field is (`about`); here they are only held to.
"""

from __future__ import annotations

import math
import sys
from collections.abc import Callable
from datetime import date
from operator import attrgetter
from typing import Any

from dryhouse.kitchen.records.shapes import Shape, shapes
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Quantity, Temperature
from dryhouse.science.units import STORED, both_scales

EARLIEST, LATEST = 1900, 2199
"""Years a record may be of: nobody has kept notes for longer."""
LARGEST = 2**63 - 1
"""The largest whole number a journal can hold."""


def field_problems(record: Any) -> list[InputProblem]:
    """The fields of a record that cannot be right whatever stands around them, in their order."""
    found = []
    held, fields = _fields(type(record))
    for value, (shape, sound, easy) in zip(held(record), fields, strict=True):
        if value is None or value is sound or easy(value):
            continue
        if sentence := wrong(shape, value):
            found.append(InputProblem(sentence, shape.name))
    return found


_Easy = Callable[[Any], bool]
_Fields = tuple[Callable[[Any], tuple[Any, ...]], tuple[tuple[Shape, Any, _Easy], ...]]
_FIELDS: dict[type[Any], _Fields] = {}


def _fields(kind: type[Any]) -> _Fields:
    """What the fields that can be wrong hold; of each a value that is not, and what tells quickly of most values
    that they are not."""
    if kind not in _FIELDS:
        of = [shape for shape in shapes(kind) if shape.holds is not bool]
        told = tuple(
            (s, None if s.default is None or wrong(s, s.default) else s.default, easily_sound(s)) for s in of
        )
        _FIELDS[kind] = (attrgetter(*(shape.name for shape in of)), told)
    return _FIELDS[kind]


def easily_sound(shape: Shape) -> _Easy:
    """What tells quickly of most values of a field that nothing is wrong with them."""
    about = shape.about
    least = _LEAST if about.low is None else about.low
    most = _MOST if about.high is None else about.high
    if about.positive:
        least = max(least, math.nextafter(0.0, 1.0))
    if about.below is not None:
        most = min(most, math.nextafter(about.below, -math.inf))
    if shape.holds is str:
        return str.isascii if not about.choices and not about.needed else about.choices.__contains__
    if shape.holds is int:
        return lambda value: max(least, -LARGEST) <= value <= min(most, LARGEST)
    if shape.quantity is not None:
        return lambda value: least <= value.si <= most and value.typed.isascii()
    if shape.holds is float:
        return lambda value: least <= value <= most
    return lambda value: EARLIEST <= value.year <= LATEST


_MOST = sys.float_info.max
_LEAST = -_MOST


def wrong(shape: Shape, value: Any) -> str:
    """What is wrong with a value by itself; empty where nothing is."""
    if isinstance(value, str):
        return _wrong_text(shape, value)
    if isinstance(value, Quantity):
        return _holdable(value.typed) or _outside(shape, value.si, value)
    if isinstance(value, date):
        return "" if EARLIEST <= value.year <= LATEST else f"{_label(shape)} is in the year {value.year}."
    if isinstance(value, int) and not -LARGEST <= value <= LARGEST:
        return f"{_label(shape)} is larger than any number a journal can hold."
    return _outside(shape, value, value)


def _wrong_text(shape: Shape, text: str) -> str:
    about = shape.about
    if about.needed and not text.strip():
        return about.says or f"{_label(shape)} is empty; every record of this kind has one."
    if about.choices and text not in about.choices and (text or about.needed or shape.required):
        known = f"{_label(shape)} is “{short(text)}”; it should be one of {', '.join(about.choices)}."
        return about.says.format(shown=short(text)) or known
    return _holdable(text)


def _holdable(text: str) -> str:
    """Half of a character that was cut in two can be neither written to a file nor shown."""
    if text.isascii():
        return ""
    try:
        text.encode("utf-8")
    except UnicodeEncodeError:
        return "A text holds half a character, which cannot be written; type it again."
    return ""


def short(value: object) -> str:
    """A value as a sentence can carry it."""
    text = str(value).encode("utf-8", "replace").decode("utf-8")
    return text if len(text) <= 60 else f"{text[:57]}…"


def _outside(shape: Shape, value: float, entered: Quantity | float) -> str:
    about = shape.about
    low, high, below = about.low, about.high, about.below
    if (
        math.isfinite(value)
        and (not about.positive or value > 0)
        and (low is None or value >= low)
        and (high is None or value <= high)
        and (below is None or value < below)
    ):
        return ""
    return _said_outside(shape, value, shown(entered) if isinstance(entered, Quantity) else f"{entered:g}")


def _said_outside(shape: Shape, value: float, said: str) -> str:
    about = shape.about
    low, high, below = about.low, about.high, about.below
    if not math.isfinite(value):
        return f"{_label(shape)} is no number; leave it empty where it was not measured."
    if about.says:
        return about.says.format(shown=said)
    if about.positive and value <= 0:
        return f"{_label(shape)} is {said}; leave it empty where it was not measured."
    if shape.quantity is Temperature and low is not None and high is not None:
        return (
            f"{_label(shape)} is {said}, which cannot be right: between {both_scales(low)} and {both_scales(high)} "
            "is. Was the other scale meant?"
        )
    if shape.quantity is not None:
        return f"{_label(shape)} is {said}, which cannot be right; check the number and its unit."
    if low is not None and high is None and below is None:
        return f"{_label(shape)} is {said}; it is {low:g} or more."
    least = "" if low is None else f"between {low:g} and "
    most = f"below {below:g}" if below is not None else f"{high:g}"
    return f"{_label(shape)} is {said}; it lies {least}{most}."


def _label(shape: Shape) -> str:
    return f"“{shape.about.label or shape.name.replace('_', ' ')}”"


def shown(quantity: Quantity) -> str:
    """A quantity as it was typed; where it was not, in its stored unit."""
    return short(quantity.typed) or f"{quantity.si:.4g} {STORED[quantity.dimension].replace('degC', '°C')}"
