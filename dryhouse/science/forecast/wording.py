"""A forecast in sentences and workings."""

from __future__ import annotations

import numpy as np

from dryhouse.science.curves.model import Array
from dryhouse.science.forecast.answer import Equilibrium, Finish, Prior
from dryhouse.science.forecast.engine import TAU, Posterior
from dryhouse.science.forecast.expectation import USUAL_EQUILIBRIUM
from dryhouse.science.forecast.finish import weighted_quantiles
from dryhouse.science.forecast.shapes import Shapes
from dryhouse.science.values import MIDDLE_80_SD, Basis, merge_bases
from dryhouse.science.workings import Step, Workings, step
from dryhouse.science.workings import StepKind as Kind


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
    dry, first = (dry_g, "g"), (first_g, "g")
    lines: list[Step] = [
        step(Kind.KNOWN_SOLIDS_ROUGHLY, dry, spread=(dry_sd_g, "g"), first=first)
        if dry_sd_g > 0
        else step(Kind.KNOWN_SOLIDS, dry, first=first),
        step(Kind.FORECAST_TARGET, (target_g, "g"), target=(target_pct, "%"), solids=dry),
        step(Kind.SETTLES_AT, level=(x, "g/g"), low=(low, "g/g"), high=(high, "g/g")),
    ]
    if prior is not None:
        factor = float(np.exp(MIDDLE_80_SD * prior.sd_ln_k))
        lines.append(step(Kind.EXPECTED_RATE, k=prior.k, n=prior.n, factor=factor))
        lines.extend(prior.workings)
    if n > 1:
        half = np.exp(_middle(found.log_half, found.weight))
        b = _mean(table.b[found.shape], found.weight)
        p = _mean(table.p[found.shape], found.weight)
        tau = _mean(found.tau, found.weight)
        low_h, half_h, high_h = ((float(v), "h") for v in half)
        lines += [
            step(Kind.HALF_GONE, half_h, n=n, low=low_h, high=high_h),
            step(Kind.CURVE_SHAPES, b=b, p=p, allowed=len(np.unique(found.shape)), tried=len(table.log_prior)),
            step(
                Kind.MODEL_ERROR,
                drift=(100.0 * tau, "%"),
                low=(100.0 * float(TAU.min()), "%"),
                high=(100.0 * float(TAU.max()), "%"),
            ),
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
