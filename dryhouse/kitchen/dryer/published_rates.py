"""What is published of how fast a food dries, as an expectation of a run not yet weighed."""

from __future__ import annotations

from dryhouse.handbook.cut_hours import published_hours
from dryhouse.handbook.tables import Food
from dryhouse.handbook.thin_layer import published_prior
from dryhouse.science.forecast import Prior, prior_from_hours


def published_expectation(
    food: Food, ratio: float, temperature_c: float | None = None, cut: str = ""
) -> Prior | None:
    """From the published drying time in a home dryer, of this cut where there is one, else from published drying
    constants, else None.

    `ratio` is the moisture ratio X/X₀ at the target. Drying times come first: constants are mostly of small
    pieces in a laboratory's air.
    """
    hours = published_hours(food, cut)
    if hours is not None and hours.value > 0 and 0.0 < ratio < 1.0:
        return prior_from_hours(hours, ratio)
    return published_prior(food.slug, temperature_c)
