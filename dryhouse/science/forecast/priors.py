"""What earlier runs or published constants say of a run not yet weighed.

Page's k depends on temperature by Arrhenius, k = k0 exp(-Ea/(R T)), so the rate r = k^(1/n) moves by
exp(-(Ea/(n R)) (1/T2 - 1/T1)), with n kept.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from dryhouse.science.forecast.answer import Prior
from dryhouse.science.values import Basis

GAS_CONSTANT = 8.314
"""J/(mol K)."""
KELVIN = 273.15

BETWEEN_BATCHES = 0.25
"""Spread of ln rate between batches of one food in one kitchen, before her own show it; worth `BATCHES_WORTH`."""
BATCHES_WORTH = 4.0
BETWEEN_STUDIES = 0.7
"""Spread of ln rate between published studies of one food: cut, load and air differ by a factor of two."""
N_BETWEEN_BATCHES, N_BETWEEN_STUDIES = 0.12, 0.2
OTHER_TEMPERATURE_LOW, OTHER_TEMPERATURE_HIGH = 40.0, 75.0
"""Outside these, Arrhenius is not to be trusted for food dried in warm air."""


@dataclass(frozen=True, slots=True)
class Activation:
    """Activation energy in kJ/mol with its middle 80 %, and where it comes from."""

    value: float
    low: float
    high: float
    basis: Basis


@dataclass(frozen=True, slots=True)
class PageRun:
    """One run by Page's constants: k (per h^n), n, and the dryer's temperature where known."""

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


def prior_from_runs(runs: Sequence[PageRun], temperature_c: float | None, energy: Activation) -> Prior | None:
    """From her own earlier runs of the food, each moved to this temperature; None where there are none.

    ln rate: a normal–inverse-gamma model whose spread starts at `BETWEEN_BATCHES`; the predictive spread of one
    more batch. The uncertainty of the activation energy is added for runs at another temperature.
    """
    if not runs:
        return None
    n = float(np.mean([r.n for r in runs]))
    logs, doubt, said = [], [], []
    for run in runs:
        step = wobble = 0.0
        if temperature_c is not None and run.temperature_c is not None:
            step = arrhenius_step(energy.value, run.temperature_c, temperature_c) / n
            slack = arrhenius_step((energy.high - energy.low) / 2.56, run.temperature_c, temperature_c) / n
            wobble = abs(slack)
        logs.append(run.log_rate + step)
        doubt.append(wobble)
        if abs(step) > 1e-3:
            said.append(
                f"an earlier run at {run.temperature_c:.0f} °C moved to {temperature_c:.0f} °C: "
                f"{math.exp(step):.2f} times as fast (Ea {energy.value:g} kJ/mol)"
            )
    count = len(logs)
    centre = float(np.mean(logs))
    square = BATCHES_WORTH * BETWEEN_BATCHES**2 + float(np.sum((np.array(logs) - centre) ** 2))
    spread = math.sqrt(square / (BATCHES_WORTH + count - 1) * (1.0 + 1.0 / count))
    spread = math.hypot(spread, float(np.mean(doubt)))
    sd_n = N_BETWEEN_BATCHES * math.sqrt(1.0 + 1.0 / count)
    return Prior(math.exp(centre * n), n, spread, sd_n, Basis("own", "earlier runs", count), tuple(said))


def prior_from_published(
    run: PageRun, temperature_c: float | None, energy: Activation, basis: Basis, studies: int = 1
) -> Prior:
    """From published Page constants (the middle of several `studies`), moved to this temperature."""
    step = wobble = 0.0
    said: tuple[str, ...] = ()
    if temperature_c is not None and run.temperature_c is not None:
        step = arrhenius_step(energy.value, run.temperature_c, temperature_c) / run.n
        wobble = abs(arrhenius_step((energy.high - energy.low) / 2.56, run.temperature_c, temperature_c)) / run.n
        said = (
            f"published at {run.temperature_c:.0f} °C, moved to {temperature_c:.0f} °C: "
            f"{math.exp(step):.2f} times as fast (Ea {energy.value:g} kJ/mol)",
        )
    spread = math.hypot(BETWEEN_STUDIES * math.sqrt(1.0 + 1.0 / studies) / math.sqrt(2.0), wobble)
    return Prior(math.exp((run.log_rate + step) * run.n), run.n, spread, N_BETWEEN_STUDIES, basis, said)
