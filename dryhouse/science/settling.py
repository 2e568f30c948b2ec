"""The level a load settles at: several weighings over hours that lost no more than the scale can show.

A level by itself says little: a stopped dryer levels a wet load, and a coarse scale levels everything. Where a
cooled piece is brittle right through, the level is the dry matter and the little water it holds in warm dry air,
S (1 + X_e): as good as a dry-matter test of the whole load, with the doubt of X_e.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np

from dryhouse.science.dry_matter import SETTLES
from dryhouse.science.dry_matter_test import TESTED_SD
from dryhouse.science.values import MIDDLE_80_SD

LEAST_WEIGHINGS = 3
LEAST_HOURS = 2.0
"""So many weighings over so many hours without a loss make a level (our own choice)."""
COARSEST = 0.02
"""A scale whose step is more than this share of the weight shows no level (our own choice)."""


def settled_from(hours: Sequence[float], grams: Sequence[float], step: float) -> int | None:
    """The number of the reading from which on the weight has stayed the same, to the last; None where it has not.

    The same: none lies further from another than twice the scale's step, and from the first third of them to the
    last third no whole step was lost.
    """
    if not hours or step > COARSEST * grams[-1]:
        return None
    low = high = grams[-1]
    first = len(grams)
    for at in reversed(range(len(grams))):
        low, high = min(low, grams[at]), max(high, grams[at])
        if high - low > 2.0 * step * (1.0 + 1e-9):
            break
        first = at
    while len(hours) - first >= LEAST_WEIGHINGS and hours[-1] - hours[first] >= LEAST_HOURS:
        third = max((len(grams) - first) // 3, 1)
        lost = float(np.mean(grams[first : first + third]) - np.mean(grams[-third:]))
        if lost < step * (1.0 - 1e-9):
            return first
        first += 1
    return None


def share_of_level(
    level: float,
    loaded: float,
    step: float,
    settles: tuple[float, float, float] = SETTLES,
    *,
    sample: bool = False,
) -> tuple[float, float]:
    """Dry matter as a share of the load that settled at this level, and the spread of its logarithm.

    `settles` is the moisture (dry basis) that such food settles at, with its middle 80 %; a sample tray is not the
    whole load.
    """
    value, low, high = settles
    spread = math.log((1.0 + high) / (1.0 + low)) / (2.0 * MIDDLE_80_SD)
    scale = step / math.sqrt(12.0) * math.hypot(1.0 / level, 1.0 / loaded)
    return level / loaded / (1.0 + value), math.hypot(math.hypot(spread, scale), TESTED_SD if sample else 0.0)
