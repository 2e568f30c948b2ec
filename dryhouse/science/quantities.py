"""Reading what people type: `2 lb 3 oz`, `1½ c`, `135 F`, `8h30`. The one door through which pint comes in.

Every quantity keeps its value in the stored unit (g, ml, s, mm, cm², °C) and what was typed, so that it
comes back as typed. Nonsense, negative, infinite or of the wrong kind is an `InputProblem` whose sentence
says what would be right.
"""

from __future__ import annotations

import math
import re
import unicodedata
from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING, ClassVar, TypeVar

from dryhouse.science.errors import InputProblem
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
    to_celsius,
    written_as,
)

if TYPE_CHECKING:
    import pint


@dataclass(frozen=True, slots=True)
class Quantity:
    """A value in its stored unit, and the text it was typed as (empty where it was computed)."""

    si: float
    typed: str = ""

    dimension: ClassVar[str] = ""
    example: ClassVar[str] = ""


class Mass(Quantity):
    """Grams."""

    __slots__ = ()
    dimension: ClassVar[str] = MASS
    example: ClassVar[str] = "2 lb 3 oz, 40 oz, 1.5 kg or 850 g"


class Volume(Quantity):
    """Millilitres."""

    __slots__ = ()
    dimension: ClassVar[str] = VOLUME
    example: ClassVar[str] = "1 1/2 cups, 3 qt, 12 tbsp, 8 fl oz or 750 ml"


class Duration(Quantity):
    """Seconds."""

    __slots__ = ()
    dimension: ClassVar[str] = TIME
    example: ClassVar[str] = "8h30, 8:30, 510 min or 8.5 h"


class Length(Quantity):
    """Millimetres."""

    __slots__ = ()
    dimension: ClassVar[str] = LENGTH
    example: ClassVar[str] = "1/4 in, 6 mm or 5000 ft"


class Area(Quantity):
    """Square centimetres."""

    __slots__ = ()
    dimension: ClassVar[str] = AREA
    example: ClassVar[str] = "900 cm2, 1 sq ft or 30 x 40 cm"


class Temperature(Quantity):
    """Degrees Celsius: a point on the scale, never a difference."""

    __slots__ = ()
    dimension: ClassVar[str] = TEMPERATURE
    example: ClassVar[str] = "135 F or 57 C"


Q = TypeVar("Q", bound=Quantity)
_KINDS: dict[str, type[Quantity]] = {k.dimension: k for k in (Mass, Volume, Duration, Length, Area, Temperature)}

_FRACTIONS = "¼½¾⅐⅑⅒⅓⅔⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞"
_NUMBER = r"(?:\d+\s+\d+\s*/\s*\d+|\d+\s*/\s*\d+|\d+(?:\.\d*)?|\.\d+)"
_TERM = re.compile(
    rf"\s*(?:,|\+|and\b|&)?\s*(?P<number>{_NUMBER})\s*(?P<unit>[^\d,+&]*?)\s*(?=,|\+|&|\band\b|\d|\.\d|$)"
)
_CLOCK = re.compile(r"(?P<h>\d{1,3})\s*(?::|h|hr|hrs|hour|hours)\s*(?P<m>[0-5]?\d)\s*(?:m|min|mins|minutes)?")
_SIDES = re.compile(rf"(?P<a>{_NUMBER})\s*[x×]\s*(?P<b>{_NUMBER})\s*(?P<unit>[a-z\"']+)")
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
    units = written_as((MASS, VOLUME))
    for term in _TERM.finditer(_tidy(text, decimal_comma, "amount")):
        unit = units.get(_unit_word(term["unit"]) or default_unit)
        if unit is not None and unit.dimension == VOLUME:
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
    tidy = _tidy(typed, decimal_comma, kind.__name__.lower())
    if kind.dimension == TEMPERATURE:
        return kind(_temperature(typed, tidy, default_unit), typed)
    if tidy.startswith("-"):
        raise InputProblem(f"“{typed}” is less than nothing; write it without the minus, such as {kind.example}.")
    value = _reckon(typed, tidy, kind, default_unit)
    if not math.isfinite(value) or value > _LARGEST:
        raise InputProblem(f"“{typed}” is larger than anything this can be; write it like {kind.example}.")
    if value == 0 and not allow_zero:
        raise InputProblem(f"“{typed}” is nothing at all; leave it empty, or write it like {kind.example}.")
    return kind(value, typed)


