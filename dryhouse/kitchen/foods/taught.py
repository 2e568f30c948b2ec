"""What dry-matter tests say: of the load they were made of, and of every later load of that food."""

from __future__ import annotations

import math
import re
from dataclasses import replace

from dryhouse.handbook.tables import Food
from dryhouse.handbook.yield_spread import LEAST_SPREAD, solids_spread
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.records import Batch
from dryhouse.science.dry_matter_test import sd_of_test, share_of_test, taught
from dryhouse.science.quantities import Mass, unit_typed
from dryhouse.science.units import SIZES
from dryhouse.science.values import MIDDLE_80_SD, Fact

OWN_TEST = "dry-matter test of this batch"
_NUMBER = re.compile(r"\d+(?:[.,](\d+))?")


def water_by_test(batch: Batch, usual: Fact | None) -> Fact | None:
    """Moisture of a load (% wet basis) by the dry-matter test of its own, with the doubt of the test; None without
    one. `usual` is the water of such food, which says whether the sample was fresh or dried."""
    share = share_by_test(batch, usual)
    if share is None or batch.test_dry is None:
        return None
    return _water(share, sd_of_test(batch.test_dry.si, _step(batch.test_dry)), Fact(0.0, "%", OWN_TEST, "entered"))


def share_by_test(batch: Batch, usual: Fact | None) -> float | None:
    """Dry matter as a share of the load, by its own test; None without one, or where it cannot be."""
    sample, dry = batch.test_sample, batch.test_dry
    if sample is None or dry is None:
        return None
    weighed, dried = batch.prepared_mass or batch.cooked_mass_out, batch.dried_mass
    loaded_g, dried_g = weighed.si if weighed else None, dried.si if dried else None
    expected = 1.0 - usual.value / 100.0 if usual is not None and usual.value < 100.0 else None
    share = share_of_test(sample.si, dry.si, loaded_g, dried_g, expected)
    return share if 0.0 < share < 1.0 else None


def with_tests(kitchen: Kitchen, known: Food) -> Food:
    """The food with its water as tests of loads of it have taught it; the same food where there are none.

    Only what was tested teaches. A load that was cooked between its weighings says nothing of the raw food.
    """
    tested = kitchen.journal.where(Batch, food=known.slug, start_moisture_tested=True)
    usual = known.fact("water")
    shares = [share for batch in tested if (share := _taught_by(batch, usual)) is not None]
    if not shares:
        return known
    many = "a dry-matter test" if len(shares) == 1 else f"{len(shares)} dry-matter tests"
    if usual is None or not 0.0 < usual.value < 100.0:
        middle, spread = taught(None, None, shares, LEAST_SPREAD)
        water = _water(middle, spread, Fact(0.0, "%", f"{many} of your own", "entered"))
    else:
        purchase = solids_spread(known, usual).value
        middle, spread = taught(1.0 - usual.value / 100.0, purchase, shares, LEAST_SPREAD)
        water = _water(middle, spread, replace(usual, source=f"{usual.source}; {many} of your own"))
    return replace(known, facts={**known.facts, "water": water})


def _taught_by(batch: Batch, usual: Fact | None) -> float | None:
    if batch.cooked_mass_in is not None and batch.cooked_mass_out is not None:
        return None
    share = share_by_test(batch, usual)
    if share is None and batch.start_moisture_pct is not None:
        share = 1.0 - batch.start_moisture_pct / 100.0
    return share if share is not None and 0.0 < share < 1.0 else None


def _water(share: float, log_sd: float, like: Fact) -> Fact:
    factor = math.exp(MIDDLE_80_SD * log_sd)
    low, high = (max(100.0 * (1.0 - share * f), 0.0) for f in (factor, 1.0 / factor))
    return replace(like, value=100.0 * (1.0 - share), low=low, high=high)


def _step(mass: Mass) -> float:
    """Grams between one reading of a scale and the next, as the number was typed."""
    numbers = _NUMBER.findall(mass.typed)
    decimals = len(numbers[-1]) if numbers else 1
    return 10.0**-decimals * SIZES[unit_typed(mass)]
