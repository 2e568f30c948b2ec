"""Reading what people type: `2 lb 3 oz`, `1½ c`, `135 F`, `8h30`. The one door through which pint comes in.

The numbers are taken apart here; what a unit word means, adding up `2 lb` and `3 oz`, whether a cup is a weight,
and the way to the stored unit are pint's, from the table of `units` and nothing else.

Every quantity keeps its value in the stored unit (g, ml, s, mm, cm², °C) and what was typed, so that it
comes back as typed. Nonsense, negative, infinite or of the wrong kind is an `InputProblem` whose sentence
says what would be right.
"""

from __future__ import annotations

import math
import re
import sys
from dataclasses import dataclass
from functools import cache, lru_cache
from typing import TYPE_CHECKING, Any, ClassVar, TypeVar

from dryhouse.science.errors import InputProblem
from dryhouse.science.messages import MessageKind as Kind
from dryhouse.science.messages import message
from dryhouse.science.typed_numbers import NUMBER, fractions_spelled_out, number_in, tidied
from dryhouse.science.units import (
    AREA,
    LENGTH,
    MASS,
    STORED,
    TEMPERATURE,
    TIME,
    UNITS,
    VOLUME,
    Unit,
    written_as,
)

if TYPE_CHECKING:
    import pint
    from pint.facets.plain import PlainQuantity


@dataclass(frozen=True, slots=True)
class Quantity:
    """A value in its stored unit, and the text it was typed as (empty where it was computed)."""

    si: float
    typed: str = ""

    dimension: ClassVar[str] = ""


class Mass(Quantity):
    """Grams."""

    __slots__ = ()
    dimension: ClassVar[str] = MASS


class Volume(Quantity):
    """Millilitres."""

    __slots__ = ()
    dimension: ClassVar[str] = VOLUME


class Duration(Quantity):
    """Seconds."""

    __slots__ = ()
    dimension: ClassVar[str] = TIME


class Length(Quantity):
    """Millimetres."""

    __slots__ = ()
    dimension: ClassVar[str] = LENGTH


class Area(Quantity):
    """Square centimetres."""

    __slots__ = ()
    dimension: ClassVar[str] = AREA


class Temperature(Quantity):
    """Degrees Celsius: a point on the scale, never a difference."""

    __slots__ = ()
    dimension: ClassVar[str] = TEMPERATURE


Q = TypeVar("Q", bound=Quantity)

_TERM = re.compile(
    rf"\s*(?:,|\+|and\b|&)?\s*(?P<number>{NUMBER})\s*(?P<unit>[^\d,+&]*?(?:(?<=[a-z])2)?)\s*(?=,|\+|&|\band\b|\d|\.\d|$)"
)
_CLOCK = re.compile(
    r"(?P<h>\d{1,3})\s*(?::\s*(?P<mm>\d+)|(?:h|hr|hrs|hour|hours)\s*(?P<m>[0-5]?\d))\s*(?:m|min|mins|minutes)?"
)
_SIDES = re.compile(rf"(?P<a>{NUMBER})\s*[x×]\s*(?P<b>{NUMBER})\s*(?P<unit>[a-z\"']+)")
_LARGEST = 1e9
_ABSOLUTE_ZERO_C = -273.15


def parse_mass(text: str, **how: object) -> Mass:
    """`2 lb 3 oz` → `Mass`. See `parse` for `default_unit`, `decimal_comma` and `allow_zero`."""
    return parse(text, Mass, **how)  # type: ignore[arg-type]


def parse_duration(text: str, **how: object) -> Duration:
    """`8h30`, `8:30`, `510 min` → `Duration`."""
    return parse(text, Duration, **how)  # type: ignore[arg-type]


def parse_temperature(text: str, **how: object) -> Temperature:
    """`135 F`, `57 °C` → `Temperature`."""
    return parse(text, Temperature, **how)  # type: ignore[arg-type]


def parse_length(text: str, **how: object) -> Length:
    """`1/4 in`, `6 mm` → `Length`."""
    return parse(text, Length, **how)  # type: ignore[arg-type]


def parse_amount(text: str, *, default_unit: str = "", decimal_comma: bool = False) -> Mass | Volume:
    """A mass or a volume, whichever its unit says."""
    words = [_unit_word(t["unit"]) or default_unit for t in _TERM.finditer(tidied(text, decimal_comma, "amount"))]
    if any(_dimension(name) == VOLUME for word in words if (name := _meant(word, VOLUME))):
        return parse(text, Volume, default_unit=default_unit, decimal_comma=decimal_comma)
    return parse(text, Mass, default_unit=default_unit, decimal_comma=decimal_comma)


