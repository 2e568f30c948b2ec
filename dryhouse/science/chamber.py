"""The air in the dryer: kitchen air, warmed. Warming takes no water out, so only the relative humidity falls.

Reckoned with PsychroLib (ASHRAE Handbook—Fundamentals 2017, chapter 1). The relative humidity after warming does
not depend on the altitude.
"""

from __future__ import annotations

from dataclasses import dataclass

from dryhouse.science.errors import InputProblem
from dryhouse.science.messages import Message, message
from dryhouse.science.messages import MessageKind as Told
from dryhouse.science.moisture import dry_to_wet
from dryhouse.science.values import Figure
from dryhouse.science.workings import StepKind as Kind
from dryhouse.science.workings import Workings, step

SEA_LEVEL_PA = 101325.0
COLDEST_KITCHEN_C, WARMEST_KITCHEN_C, HOTTEST_DRYER_C = -20.0, 60.0, 150.0
HUMID = 20.0
"""% relative humidity in the chamber from which it is worth saying that the air is damp."""


@dataclass(frozen=True, slots=True)
class Chamber:
    """Kitchen air warmed to the dryer's temperature."""

    relative_humidity_pct: float
    humidity_ratio: float
    """kg water per kg dry air."""
    dew_point_c: float
    wet_bulb_c: float
    workings: Workings


def warmed(
    kitchen_c: float, kitchen_humidity_pct: float, dryer_c: float, pressure_pa: float = SEA_LEVEL_PA
) -> Chamber:
    """Kitchen air of this temperature (°C) and humidity (%), warmed to the dryer's. Raises InputProblem."""
    import psychrolib

    if not 0 <= kitchen_humidity_pct <= 100:
        raise InputProblem(message(Told.HUMIDITY_RANGE), "kitchen_humidity")
    if not COLDEST_KITCHEN_C <= kitchen_c <= WARMEST_KITCHEN_C:
        low, high = (COLDEST_KITCHEN_C, "degC"), (WARMEST_KITCHEN_C, "degC")
        raise InputProblem(message(Told.KITCHEN_RANGE, low=low, high=high), "kitchen_temperature")
    if not kitchen_c <= dryer_c <= HOTTEST_DRYER_C:
        raise InputProblem(message(Told.DRYER_RANGE, high=(HOTTEST_DRYER_C, "degC")), "set_temperature")
    psychrolib.SetUnitSystem(psychrolib.SI)
    ratio = psychrolib.GetHumRatioFromRelHum(kitchen_c, kitchen_humidity_pct / 100.0, pressure_pa)
    inside = 100.0 * psychrolib.GetRelHumFromHumRatio(dryer_c, ratio, pressure_pa)
    return Chamber(
        relative_humidity_pct=float(inside),
        humidity_ratio=float(ratio),
        dew_point_c=float(psychrolib.GetTDewPointFromHumRatio(kitchen_c, ratio, pressure_pa)),
        wet_bulb_c=float(psychrolib.GetTWetBulbFromHumRatio(dryer_c, ratio, pressure_pa)),
        workings=(
            step(
                Kind.CHAMBER_AIR,
                (float(inside), "%"),
                kitchen=(kitchen_c, "degC"),
                humidity=(kitchen_humidity_pct, "%"),
                water=1000.0 * float(ratio),
                dryer=(dryer_c, "degC"),
            ),
        ),
    )


def slow_reason(chamber: Chamber, equilibrium: Figure | None, target_db: float) -> Message | None:
    """Why this is a slow day, or why the load may never be dry here; None where nothing is wrong.

    `equilibrium` is what the food settles at in this air (g/g), None where no isotherm is published.
    """
    air = (chamber.relative_humidity_pct, "%")
    if equilibrium is not None:
        high = equilibrium.high if equilibrium.high is not None else equilibrium.value
        if equilibrium.value >= target_db:
            settles = 100.0 * dry_to_wet(equilibrium.value)
            return message(Told.NEVER_DRY_HERE, air=air, settles=(settles, "%"))
        if high >= 0.7 * target_db:
            return message(Told.SLOW_AT_THE_END, air=air)
    return message(Told.DAMP_DAY, air=air) if chamber.relative_humidity_pct >= HUMID else None
