"""Water that brings dried food back: what left on the tray has to return.

By mass balance the water that restores the starting moisture is the mass lost in drying. For a dried mass
d whose yield (dried ÷ prepared, by mass) is r, the water is d (1/r − 1). A millilitre of water is taken as
a gram (0.998 g at 20 °C; common practice).
"""

from __future__ import annotations

from dryhouse.science.units import cups
from dryhouse.science.values import Figure, Measure
from dryhouse.science.workings import StepKind as Kind
from dryhouse.science.workings import step


def water_to_restore(dried_g: float, ratio: Figure) -> Figure:
    """Millilitres of water that bring `dried_g` grams back to the moisture it was loaded at.

    `ratio` is the yield dried ÷ prepared by mass, a fraction with its interval and basis.
    """
    value, (low, high) = _water(dried_g, ratio.value), (None, None)
    if ratio.low is not None and ratio.high is not None:
        low, high = _water(dried_g, ratio.high), _water(dried_g, ratio.low)
    fresh = dried_g / ratio.value
    return Figure(
        value,
        "ml",
        low=low,
        high=high,
        measure=in_cups(value, low, high),
        basis=ratio.basis,
        workings=(
            *ratio.workings,
            step(Kind.FRESH_WEIGHED, (fresh, "g"), dried=(dried_g, "g"), ratio=ratio.value),
            step(
                Kind.WATER_BACK,
                (value, "ml"),
                fresh=(fresh, "g"),
                dried=(dried_g, "g"),
                lost=(fresh - dried_g, "g"),
                density=(1.0, "g/ml"),
            ),
        ),
    )


def _water(dried_g: float, ratio: float) -> float:
    return max(dried_g * (1.0 / ratio - 1.0), 0.0)


def in_cups(ml: float, low: float | None = None, high: float | None = None) -> Measure:
    """A volume (ml) and its interval in US cups."""
    return Measure(cups(ml), "cup", None if low is None else cups(low), None if high is None else cups(high))
