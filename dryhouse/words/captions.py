"""What the figures of a batch are called where they stand beside each other."""

from __future__ import annotations

from collections.abc import Mapping

from dryhouse.science.display import Style
from dryhouse.science.statuses import FigureId
from dryhouse.science.units import both_scales

_CAPTIONS: Mapping[FigureId, str] = {
    FigureId.YIELD_BY_WEIGHT: "Yield by weight",
    FigureId.YIELD_BY_MEASURE: "Yield by measure",
    FigureId.MOISTURE_NOW: "Moisture now",
    FigureId.TARGET_WEIGHT: "Target weight",
    FigureId.WATER_BACK: "Water to bring it back",
    FigureId.KEEPS: "Keeps",
    FigureId.MOISTURE_WET: "Moisture",
    FigureId.MOISTURE_DRY: "Moisture, dry basis",
    FigureId.MOISTURE_RATIO: "Moisture ratio",
    FigureId.LOAD_TARGET: "Target weight of the load",
    FigureId.SAMPLE_TARGET: "Target weight of the sample tray",
    FigureId.HOURS_UNTIL_DRY: "Hours until dry, from the first weight",
    FigureId.SETTLES_AT: "Moisture it would settle at here",
    FigureId.WATER_ACTIVITY: "Water activity, estimated",
}


_SHORT: Mapping[FigureId, str] = {FigureId.WATER_BACK: "Water to add"}


def caption(id: FigureId, celsius: float | None = None) -> str:
    """The caption of a figure; `celsius` is the temperature it holds at, where that is part of it."""
    return _CAPTIONS[id] if celsius is None else f"{_CAPTIONS[id]} at {both_scales(celsius)}"


def short_caption(id: FigureId, celsius: float | None, style: Style) -> str:
    """The same where room is short: the temperature on her own scale alone."""
    said = _SHORT.get(id, _CAPTIONS[id])
    return said if celsius is None else f"{said} at {style.temperature(celsius)}"
