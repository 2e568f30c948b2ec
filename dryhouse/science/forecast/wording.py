"""The workings of a forecast, and what it rests on."""

from __future__ import annotations

import numpy as np

from dryhouse.science.curves.model import Array
from dryhouse.science.dry_matter import EXACT, SETTLES, Belief
from dryhouse.science.dry_matter import QUANTILES as BAND
from dryhouse.science.forecast.answer import Beforehand
from dryhouse.science.forecast.engine import TAU, Posterior
from dryhouse.science.forecast.finish import weighted_quantiles
from dryhouse.science.forecast.shapes import shapes
from dryhouse.science.messages import MessageKind as Told
from dryhouse.science.messages import message
from dryhouse.science.values import MIDDLE_80_SD, Basis, merge_bases
from dryhouse.science.workings import Step, Workings, step
from dryhouse.science.workings import StepKind as Kind


def workings(
    before: Beforehand, first_g: float, after: Belief | None, target_g: float, found: Posterior, n: int
) -> Workings:
    """The arithmetic line by line, from the first of `n` weighings on. `after` is the belief about the dry matter
    where it is the weighings'."""
    table, solids, prior = shapes(), before.solids, before.prior
    x, low, high = before.settles
    first = (first_g, "g")
    known = solids.log_sd <= 2.0 * EXACT
    least, middle, most = ((share * first_g, "g") for share in solids.quantiles(BAND))
    own = middle if after is None else (after.middle * first_g, "g")
    lines: list[Step] = [
        step(Kind.KNOWN_SOLIDS, middle, first=first)
        if known
        else step(Kind.KNOWN_SOLIDS_ROUGHLY, middle, low=least, high=most, first=first),
        *_learned(after, first_g),
        step(Kind.FORECAST_TARGET, (target_g, "g"), target=(before.target_moisture_pct, "%"), solids=own),
        step(Kind.SETTLES_AT, level=(x, "g/g"), low=(low, "g/g"), high=(high, "g/g")),
    ]
    if prior is not None:
        factor = float(np.exp(MIDDLE_80_SD * prior.sd_ln_k))
        lines.append(step(Kind.EXPECTED_RATE, k=prior.k, n=prior.n, factor=factor))
        lines.extend(prior.workings)
    if n > 1:
        half = np.exp(_middle(found.log_half, found.weight))
        allowed = int(np.count_nonzero(np.bincount(found.shape)))
        n_like = _mean(table.page_n[found.shape] / found.stretch, found.weight)
        tau = _mean(found.tau, found.weight)
        low_h, half_h, high_h = ((float(v), "h") for v in half)
        lines += [
            step(Kind.HALF_GONE, half_h, n=n, low=low_h, high=high_h),
            step(Kind.CURVE_SHAPES, exponent=n_like, allowed=allowed, tried=len(table.log_prior)),
            step(
                Kind.MODEL_ERROR,
                drift=(100.0 * tau, "%"),
                low=(100.0 * float(TAU.min()), "%"),
                high=(100.0 * float(TAU.max()), "%"),
            ),
        ]
    return tuple(lines)


def bases(before: Beforehand) -> tuple[Basis, ...]:
    """Everything the forecast rests on besides the weighings."""
    equilibrium, prior = before.equilibrium, before.prior
    x, low, high = ((100.0 * share, "%") for share in SETTLES)
    return merge_bases(
        before.basis,
        (
            equilibrium.basis
            if equilibrium
            else Basis("assumption", said=message(Told.USUAL_SETTLING, level=x, low=low, high=high)),
        ),
        (prior.basis if prior else Basis("assumption", said=message(Told.SPEED_UNKNOWN)),),
    )


def _learned(after: Belief | None, first_g: float) -> Workings:
    if after is None:
        return ()
    low, middle, high = (share * first_g for share in after.quantiles(BAND))
    return (step(Kind.DRY_MATTER_LEARNED, (middle, "g"), low=(low, "g"), high=(high, "g")),)


def _middle(values: Array, weight: Array) -> Array:
    return weighted_quantiles(values, weight, np.array([0.1, 0.5, 0.9]))


def _mean(values: Array, weight: Array) -> float:
    return float(values @ weight)
