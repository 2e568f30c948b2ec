"""What published constants say of a run not yet weighed.

Page's k depends on temperature by Arrhenius, k = k0 exp(-Ea/(R T)), so the rate r = k^(1/n) moves by
exp(-(Ea/(n R)) (1/T2 - 1/T1)), with n kept.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from dryhouse.science.forecast.answer import Prior
from dryhouse.science.values import Basis, Fact
from dryhouse.science.workings import StepKind as Kind
from dryhouse.science.workings import Workings, step

GAS_CONSTANT = 8.314
"""J/(mol K)."""
KELVIN = 273.15
BETWEEN_STUDIES = 1.1
"""Spread of ln rate between published studies of one food: cut, load and air easily make a factor of four."""
N_BETWEEN_STUDIES = 0.2
USUAL_N = 1.15
"""Page's n in the middle of whole published runs of slices and pieces."""
HOURS_OFF = 0.4
"""Spread of ln hours between her dryer and load and those that published hours speak of."""
MIDDLE_80 = 2.563
"""Standard deviations from one end of the middle 80 % to the other."""


@dataclass(frozen=True, slots=True)
class PageRun:
    """One run by Page's constants: k (per h^n), n, and the temperature where known."""

    k: float
    n: float
    temperature_c: float | None = None

    @property
    def log_rate(self) -> float:
        """ln of k^(1/n), per hour."""
        return math.log(self.k) / self.n


def arrhenius_step(energy_kj_mol: float, from_c: float, to_c: float) -> float:
    """By how much ln k grows from one temperature (°C) to another."""
    return -energy_kj_mol * 1000.0 / GAS_CONSTANT * (1.0 / (to_c + KELVIN) - 1.0 / (from_c + KELVIN))


def prior_from_published(
    run: PageRun, temperature_c: float | None, energy: Fact, basis: Basis, studies: int = 1
) -> Prior:
    """From published Page constants (the middle of several `studies`), moved to this temperature.

    `energy` is the activation energy in kJ/mol with its low and high.
    """
    moved = wobble = 0.0
    said: Workings = ()
    if temperature_c is not None and run.temperature_c is not None:
        low, high = energy.low or energy.value, energy.high or energy.value
        moved = arrhenius_step(energy.value, run.temperature_c, temperature_c) / run.n
        wobble = abs(arrhenius_step((high - low) / MIDDLE_80, run.temperature_c, temperature_c)) / run.n
        said = (
            step(
                Kind.PUBLISHED_RATE_MOVED,
                math.exp(moved),
                from_heat=(run.temperature_c, "degC"),
                to_heat=(temperature_c, "degC"),
                energy=(energy.value, "kJ/mol", energy.source),
            ),
        )
    spread = math.hypot(BETWEEN_STUDIES * math.sqrt((1.0 + 1.0 / studies) / 2.0), wobble)
    return Prior(math.exp((run.log_rate + moved) * run.n), run.n, spread, N_BETWEEN_STUDIES, basis, said)


def prior_from_hours(hours: Fact, mr_target: float) -> Prior:
    """From a published drying time (h, with its low and high) in a dryer like hers, to this moisture ratio.

    The usual curve, Page with n = `USUAL_N`, through the target at the middle of the published hours. Published
    hours span cuts and loads; beside that span a kitchen is off by `HOURS_OFF`.
    """
    low, high = hours.low or hours.value, hours.high or hours.value
    middle = math.sqrt(low * high)
    k = -math.log(mr_target) / middle**USUAL_N
    spread = math.hypot(math.log(high / low) / MIDDLE_80, HOURS_OFF)
    said = step(Kind.PUBLISHED_HOURS, low=(low, "h", hours.source), high=(high, "h"))
    return Prior(k, USUAL_N, spread, N_BETWEEN_STUDIES, hours.basis, (said,))
