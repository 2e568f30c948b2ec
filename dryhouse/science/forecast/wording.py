"""A forecast in sentences and workings."""

from __future__ import annotations

import numpy as np

from dryhouse.science.curves.model import Array
from dryhouse.science.forecast.answer import Equilibrium, Finish, Prior
from dryhouse.science.forecast.engine import TAU, Posterior
from dryhouse.science.forecast.expectation import USUAL_EQUILIBRIUM
from dryhouse.science.forecast.finish import weighted_quantiles
from dryhouse.science.forecast.shapes import Shapes
from dryhouse.science.values import Basis, merge_bases
from dryhouse.science.workings import Step, Workings


def hours_text(hours: float) -> str:
    """`9.5 h`, `45 min`, or `no end in sight`."""
    if not np.isfinite(hours) or hours > 1e4:
        return "no end in sight"
    if hours < 1.0:
        return f"{round(hours * 60)} min"
    return f"{hours:.1f} h" if hours < 100 else f"{hours:.0f} h"


def sentence(n: int, last: float, done: Finish, reached: float | None, prior: Prior | None) -> str:
    """What the forecast says, and how little it knows where it knows little."""
    if reached is not None:
        return f"The target was reached {hours_text(reached)} after the first weighing."
    band = f"between {hours_text(done.low80)} and {hours_text(done.high80)}"
    if not np.isfinite(done.high80):
        band = f"not before {hours_text(done.low80)}, and it may never get there"
    if n == 1:
        known = "only earlier runs to go by" if prior else "nothing known of how fast this load dries"
        return f"One weighing, and {known}: done {band} after it (8 in 10). Weigh again to learn more."
    if not np.isfinite(done.median):
        return "It looks as if this load will not reach the target as things are: it is levelling off above it."
    wait = done.median - last
    few = " With so few weighings this is rough." if n < 4 and prior is None else ""
    return (
        f"Done about {hours_text(done.median)} after the first weighing, {hours_text(max(wait, 0.0))} after the "
        f"last (8 in 10 {band}).{few}"
    )


def workings(
    first_g: float,
    dry_g: float,
    dry_sd_g: float,
    target_pct: float,
    target_g: float,
    found: Posterior,
    table: Shapes,
    equilibrium: Equilibrium | None,
    prior: Prior | None,
    n: int,
) -> Workings:
    """The arithmetic line by line."""
    x, low, high = USUAL_EQUILIBRIUM
    if equilibrium is not None:
        x, low, high = equilibrium.value, equilibrium.low, equilibrium.high
    give = f" ± {dry_sd_g:.1f} g" if dry_sd_g > 0 else ""
    lines: list[Step | str] = [
        f"dry matter {dry_g:.1f} g{give} of {first_g:.1f} g",
        f"mass at {target_pct:g} % moisture: {dry_g:.1f} g / (1 − {target_pct / 100:g}) = {target_g:.1f} g",
        f"settles at {x:g} g water per g dry matter ({low:g} to {high:g})",
    ]
    if prior is not None:
        lines.append(
            f"beforehand: Page k {prior.k:.3g} per h^{prior.n:.2f}, its rate good to a factor of "
            f"{float(np.exp(1.28 * prior.sd_ln_k)):.1f}"
        )
        lines.extend(prior.workings)
    if n > 1:
        half = np.exp(_middle(found.log_half, found.weight))
        b = _mean(table.b[found.shape], found.weight)
        p = _mean(table.p[found.shape], found.weight)
        tau = _mean(found.tau, found.weight)
        lines += [
            f"{n} weighings: half of the free water gone after {half[1]:.2f} h ({half[0]:.2f} to {half[2]:.2f} h)",
            f"curve: surface against inside b = {b:.1f}, falling rate of order p = {p:.2f} (means over "
            f"{len(np.unique(found.shape))} of {len(table.log_prior)} curves that the weighings allow)",
            f"model error: the run's clock wanders by {100 * tau:.0f} % for each e-fold of time (between "
            f"{100 * TAU.min():.0f} and {100 * TAU.max():.0f} %)",
        ]
    return tuple(lines)


def bases(given: tuple[Basis, ...], equilibrium: Equilibrium | None, prior: Prior | None) -> tuple[Basis, ...]:
    """Everything the forecast rests on besides the weighings."""
    return merge_bases(
        given,
        (
            equilibrium.basis
            if equilibrium
            else Basis("assumption", "food settles at 4 % (1 to 9) of its dry matter"),
        ),
        (prior.basis if prior else Basis("assumption", "speed unknown beforehand: half-time 20 min to 10 h"),),
    )


def _middle(values: Array, weight: Array) -> Array:
    return weighted_quantiles(values, weight, np.array([0.1, 0.5, 0.9]))


def _mean(values: Array, weight: Array) -> float:
    return float(values @ weight)
