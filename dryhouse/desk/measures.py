"""Sizes in pixels that follow the size of the text: told once, for our usual text, and kept true by the theme."""

from __future__ import annotations

from PySide6.QtCore import QSize
from PySide6.QtWidgets import QApplication, QTableView, QToolButton, QWidget

_MEASURES, _SCALE = "measures", "text_scale"
_MOST = 16777215
"""What Qt calls no limit."""


def scale() -> float:
    """How many times our usual size the text is now."""
    app = QApplication.instance()
    told = app.property(_SCALE) if app is not None else None
    return float(told) if told else 1.0


def scaled(pixels: float) -> int:
    """A length that was told for our usual size of text, at the present one."""
    return round(pixels * scale())


def hold(
    widget: QWidget,
    *,
    wide: int = 0,
    least_wide: int = 0,
    most_wide: int = 0,
    least_high: int = 0,
    most_high: int = 0,
    high: int = 0,
) -> None:
    """Keep a widget at these widths and heights, in pixels for our usual size of text, whatever the size is."""
    widget.setProperty(_MEASURES, [wide or least_wide, wide or most_wide, high or least_high, high or most_high])
    _measure(widget)


def hold_lines(table: QTableView, high: int) -> None:
    """Keep the lines of a table at this height."""
    table.setProperty(_MEASURES, high)
    _measure(table)


def hold_icon(button: QToolButton, side: int) -> None:
    """Keep the picture of a button at this size."""
    button.setProperty(_MEASURES, side)
    _measure(button)


def measure_again(app: QApplication, factor: float) -> None:
    """The text is `factor` times our usual size from now on: everything held follows."""
    if factor != scale():
        app.setProperty(_SCALE, factor)
        for widget in app.allWidgets():
            if widget.property(_MEASURES) is not None:
                _measure(widget)


def _measure(widget: QWidget) -> None:
    told = widget.property(_MEASURES)
    if isinstance(widget, QTableView):
        widget.verticalHeader().setDefaultSectionSize(scaled(told))
    elif isinstance(widget, QToolButton):
        widget.setIconSize(QSize(scaled(told), scaled(told)))
    else:
        least, most, low, high = (scaled(side) for side in told)
        widget.setMinimumSize(least, low)
        widget.setMaximumSize(most or _MOST, high or _MOST)
