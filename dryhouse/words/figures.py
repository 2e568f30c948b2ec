"""A figure as the command line and the exchange answer with it."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from dryhouse.science.display import METRIC, US, Style
from dryhouse.science.units import DIMENSIONS, MASS, METRIC_UNITS, VOLUME
from dryhouse.science.values import Figure
from dryhouse.words.bases import bases_json
from dryhouse.words.cautions import cautions_json
from dryhouse.words.workings import lines


def figure_json(figure: Figure, style: Style) -> dict[str, Any]:
    """The keys every command answers with. The workings end in the unit of the answer."""
    measure = figure.measure
    return {
        "value": figure.value,
        "low": figure.low,
        "high": figure.high,
        "unit": figure.unit,
        "measure": None
        if measure is None
        else {"value": measure.value, "low": measure.low, "high": measure.high, "unit": measure.unit},
        "basis": bases_json(figure.basis, style),
        "workings": list(lines(figure.workings, in_units_of(figure, style))),
        "cautions": cautions_json(figure.cautions),
    }


def moisture_json(moisture: Figure | None) -> dict[str, float | str | None] | None:
    """A moisture (% wet basis) with its middle 80 %; None where it is not known."""
    if moisture is None:
        return None
    return {"value": moisture.value, "low": moisture.low, "high": moisture.high, "unit": moisture.unit}


def in_units_of(figure: Figure, style: Style) -> Style:
    """The style, in the system of the figure's own unit where that is a mass or a volume."""
    unit = figure.unit.partition("/")[0]
    if DIMENSIONS.get(unit) not in (MASS, VOLUME) or unit == "mg":
        return style
    return replace(style, system=METRIC if unit in METRIC_UNITS else US)
