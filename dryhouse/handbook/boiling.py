"""Where water boils: published boiling points against elevation.

Sources differ by up to two degrees Fahrenheit, as they model the air differently. Each is read on its own
line between its own points; the lowest answer rules, since the cooler pot needs the longer time.
"""

from __future__ import annotations

from functools import cache

from dryhouse.handbook.reading import read
from dryhouse.science.boiling import BoilingTable
from dryhouse.science.units import SIZES, to_celsius


@cache
def boiling_tables() -> tuple[BoilingTable, ...]:
    """Every published table of boiling points: elevations in metres, temperatures in °C."""
    points: dict[tuple[str, str], list[tuple[float, float]]] = {}
    for row in read("boiling", ("elevation_ft", "boiling_f", "source"), key=("elevation_ft", "source")):
        metres = row.required("elevation_ft") * SIZES["ft"] / 1000.0
        at = points.setdefault((row.source().citation, row.how()), [])
        at.append((metres, to_celsius(row.required("boiling_f"))))
    return tuple(BoilingTable(source, how, tuple(sorted(known))) for (source, how), known in points.items())
