"""The heat that boils a liter, against the steam tables, within 1 %.

Enthalpy and density of water: IAPWS-IF97 (release R7-97), evaluated with the PyPI library iapws 1.5.5: cold water
at one atmosphere, boiling water at saturation.
"""

from __future__ import annotations

import pytest

from dryhouse.handbook.pot import pot
from dryhouse.science.fuel import heat_of_pot, heat_to_boil
from dryhouse.science.values import Fact, Figure

COLD = {10.0: (42.12, 0.99970), 20.0: (84.01, 0.99821)}
"""°C: kJ per kg and kg per liter."""


@pytest.mark.parametrize(
    ("start", "boils", "enthalpy"),
    [
        (10.0, 99.974, 418.99),  # sea level
        (10.0, 95.0, 398.02),  # about 1400 m
        (10.0, 90.0, 376.97),  # about 2900 m
        (10.0, 85.0, 355.95),  # about 4400 m
        (20.0, 99.974, 418.99),
        (20.0, 90.0, 376.97),
    ],
)
def test_a_liter_takes_what_the_steam_tables_say(start: float, boils: float, enthalpy: float) -> None:
    cold, density = COLD[start]
    heat = heat_to_boil(1000.0, Fact(start, "°C", "x"), Figure(boils, "degC"), pot("water_heat"))
    assert heat.value == pytest.approx((enthalpy - cold) * density, rel=0.01)


def test_what_boils_off_takes_the_heat_of_evaporation() -> None:
    """2676.0 less 419.1 kJ per kg at 100 °C: saturated steam and water, IAPWS-IF97."""
    boiled = Figure(0.0, "kJ")
    assert heat_of_pot(boiled, 1000.0, pot("vapor_heat")).value == pytest.approx(2676.0 - 419.1, rel=0.01)