def parse(
    text: str, kind: type[Q], *, default_unit: str = "", decimal_comma: bool = False, allow_zero: bool = False
) -> Q:
    """What was typed, as a quantity of this kind.

    `default_unit` is used for a bare number (the unit shown beside the field); without one, a bare number
    is refused. `decimal_comma` says that a comma is a decimal mark. Zero is refused unless allowed.
    Raises InputProblem.
    """
    typed = text.strip()
    measured: type = kind  # mypy takes no type of a variable for something that can be remembered
    return kind(_in_stored_unit(typed, measured, default_unit, decimal_comma, allow_zero), typed)


@lru_cache(2048)
def _in_stored_unit(
    typed: str, kind: type[Quantity], default_unit: str, decimal_comma: bool, allow_zero: bool
) -> float:
    """A file of thousands of records has the same few hundred amounts again and again: each is read once."""
    tidy = tidied(typed, decimal_comma, kind.__name__.lower())
    if kind.dimension == TEMPERATURE:
        return _temperature(typed, tidy, default_unit)
    if tidy.startswith("-"):
        raise _refused(Kind.BELOW_ZERO, typed, kind)
    value = _reckon(typed, tidy, kind, default_unit)
    if not math.isfinite(value) or value > _LARGEST:
        raise _refused(Kind.TOO_LARGE, typed, kind)
    if value == 0 and not allow_zero:
        raise _refused(Kind.ZERO, typed, kind)
    return value


def parse_number(text: str, *, decimal_comma: bool = False, what: str = "number") -> float:
    """A plain number that is not negative: `4`, `1 1/2`, `0,5` where the comma is a decimal mark.

    Raises InputProblem.
    """
    typed = text.strip()
    tidy = tidied(typed, decimal_comma, what)
    if not re.fullmatch(NUMBER, tidy):
        raise InputProblem(message(Kind.NO_NUMBER, typed=typed, what=what))
    return number_in(typed, tidy)


def parse_percent(text: str, *, decimal_comma: bool = False, what: str = "percentage") -> float:
    """`14%` or `14` → 14.0. Outside 0 to 100 is refused."""
    value = parse_number(
        re.sub(r"(?<!\s)\s*(%|percent|pct)$", "", text.strip()), decimal_comma=decimal_comma, what=what
    )
    if not 0 <= value <= 100:
        raise InputProblem(message(Kind.NO_PERCENTAGE, typed=text.strip(), what=what))
    return value


def unit_typed(quantity: Quantity) -> str:
    """The short name of the (smallest) unit the person used, or the stored unit where nothing was typed."""
    units = written_as((quantity.dimension,))
    used = [
        units[w]
        for t in _TERM.finditer(fractions_spelled_out(quantity.typed))
        if (w := _unit_word(t["unit"])) in units
    ]
    return used[-1].name if used else STORED[quantity.dimension]


# --- amounts, with pint ------------------------------------------------------------------------------------


def _reckon(typed: str, tidy: str, kind: type[Quantity], default_unit: str) -> float:
    """The sum of the terms in the stored unit."""
    stored = STORED[kind.dimension]
    if kind.dimension == TIME and (clock := _CLOCK.fullmatch(tidy)):
        return _clock(typed, clock)
    if kind.dimension == AREA and (sides := _SIDES.fullmatch(tidy)):
        side = _meant(sides["unit"], LENGTH)
        if side and _dimension(side) == LENGTH:
            area = _of(number_in(typed, sides["a"]), side) * _of(number_in(typed, sides["b"]), side)
            return float(area.to(stored).magnitude)
    if re.search(r"\.\d+\.|\de[+-]?\d", tidy):
        raise _refused(Kind.NO_QUANTITY, typed, kind)
    total, end, smallest = _of(0.0, stored), 0, math.inf
    for term in _TERM.finditer(tidy):
        if term.start() != end:
            break
        unit = _unit(typed, _unit_word(term["unit"]), kind, default_unit)
        size = _size(unit)
        if size >= smallest:
            raise _refused(Kind.UNITS_OUT_OF_ORDER, typed, kind)
        total = total + _of(number_in(typed, term["number"]), unit)
        end, smallest = term.end(), size
    if end == 0 or tidy[end:].strip():
        raise _refused(Kind.NO_QUANTITY, typed, kind)
    return float(total.magnitude)


def _clock(typed: str, clock: re.Match[str]) -> float:
    """Seconds of `8:30` or `8h30`."""
    minutes = clock["mm"] or clock["m"]
    if clock["mm"] and (len(minutes) != 2 or int(minutes) > 59):
        raise _refused(Kind.CLOCK_MINUTES, typed, Duration)
    return int(clock["h"]) * 3600.0 + int(minutes) * 60.0


