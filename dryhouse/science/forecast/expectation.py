"""What is thought of a run before its weighings are looked at, put in the terms of the grid."""

from __future__ import annotations

from functools import cache

import numpy as np

from dryhouse.science.curves.model import Array
from dryhouse.science.dry_matter import Belief, equilibrium_nodes, settles_density
from dryhouse.science.forecast.answer import Beforehand
from dryhouse.science.forecast.engine import Expectation, Levels, Posterior
from dryhouse.science.forecast.shapes import shapes

LEVELS, SHARES, NODES = 18, 161, 5
"""How finely settling levels, dry matter, and the dry matter that goes with a level are divided. The dry matter is
known closely where the level is (to 2 or 3 %), so its steps must be a good deal finer than that: coarser ones pass
for doubt, and widen every band by a tenth."""
TOLD_ROUNDLY = 0.003
"""Starting moistures are told in whole percent: how far off the settling level is for that, as a share of the first
mass. A belief that is in more doubt than this already counts it."""
LEVEL_SLACK = 0.003
"""How far off the settling level may be beyond that, as a share of the dry matter: trays are never emptied quite
clean."""
HANDLING = 0.0002
"""Error of a weighing besides the scale's step (trays lifted in and out), as a share of the water."""
AT_ITS_WORD, WORD_SD = 0.3, 0.005
"""Chance that the dry matter told is the very level the load settles at, and how exactly (as a share of it): a
starting moisture is often worked out from what a like load came to in the same dryer. A level that lies elsewhere
leaves next to nothing of it. An assumption."""
OUT_OF_REACH = 0.05
"""Weight of levels above the target: a target is set so that it can be reached, but not always."""
WIDE_HALF_TIME = (2.0, 1.3)
"""Half-time (h) of an unknown food and the spread of its logarithm: half of all between 50 min and 5 h."""


def expectation(
    w: Array, before: Beforehand, scale_step: float, between: tuple[float, float] | None = None
) -> Expectation:
    """All masses as shares of the first net mass: weighings `w`, the belief about the dry matter, the scale's
    step. `between` names the settling levels to look at more closely."""
    table, solids, prior = shapes(), before.solids, before.prior
    dry = solids.middle
    told = dry if before.as_told and before.equilibrium is None else None
    joint = joint_levels(solids, before.settles, before.target_moisture_pct, float(w.min()), between, told)
    noise = float(max(scale_step / np.sqrt(12.0), HANDLING * (1.0 - dry)))
    if prior is None:
        half, sd_half = np.log(WIDE_HALF_TIME[0]), WIDE_HALF_TIME[1]
        shape_weight = np.zeros(len(table.log_prior))
    else:
        half = (np.log(np.log(2.0)) - np.log(prior.k)) / prior.n
        sd_half = prior.sd_ln_k
        shape_weight = -0.5 * ((table.page_n - prior.n) / np.hypot(prior.sd_n, 0.15)) ** 2
    return Expectation(float(half), float(sd_half), shape_weight, joint, noise)


def joint_levels(
    solids: Belief,
    settles: tuple[float, float, float],
    target_pct: float,
    lightest: float,
    between: tuple[float, float] | None = None,
    told: float | None = None,
) -> Levels:
    """Level and dry matter as one unknown, all as shares of the first mass.

    A load settles at s (1 + X_e), with ln X_e normal, give or take `TOLD_ROUNDLY` and `LEVEL_SLACK`. No level lies
    above the lightest weighing. `between` names the levels to look at more closely; `told` is a dry matter that may
    be the level itself (`AT_ITS_WORD`).
    """
    shares, weight = _even_nodes(solids)
    middles = np.outer(shares, 1.0 + equilibrium_nodes(settles)[0])
    known = solids.middle * solids.log_sd
    lacking = float(np.sqrt(max(TOLD_ROUNDLY**2 - known**2, 0.0)))
    slack = np.hypot(np.minimum(lacking, 0.25 * shares), LEVEL_SLACK * shares)
    top = min(float(middles.max() + 3.0 * slack.max()), lightest - 1e-4)
    low = max(float(middles.min() - 2.0 * slack.max()), 0.001)
    ends = between or (min(low, 0.9 * top), max(top, 0.0011))
    levels = np.linspace(*ends, LEVELS)
    off, part = _slack_nodes()
    moisture = (levels[:, None, None] - off * slack[:, None]) / shares[:, None] - 1.0
    held = (settles_density(moisture, settles) @ part) * weight / shares
    if told is not None:
        held = (1.0 - AT_ITS_WORD) * held + AT_ITS_WORD * _at_its_word(levels, shares, told)
    aim = shares / (1.0 - target_pct / 100.0)
    held = held * np.where(levels[:, None] >= aim[None, :], OUT_OF_REACH, 1.0) + 1e-300
    total = held.sum(axis=1)
    given = np.array([_spread_evenly(shares, row) for row in held])
    return Levels(levels, np.log(total), given, shares, held / total[:, None])


def _at_its_word(levels: Array, shares: Array, told: float) -> Array:
    """Level and dry matter both at what was told, in the measure of `settles_density`: (levels, shares)."""
    apart = max(WORD_SD * told, float(levels[1] - levels[0]))
    level = np.exp(-0.5 * ((levels - told) / apart) ** 2) / (apart * np.sqrt(2.0 * np.pi))
    share = np.exp(-0.5 * ((shares - told) / max(WORD_SD * told, float(np.diff(shares).max(initial=0.0)))) ** 2)
    return np.asarray(np.outer(level, share / share.sum()))


@cache
def _slack_nodes() -> tuple[Array, Array]:
    """Where to look at the slack, in units of its size, and the weights of these."""
    nodes, share = np.polynomial.hermite_e.hermegauss(7)
    return nodes, share / share.sum()


def _even_nodes(solids: Belief) -> tuple[Array, Array]:
    """The belief on fewer nodes: its own grid thinned, weights kept."""
    keep = solids.weight > 1e-7 * solids.weight.max()
    shares, weight = solids.shares[keep], solids.weight[keep]
    groups = np.array_split(np.arange(len(shares)), min(SHARES, len(shares)))
    total = np.array([weight[g].sum() for g in groups])
    return np.array([shares[g] @ weight[g] for g in groups]) / total, total


def _spread_evenly(shares: Array, weight: Array) -> Array:
    """Nodes of equal weight."""
    run = np.cumsum(weight)
    at = (np.arange(NODES) + 0.5) / NODES
    return np.interp(at, (run - 0.5 * weight) / run[-1], shares)


def learned(found: Posterior, expected: Expectation, before: Belief) -> Belief:
    """The belief about the dry matter after the weighings: each level's dry matter in the weight the level got."""
    weight = np.bincount(found.number, found.weight, len(expected.levels.at)) @ expected.levels.share_given
    return Belief(expected.levels.shares, weight / weight.sum(), before.expected)


def levels_that_matter(found: Posterior, expected: Expectation) -> tuple[float, float] | None:
    """The range of levels that the weighings leave, where that is a small part of those looked at; else None."""
    at = expected.levels.at
    held = np.flatnonzero(np.bincount(found.number, found.weight, len(at)) > 0.002)
    if len(held) > LEVELS // 2:
        return None
    return float(at[max(held[0] - 1, 0)]), float(at[min(held[-1] + 1, len(at) - 1)])
