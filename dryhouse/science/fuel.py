"""The fuel a pot takes: by her own grams for a liter boiled, else the heat that goes into the water.

Q = m · c · (boiling point − cold) + what boils off · r, with c the mean specific heat of water between the two and
r the heat that turns it to steam, both from the steam tables; a milliliter of cold water weighs a gram. What the
stove burns for it is Q ÷ efficiency, an assumption that is named.
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


def heat_of_pot(boiling: Figure, steam_ml: float, each: Fact) -> Figure:
    """The heat of boiling and of simmering in kJ: what boils off takes its own along; `each` is kJ per kg."""
    if steam_ml <= 0:
        return boiling
    value = steam_ml / 1000.0 * each.value
    steam = step(Kind.STEAM_HEAT, (value, "kJ"), water=(steam_ml, "ml"), each=(each.value, each.unit, each.source))
    together = step(Kind.TOGETHER, (boiling.value + value, "kJ"))
    basis = boiling.basis if each.basis in boiling.basis else (*boiling.basis, each.basis)
    lines = (*boiling.workings, steam, together)
    return Figure(boiling.value + value, "kJ", basis=basis, workings=lines, as_is=True)


def burnt(heat: Figure, efficiency: Fact) -> Figure:
    """Heat in kJ the fuel has to give, by the share (%) of it that ends in the water."""
    value = heat.value / (efficiency.value / 100.0)
    line = step(Kind.THROUGH_STOVE, (value, "kJ"), efficiency=(efficiency.value, "%", efficiency.source))
    basis = (*heat.basis, Basis("assumption", efficiency.source))
    return Figure(value, "kJ", basis=basis, workings=(*heat.workings, line), as_is=True)


def own_fuel(heat: Figure, liter: Figure, each: Fact) -> Figure:
    """Grams of fuel by what she weighed for a liter boiled (`each`), as many liters as the heat (kJ) would boil;
    `liter` is the heat of one."""
    value = heat.value / liter.value * each.value
    line = step(
        Kind.OWN_FUEL,
        (value, "g"),
        heat=(heat.value, "kJ"),
        liter=(liter.value, "kJ"),
        each=(each.value, each.unit, each.source),
    )
    return Figure(value, "g", basis=(Basis("own", each.source, 1),), workings=(*heat.workings, line))