def _unit(typed: str, word: str, kind: type[Quantity], default_unit: str) -> str:
    """pint's name of the unit that a word means, where it measures what this kind is."""
    word = word or default_unit
    if not word:
        raise _refused(Kind.NO_UNIT, typed, kind)
    name = _meant(word, kind.dimension)
    if not name:
        raise _refused(Kind.UNKNOWN_UNIT, word, kind)
    was = _dimension(name)
    if was == kind.dimension:
        return name
    if name == "oz" and kind.dimension == VOLUME:
        raise _refused(Kind.WEIGHT_FOR_VOLUME, typed, kind)
    raise InputProblem(message(Kind.OTHER_QUANTITY, typed=typed, was=was, wanted=kind.dimension))


def _refused(why: Kind, typed: str, kind: type[Quantity]) -> InputProblem:
    return InputProblem(message(why, typed=typed, wanted=kind.dimension))


def _temperature(typed: str, tidy: str, default_unit: str) -> float:
    match = re.fullmatch(rf"(?P<sign>[+-]?)\s*(?P<number>{NUMBER})\s*(?P<unit>[^\d]*)", tidy)
    if match is None:
        raise _refused(Kind.NO_QUANTITY, typed, Temperature)
    word = _unit_word(match["unit"])
    scale = _meant((word if word not in ("", "°") else default_unit).lower(), TEMPERATURE)
    if not scale or _dimension(scale) != TEMPERATURE:
        if word in ("", "°"):
            raise _refused(Kind.NO_SCALE, typed, Temperature)
        raise _refused(Kind.UNKNOWN_SCALE, word, Temperature)
    value = number_in(typed, match["number"]) * (-1 if match["sign"] == "-" else 1)
    celsius = float(_of(value, scale).to(STORED[TEMPERATURE]).magnitude)
    if celsius < _ABSOLUTE_ZERO_C:
        raise _refused(Kind.TOO_COLD, typed, Temperature)
    if celsius > 1000:
        raise _refused(Kind.TOO_HOT, typed, Temperature)
    return celsius


# --- pint ------------------------------------------------------------------------------------------------


_NOT_FOR_UNITS = ("uncertainties", "scipy", "dask", "xarray", "babel")
"""What pint reads too where it is installed, for numbers and languages the kitchen's units have no use of."""


def _pint() -> Any:
    """pint, without those."""
    hidden = [name for name in _NOT_FOR_UNITS if name not in sys.modules]
    for name in hidden:
        sys.modules[name] = None  # type: ignore[assignment]  # as if it were not installed
    try:
        import pint
    finally:
        for name in hidden:
            sys.modules.pop(name, None)
    return pint


@cache
def registry() -> pint.UnitRegistry[float]:
    """A pint registry of the kitchen's units and no others, made on first use (some 10 ms, after pint's import)."""
    made: pint.UnitRegistry[float] = _pint().UnitRegistry(None, cache_folder=None)
    taken = {_pint_word(unit.name) for unit in UNITS}
    for unit in sorted(UNITS, key=lambda u: u.name != _REFERENCE[u.dimension]):
        aliases = [w for w in dict.fromkeys(map(_pint_word, unit.written)) if w not in taken]
        taken.update(aliases)
        made.define(" = ".join((f"{_pint_word(unit.name)} = {_in_pint(unit)}", "_", *aliases)))
    return made


_REFERENCE = STORED | {TEMPERATURE: "degF"}
"""What each dimension's sizes are multiples of."""


def _in_pint(unit: Unit) -> str:
    """How a unit is defined for pint: as its dimension's own, or by its size in that."""
    reference = _REFERENCE[unit.dimension]
    if unit.name == reference:
        return "100 * mm ** 2" if unit.dimension == AREA else f"[{unit.dimension}]"
    return f"{unit.size!r} * {reference}" + (f"; offset: {unit.zero!r}" if unit.zero else "")


def _unit_word(unit: str) -> str:
    return re.sub(r"\s+", " ", unit.strip()).rstrip(".").replace("fl. oz", "fl oz").strip()


def _pint_word(word: str) -> str:
    """A unit's word as pint can hold it."""
    return word.replace(" ", "_").replace("#", "lb")


@lru_cache(maxsize=1024)
def _meant(word: str, dimension: str) -> str:
    """pint's name of what a word means; empty where it means nothing.

    `m` and `c` are written for units of two dimensions: the one that is asked for goes first.
    """
    written_for = {u.dimension: u.name for u in UNITS if word in u.written}
    if len(written_for) > 1:
        word = written_for.get(dimension, word)
    found = registry().parse_unit_name(_pint_word(word)) if word else ()
    return found[0][1] if found else ""


@cache
def _dimension(name: str) -> str:
    """What one of pint's units measures."""
    measured = registry().get_dimensionality(name)
    return next(d for d, stored in STORED.items() if registry().get_dimensionality(stored) == measured)


@cache
def _size(unit: str) -> float:
    """How large a unit is, in the stored one of its dimension."""
    return float(_of(1.0, unit).to(STORED[_dimension(unit)]).magnitude)


def _of(value: float, unit: str) -> PlainQuantity[float]:
    return registry().Quantity(value, unit)
