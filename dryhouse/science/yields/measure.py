"""What a household measure of a food weighs: her own measured volumes, else the handbook's measures.

Densities are grams per millilitre of measure, cups shaken level as published; all spreads are of logarithms.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from dryhouse.science.messages import MessageKind as Told
from dryhouse.science.messages import message
from dryhouse.science.units import SIZES
from dryhouse.science.values import Basis, Fact, merge_bases
from dryhouse.science.workings import Step, Workings, step
from dryhouse.science.workings import StepKind as Kind
from dryhouse.science.yields.belief import Belief, Predictive
from dryhouse.science.yields.prior import SPREAD_WORTH


@dataclass(frozen=True, slots=True)
class PublishedDensity:
    """One published measure of the food in one state: grams per millilitre, and what it was."""

    density: float
    what: str
    source: str
    basis: Basis


@dataclass(frozen=True, slots=True)
class Density:
    """Bulk density in grams per millilitre, with its uncertainty, its basis and how it came about."""

    predictive: Predictive
    basis: tuple[Basis, ...]
    workings: Workings
    n_own: int = 0


def density(
    state: str, published: Sequence[PublishedDensity], spread: Fact, own_g_per_ml: Sequence[float]
) -> Density | None:
    """The density to use, or None where neither she nor the handbook has one.

    Own measured volumes override the handbook's. `spread` is what published measures of one food stray from
    each other; it holds for m published measures as √(1 + 1/m), and begins the spread of her own.
    """
    if own_g_per_ml:
        start = Belief(0.0, 0.0, SPREAD_WORTH / 2, SPREAD_WORTH / 2 * spread.value**2)
        mine = start.after([math.log(d) for d in own_g_per_ml]).predictive()
        n = len(own_g_per_ml)
        line = step(Kind.OWN_CUP, _cup(mine.value), state=state, n=n)
        return Density(mine, (Basis("own", n=n, said=message(Told.OWN_MEASURES, state=state)),), (line,), n)
    if not published:
        return None
    m = len(published)
    centre = sum(math.log(p.density) for p in published) / m
    known = Predictive(float(spread.n or 1), centre, spread.value * math.sqrt(1 + 1 / m))
    lines = [_published_cup(state, p) for p in published]
    if m > 1:
        lines.append(step(Kind.MEAN_CUP, _cup(known.value), state=state, n=m))
    lines.append(step(Kind.CUPS_STRAY, spread=(100.0 * spread.value, "%", spread.source)))
    return Density(known, merge_bases([p.basis for p in published], [spread.basis]), tuple(lines))


def _published_cup(state: str, published: PublishedDensity) -> Step:
    cup = (*_cup(published.density), published.source)
    if not published.what:
        return step(Kind.PUBLISHED_CUP_ANY, cup, state=state)
    return step(Kind.PUBLISHED_CUP, cup, state=state, cut=published.what)


def _cup(density_g_per_ml: float) -> tuple[float, str]:
    return density_g_per_ml * SIZES["cup"], "g"
