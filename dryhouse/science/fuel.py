"""The fuel a trip takes: by her own grams for a liter boiled, else the heat that boiling takes.

Q = m · c · (boiling point − cold), with c the mean specific heat of water between the two, from the steam tables; a
milliliter of cold water weighs a gram. What the stove burns for it is Q ÷ efficiency, an assumption that is named.
"""

from __future__ import annotations

from dryhouse.science.values import Basis, Fact, Figure
from dryhouse.science.workings import StepKind as Kind
from dryhouse.science.workings import step


def heat_to_boil(water_ml: float, start: Fact, boils_c: Figure, each: Fact) -> Figure:
    """Heat in kJ that brings water from its start (°C) to boiling; `each` is kJ per kg and °C. Never less than
    none."""
    value = water_ml / 1000.0 * max(boils_c.value - start.value, 0.0) * each.value
    line = step(
        Kind.HEAT_TO_BOIL,
        (value, "kJ"),
        water=(water_ml, "ml"),
        boils=(boils_c.value, "degC"),
        start=(start.value, "degC", start.source),
        each=(each.value, each.unit, each.source),
    )
    return Figure(value, "kJ", basis=(start.basis, each.basis), workings=(*boils_c.workings, line), as_is=True)


def burnt(heat: Figure, efficiency: Fact) -> Figure:
    """Heat in kJ the fuel has to give, by the share (%) of it that ends in the water."""
    value = heat.value / (efficiency.value / 100.0)
    line = step(Kind.THROUGH_STOVE, (value, "kJ"), efficiency=(efficiency.value, "%", efficiency.source))
    basis = (*heat.basis, Basis("assumption", efficiency.source))
    return Figure(value, "kJ", basis=basis, workings=(*heat.workings, line), as_is=True)


def own_fuel(water_ml: float, each: Fact) -> Figure:
    """Grams of fuel by what she weighed for a liter boiled (`each`)."""
    value = water_ml / 1000.0 * each.value
    line = step(Kind.OWN_FUEL, (value, "g"), water=(water_ml, "ml"), each=(each.value, each.unit, each.source))
    return Figure(value, "g", basis=(Basis("own", each.source, 1),), workings=(line,))
