"""Grams typed today are grams answered today: the weights of a run in the unit of the scale it is weighed on."""

from __future__ import annotations

from dataclasses import replace

from dryhouse.kitchen.dryer.runs import DryingRun
from dryhouse.science.display import METRIC, US, Style
from dryhouse.science.quantities import unit_typed
from dryhouse.science.units import METRIC_UNITS


def scale_style(run: DryingRun, style: Style) -> Style:
    """Weights as her scale tells them: in grams where the last reading was, whatever she reads elsewhere."""
    read = [point.weighing for point in (*run.points, *run.others) if point.weighing is not None]
    last = max(read, key=lambda weighing: (weighing.at, weighing.id), default=None)
    if last is None or not last.gross.typed:
        return style
    return replace(style, system=METRIC if unit_typed(last.gross) in METRIC_UNITS else US)
