"""What is thought of a run before its weighings are looked at, put in the terms of the grid."""

from __future__ import annotations

import numpy as np

from dryhouse.science.curves.model import Array
from dryhouse.science.forecast.answer import Equilibrium, Prior
from dryhouse.science.forecast.engine import Expectation
from dryhouse.science.forecast.shapes import shapes

USUAL_EQUILIBRIUM = (0.04, 0.01, 0.09)
"""Where nothing is known of the chamber: what food settles at in warm dry air, dry basis, with its middle 80 %."""
LEVEL_SLACK = 0.012
"""How far off the settling level may be beyond that, as a share of the first mass: starting moistures are round."""
HANDLING = 0.0008
"""Error of a weighing besides the scale's step (trays lifted in and out), as a share of the water."""
OUT_OF_REACH = 0.05
"""Weight of levels above the target: a target is set so that it can be reached, but not always."""
WIDE_HALF_TIME = (2.0, 1.3)
"""Half-time (h) of an unknown food and the spread of its logarithm: half of all between 50 min and 5 h."""


def expectation(
    w: Array,
    dry: float,
    dry_sd: float,
    target: float,
    equilibrium: Equilibrium | None,
    prior: Prior | None,
    scale_step: float,
) -> Expectation:
    """All masses as shares of the first net mass: weighings `w`, dry matter, target mass, scale step."""
    table = shapes()
    x, low, high = USUAL_EQUILIBRIUM
    if equilibrium is not None:
        x, low, high = equilibrium.value, equilibrium.low, equilibrium.high
    centre = dry * (1.0 + x)
    spread = float(np.sqrt((dry * (high - low) / 2.56) ** 2 + dry_sd**2 + LEVEL_SLACK**2))
    levels = centre + spread * np.linspace(-2.0, 3.5, 12)
    levels = np.unique(np.clip(levels, 0.001, float(w.min()) - 1e-4))
    weight = -0.5 * ((levels - centre) / spread) ** 2
    weight = weight + np.where(levels >= target, np.log(OUT_OF_REACH), 0.0)
    noise = float(np.sqrt(2.0) * max(scale_step / np.sqrt(12.0), HANDLING * (1.0 - dry)))
    if prior is None:
        half, sd_half = np.log(WIDE_HALF_TIME[0]), WIDE_HALF_TIME[1]
        shape_weight = np.zeros(len(table.log_prior))
    else:
        half = (np.log(np.log(2.0)) - np.log(prior.k)) / prior.n
        sd_half = prior.sd_ln_k
        shape_weight = -0.5 * ((table.page_n - prior.n) / np.hypot(prior.sd_n, 0.15)) ** 2
    return Expectation(float(half), float(sd_half), shape_weight, levels, weight, noise)
