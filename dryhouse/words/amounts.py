"""Numbers as they stand in arithmetic: one unit for each kind of quantity, so that a pencil can follow.

An answer elsewhere says `2 lb 3.1 oz` and `2½ cups`; a line of workings says `35.1 oz` and `2.5 cups`.
"""

from __future__ import annotations

import math

from dryhouse.science.display import US, Style
from dryhouse.science.units import AREA, DIMENSIONS, LENGTH, MASS, SIZES, VOLUME, to_fahrenheit

DIGITS = 4
"""Significant digits of a number in a line of workings."""

_US = {MASS: "oz", VOLUME: "cup", AREA: "sq ft", LENGTH: "in"}
_METRIC = {MASS: "g", VOLUME: "ml", AREA: "cm2", LENGTH: "cm"}
_HEIGHT = {US: "ft"}
_AS_THEY_ARE = frozenset({"mg"})
"""Nutrients are given in milligrams on every label."""
_WRITTEN = {"cm2": "cm²", "degC": "°C", "aw": ""}
_COUNTED = {"cup": "cups", "day": "days", "tray": "trays", "batch": "batches", "caution": "cautions"}
_PER_DEGREE = 1.8


def figures(value: float, style: Style, digits: int = DIGITS) -> str:
    """A number with so many significant digits, trailing zeros dropped."""
    if not math.isfinite(value):
        return "∞" if value == math.inf else "−∞"
    places = digits - 1 - math.floor(math.log10(abs(value))) if value else 0
    return style.number(value, min(max(places, 0), 8))


def worked(value: float, unit: str, style: Style, digits: int = DIGITS) -> str:
    """A number with its unit, in the system the person reads."""
    if unit.startswith("%"):
        return f"{figures(value, style, digits)} %"
    if unit == "degC":
        shown, scale = (to_fahrenheit(value), "°F") if style.system == US else (value, "°C")
        return f"{style.number(shown, 1)} {scale}"
    if unit == "K":
        shown, scale = (value * _PER_DEGREE, "°F") if style.system == US else (value, "°C")
        return f"{figures(shown, style, digits)} {scale}"
    factor, names = 1.0, []
    for place, part in enumerate(unit.split("/")):
        size, called = _shown(part, style)
        factor = factor * size if place == 0 else factor / size
        names.append(called)
    return own(value * factor, "/".join(names), style, digits)


def own(value: float, unit: str, style: Style, digits: int = DIGITS) -> str:
    """A number with its own unit, whatever the person's system."""
    number = figures(value, style, digits)
    shown = _WRITTEN.get(unit, unit)
    if number != "1":
        shown = _COUNTED.get(shown, shown)
    return f"{number} {shown}".strip()


def _shown(unit: str, style: Style) -> tuple[float, str]:
    """How many of the shown unit one of this unit is, and what the shown one is called."""
    dimension = DIMENSIONS.get(unit)
    into = (_US if style.system == US else _METRIC).get(dimension or "")
    if unit == "m":
        into = _HEIGHT.get(style.system, "m")
    if into is None or unit in _AS_THEY_ARE:
        return 1.0, unit
    return SIZES[unit] / SIZES[into], _WRITTEN.get(into, into)