def parse_number(text: str, *, decimal_comma: bool = False, what: str = "number") -> float:
    """A plain number that is not negative: `4`, `1 1/2`, `0,5` where the comma is a decimal mark."""
    typed = text.strip()
    tidy = _tidy(typed, decimal_comma, what)
    if not re.fullmatch(_NUMBER, tidy):
        raise InputProblem(f"“{typed}” is not a {what}; write digits, such as 4 or 2.5.")
    return _number(typed, tidy)


def parse_percent(text: str, *, decimal_comma: bool = False, what: str = "percentage") -> float:
    """`14%` or `14` → 14.0. Outside 0 to 100 is refused."""
    value = parse_number(
        re.sub(r"\s*(%|percent|pct)\s*$", "", text.strip()), decimal_comma=decimal_comma, what=what
    )
    if not 0 <= value <= 100:
        raise InputProblem(f"A {what} lies between 0 and 100 %; “{text.strip()}” does not.")
    return value


def unit_typed(quantity: Quantity) -> str:
    """The short name of the (smallest) unit the person used, or the stored unit where nothing was typed."""
    units = written_as((quantity.dimension,))
    used = [units[w] for t in _TERM.finditer(_fractions(quantity.typed)) if (w := _unit_word(t["unit"])) in units]
    return used[-1].name if used else STORED[quantity.dimension]


# --- reading ---------------------------------------------------------------------------------------------


def _fractions(text: str) -> str:
    """Vulgar fractions spelled out: `1½` becomes `1 1/2`."""
    for sign in _FRACTIONS:
        if sign in text:
            text = text.replace(sign, " " + unicodedata.normalize("NFKC", sign).replace("⁄", "/"))
    return text.replace("⁄", "/").strip().lower()


def _tidy(typed: str, decimal_comma: bool, what: str) -> str:
    text = _fractions(typed)
    if not text:
        raise InputProblem(f"There is no {what} here yet.")
    text = text.replace("−", "-").replace("\u00a0", " ").replace("\u202f", " ")
    if decimal_comma:
        text = re.sub(r"(?<=\d)\.(?=\d{3}(?:\.\d{3})*,\d)", "", text)
        if re.search(r"\d\.\d{3}(?!\d)", text):
            raise InputProblem(f"“{typed}” can be read two ways; write 1500 or 1,5.")
        return re.sub(r"(?<=\d),(?=\d)", ".", text)
    grouped = re.sub(r"(?<=\d),(?=\d{3}(?!\d))", "", text)
    if re.search(r"\d,\d", grouped):
        raise InputProblem(f"“{typed}” has a comma for a decimal mark; here it is a point, as in 1.5.")
    return grouped


def _unit_word(unit: str) -> str:
    return re.sub(r"\s+", " ", unit.strip()).rstrip(".").replace("fl. oz", "fl oz").strip()


def _number(typed: str, text: str) -> float:
    whole = 0.0
    if "/" in text:
        *before, fraction = re.sub(r"\s*/\s*", "/", text).split()
        whole = float(before[0]) if before else 0.0
        top, bottom = fraction.split("/")
        if float(bottom) == 0:
            raise InputProblem(f"“{typed}” divides by nothing; write a fraction such as 1/2.")
        return whole + float(top) / float(bottom)
    return float(text)


