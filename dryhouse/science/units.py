"""The units of a kitchen, each once, with its exact size.

Factors are exact by definition: the international pound is 0.45359237 kg and the inch 25.4 mm (NIST
Handbook 44, appendix C); the US gallon is 231 cubic inches, and cup, fluid ounce, tablespoon and
teaspoon are its parts. `quantities` feeds this table to pint, which does the reading; `display` and the
figures use the factors directly, so that showing a number costs no unit registry. A scale of temperature
has its zero beside its size.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from dryhouse.science.values import Figure

MASS, VOLUME, TIME, LENGTH, AREA, TEMPERATURE = "mass", "volume", "time", "length", "area", "temperature"

STORED = {MASS: "g", VOLUME: "ml", TIME: "s", LENGTH: "mm", AREA: "cm2", TEMPERATURE: "degC"}
"""The unit each dimension is stored in."""


@dataclass(frozen=True, slots=True)
class Unit:
    """One unit: its short name, its dimension, its size in the stored unit, and what people write.

    Of temperature the sizes are in °F and `zero` is where the scale's own zero lies, in °F: so reckoned, whole
    degrees of one scale that are whole degrees of the other come out whole.
    """

    name: str
    dimension: str
    size: float
    written: tuple[str, ...]
    zero: float = 0.0


_GALLON_ML = 231 * 2.54**3

UNITS: tuple[Unit, ...] = (
    Unit("g", MASS, 1.0, ("g", "gram", "grams", "gr", "gm")),
    Unit("kg", MASS, 1000.0, ("kg", "kilo", "kilos", "kilogram", "kilograms")),
    Unit("mg", MASS, 0.001, ("mg", "milligram", "milligrams")),
    Unit("oz", MASS, 28.349523125, ("oz", "ounce", "ounces", "ozs")),
    Unit("lb", MASS, 453.59237, ("lb", "lbs", "pound", "pounds", "#")),
    Unit("ml", VOLUME, 1.0, ("ml", "millilitre", "millilitres", "milliliter", "milliliters", "cc")),
    Unit("cl", VOLUME, 10.0, ("cl",)),
    Unit("dl", VOLUME, 100.0, ("dl",)),
    Unit("l", VOLUME, 1000.0, ("l", "litre", "litres", "liter", "liters")),
    Unit("gal", VOLUME, _GALLON_ML, ("gal", "gallon", "gallons")),
    Unit("qt", VOLUME, _GALLON_ML / 4, ("qt", "qts", "quart", "quarts")),
    Unit("pt", VOLUME, _GALLON_ML / 8, ("pt", "pts", "pint", "pints")),
    Unit("cup", VOLUME, _GALLON_ML / 16, ("cup", "cups", "c")),
    Unit("fl oz", VOLUME, _GALLON_ML / 128, ("fl oz", "floz", "fluid ounce", "fluid ounces", "fl ounce")),
    Unit("tbsp", VOLUME, _GALLON_ML / 256, ("tbsp", "tbsps", "tablespoon", "tablespoons", "tbs", "tb")),
    Unit("tsp", VOLUME, _GALLON_ML / 768, ("tsp", "tsps", "teaspoon", "teaspoons")),
    Unit("s", TIME, 1.0, ("s", "sec", "second", "seconds")),
    Unit("min", TIME, 60.0, ("min", "mins", "minute", "minutes", "m")),
    Unit("h", TIME, 3600.0, ("h", "hr", "hrs", "hour", "hours")),
    Unit("day", TIME, 86400.0, ("d", "day", "days")),
    Unit("mm", LENGTH, 1.0, ("mm", "millimetre", "millimetres", "millimeter", "millimeters")),
    Unit("cm", LENGTH, 10.0, ("cm", "centimetre", "centimetres", "centimeter", "centimeters")),
    Unit("m", LENGTH, 1000.0, ("metre", "metres", "meter", "meters", "m")),
    Unit("in", LENGTH, 25.4, ("in", "inch", "inches", '"')),
    Unit("ft", LENGTH, 304.8, ("ft", "foot", "feet", "'")),
    Unit("cm2", AREA, 1.0, ("cm2", "cm²", "sq cm")),
    Unit("m2", AREA, 10000.0, ("m2", "m²", "sq m")),
    Unit("sq in", AREA, 6.4516, ("sq in", "in2", "in²", "square inches")),
    Unit("sq ft", AREA, 929.0304, ("sq ft", "ft2", "ft²", "square feet")),
    Unit("degF", TEMPERATURE, 1.0, ("f", "°f", "° f", "fahrenheit", "degf", "deg f", "degrees f")),
    Unit("degC", TEMPERATURE, 1.8, ("c", "°c", "° c", "celsius", "degc", "deg c", "degrees c"), zero=32.0),
)

METRIC_UNITS = frozenset({"g", "kg", "mg", "ml", "cl", "dl", "l"})
"""The metric ones among the units of mass and volume."""

SIZES = {u.name: u.size for u in UNITS if u.dimension != TEMPERATURE}
DIMENSIONS = {u.name: u.dimension for u in UNITS if u.dimension != TEMPERATURE}

_CELSIUS = next(u for u in UNITS if u.name == "degC")


def to_celsius(fahrenheit: float) -> float:
    """°F to °C (exact by definition)."""
    return (fahrenheit - _CELSIUS.zero) / _CELSIUS.size


def to_fahrenheit(celsius: float) -> float:
    """°C to °F (exact by definition)."""
    return celsius * _CELSIUS.size + _CELSIUS.zero


def both_scales(celsius: float, *, celsius_first: bool = False) -> str:
    """`70 °F (21 °C)`, or `21 °C (70 °F)`: a temperature in words that readers of either scale understand."""
    scales = (f"{to_fahrenheit(celsius):.0f} °F", f"{celsius:.0f} °C")
    first, other = reversed(scales) if celsius_first else scales
    return f"{first} ({other})"


def both_scales_exactly(celsius: float) -> str:
    """`160 °F (71.1 °C)`: to the tenth, for a limit and what is compared with it; each number is on the same side
    of the limit as the temperature it stands for."""
    return f"{_tenths(to_fahrenheit(celsius))} °F ({_tenths(celsius)} °C)"


def _tenths(value: float) -> str:
    return f"{value:.1f}".removesuffix(".0").replace("-", "−")


def cups(ml: float) -> float:
    """Millilitres in US cups."""
    return ml / SIZES["cup"]


def convert(value: float, unit: str, into: str) -> float:
    """A mass, volume, time, length or area in another unit of the same dimension."""
    if DIMENSIONS[unit] != DIMENSIONS[into]:
        raise ValueError(f"{unit} and {into} do not measure the same thing")
    return value * SIZES[unit] / SIZES[into]


def figure_in(figure: Figure, unit: str) -> Figure:
    """The same figure in another unit of its dimension, interval and all."""
    if figure.unit == unit:
        return figure

    def other(value: float | None) -> float | None:
        return None if value is None else convert(value, figure.unit, unit)

    return replace(
        figure,
        value=convert(figure.value, figure.unit, unit),
        low=other(figure.low),
        high=other(figure.high),
        unit=unit,
    )


def written_as(dimensions: Iterable[str]) -> dict[str, Unit]:
    """Every spelling people use for the units of these dimensions."""
    wanted = set(dimensions)
    return {w: u for u in UNITS if u.dimension in wanted for w in u.written}
