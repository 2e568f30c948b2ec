"""A dry-matter test: a weighed sample dried to constant weight. It teaches the solids of its load and of its food.

A load that is known by weight alone teaches no solids: a weight cannot tell more solids from more water.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

TESTED_SD = 0.02
"""Spread of ln solids of a test itself: the sample is not the whole load, and *constant* is a little moist
(assumption). The scale's step comes on top."""
TABLE_WORTH = 3.0
"""How many tests of one's own the table's figure weighs as much as (our own choice, as for yields)."""
UNTAUGHT_SD = 0.10
"""Spread of ln solids from one purchase to the next where nothing is published of the food (assumption)."""


def share_of_test(
    sample_g: float, dried_out_g: float, loaded_g: float | None, dried_g: float | None, usual: float | None
) -> float:
    """Dry matter as a share of the load, from a sample of so many grams that dried out to so many.

    The sample was taken of the load or of the dried food: whichever is nearer to the `usual` share of such food. Of
    the load, where the masses or the usual share are not known.
    """
    of_load = dried_out_g / sample_g
    if not loaded_g or not dried_g or not usual:
        return of_load
    of_dried = of_load * dried_g / loaded_g
    return min((of_load, of_dried), key=lambda share: abs(math.log(share / usual)))


def sd_of_test(dried_out_g: float, step_g: float) -> float:
    """Spread of ln solids of a test whose last weight was read in steps of so many grams."""
    return math.hypot(TESTED_SD, step_g / math.sqrt(12.0) / dried_out_g)


def taught(
    usual: float | None,
    purchase_sd: float | None,
    shares: Sequence[float],
    least_sd: float,
    doubts: Sequence[float] = (),
) -> tuple[float, float]:
    """The middle share of dry matter of such food, and the spread of its logarithm, after tests of some loads.

    Normal in the logarithm with a known spread from purchase to purchase: the table's figure counts as
    `TABLE_WORTH` tests. The spread hardly narrows, since the next purchase is another one. What is less sure than a
    test (`doubts`, spreads of ln beside that of a test, one for each share) weighs less. Raises ValueError without
    a table's figure and without a test.
    """
    worth = TABLE_WORTH if usual is not None and purchase_sd is not None else 0.0
    spread = purchase_sd if purchase_sd is not None and worth else UNTAUGHT_SD
    each = [1.0 / (1.0 + (doubt / spread) ** 2) for doubt in doubts] or [1.0] * len(shares)
    count = worth + sum(each)
    if count <= 0:
        raise ValueError("nothing is known of this food's solids")
    logs = [weight * math.log(share) for weight, share in zip(each, shares, strict=True)]
    if usual is not None and worth:
        logs.append(worth * math.log(usual))
    before = 1.0 + 1.0 / worth if worth else 1.0
    return math.exp(sum(logs) / count), max(spread * math.sqrt((1.0 + 1.0 / count) / before), least_sd)