def _reckon(typed: str, tidy: str, kind: type[Quantity], default_unit: str) -> float:
    if kind.dimension == TIME and (clock := _CLOCK.fullmatch(tidy)):
        return int(clock["h"]) * 3600.0 + int(clock["m"]) * 60.0
    if kind.dimension == AREA and (sides := _SIDES.fullmatch(tidy)):
        side = written_as((LENGTH,)).get(sides["unit"])
        if side is not None:
            return _number(typed, sides["a"]) * _number(typed, sides["b"]) * (side.size / 10.0) ** 2
    total, end, smallest = 0.0, 0, math.inf
    for term in _TERM.finditer(tidy):
        if term.start() != end:
            break
        unit = _unit(typed, _unit_word(term["unit"]), kind, default_unit)
        if unit.size >= smallest:
            raise InputProblem(f"“{typed}” names its units out of order or twice; write it like {kind.example}.")
        total += _in_stored(_number(typed, term["number"]), unit)
        end, smallest = term.end(), unit.size
    if end == 0 or tidy[end:].strip():
        raise InputProblem(f"“{typed}” is not a {_noun(kind)}; write it like {kind.example}.")
    return total


def _noun(kind: type[Quantity]) -> str:
    return {MASS: "weight", TIME: "length of time"}.get(kind.dimension, kind.dimension)


def _unit(typed: str, word: str, kind: type[Quantity], default_unit: str) -> Unit:
    word = word or default_unit
    if not word:
        raise InputProblem(f"“{typed}” has no unit; write it like {kind.example}.")
    unit = written_as((kind.dimension,)).get(word)
    if unit is not None:
        return unit
    other = written_as(set(_KINDS) - {kind.dimension}).get(word)
    if other is None and word not in ("f", "°f", "°c"):
        raise InputProblem(f"“{word}” is not a unit known here; write it like {kind.example}.")
    if other is not None and other.name == "oz":
        raise InputProblem(f"“{typed}” is a weight; for a volume write fl oz, or {kind.example}.")
    was = "temperature" if other is None else _noun(_KINDS[other.dimension])
    raise InputProblem(f"“{typed}” is a {was}; a {_noun(kind)} is wanted here, such as {kind.example}.")


_DEGREES = {
    "f": "F", "°f": "F", "fahrenheit": "F", "degf": "F", "deg f": "F", "degrees f": "F", "° f": "F",
    "c": "C", "°c": "C", "celsius": "C", "degc": "C", "deg c": "C", "degrees c": "C", "° c": "C",
}  # fmt: skip


def _temperature(typed: str, tidy: str, default_unit: str) -> float:
    match = re.fullmatch(rf"(?P<sign>[+-]?)\s*(?P<number>{_NUMBER})\s*(?P<unit>[^\d]*)", tidy)
    if match is None:
        raise InputProblem(f"“{typed}” is not a temperature; write it like {Temperature.example}.")
    word = _unit_word(match["unit"])
    scale = _DEGREES.get((word if word not in ("", "°") else default_unit).lower())
    if scale is None:
        missing = f"“{typed}” does not say which degrees; write it like {Temperature.example}."
        unknown = f"“{word}” is not a scale of temperature known here; write it like {Temperature.example}."
        raise InputProblem(missing if word in ("", "°") else unknown)
    value = _number(typed, match["number"]) * (-1 if match["sign"] == "-" else 1)
    celsius = to_celsius(value) if scale == "F" else value
    if celsius < _ABSOLUTE_ZERO_C:
        raise InputProblem(f"“{typed}” is colder than anything can be; write it like {Temperature.example}.")
    if celsius > 1000:
        raise InputProblem(f"“{typed}” is hotter than any kitchen gets; write it like {Temperature.example}.")
    return celsius


# --- pint ------------------------------------------------------------------------------------------------


@cache
def registry() -> pint.UnitRegistry[float]:
    """A pint registry of the kitchen's units and no others, made on first use."""
    import pint

    made: pint.UnitRegistry[float] = pint.UnitRegistry(None, cache_folder=None)
    for dimension, stored in STORED.items():
        if dimension != TEMPERATURE:
            made.define(f"{_pint_name(stored)} = [{dimension}]")
    for unit in UNITS:
        if unit.name != STORED[unit.dimension]:
            made.define(f"{_pint_name(unit.name)} = {unit.size!r} * {_pint_name(STORED[unit.dimension])}")
    return made


def _pint_name(name: str) -> str:
    return "dryhouse_" + name.replace(" ", "_")


def _in_stored(value: float, unit: Unit) -> float:
    quantity = registry().Quantity(value, _pint_name(unit.name))
    return float(quantity.to(_pint_name(STORED[unit.dimension])).magnitude)
