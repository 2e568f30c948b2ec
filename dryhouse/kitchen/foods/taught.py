"""What dry-matter tests say, and levels that were confirmed by hand: of their own load, and of every later load of
that food."""

from __future__ import annotations

import math
from dataclasses import replace

from dryhouse.handbook.tables import Food
from dryhouse.handbook.yield_spread import LEAST_SPREAD, solids_spread
from dryhouse.kitchen.foods.settled import Settled, confirmed, settled, step_of
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.records import Batch
from dryhouse.science.dry_matter_test import sd_of_test, share_of_test, taught
from dryhouse.science.values import MIDDLE_80_SD, Fact

OWN_TEST = "dry-matter test of this batch"
OWN_LEVEL = "weight at which this batch stayed the same, brittle right through"


def water_by_test(batch: Batch, usual: Fact | None) -> Fact | None:
    """Moisture of a load (% wet basis) by the dry-matter test of its own, with the doubt of the test; None without
    one. `usual` is the water of such food, which says whether the sample was fresh or dried."""
    share = share_by_test(batch, usual)
    if share is None or batch.test_dry is None:
        return None
    return _water(
        share, sd_of_test(batch.test_dry.si, step_of(batch.test_dry)), Fact(0.0, "%", OWN_TEST, "entered")
    )


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


def water_by_level(kitchen: Kitchen, batch: Batch) -> Fact | None:
    """Moisture of a load by the level it settled at, where she confirmed by hand that it was dry then."""
    found = settled(kitchen, batch) if confirmed(batch) else None
    return _water(found.share, found.log_sd, Fact(0.0, "%", OWN_LEVEL, "entered")) if found is not None else None


def with_tests(kitchen: Kitchen, known: Food) -> Food:
    """The food with its water as tests of loads of it have taught it, and loads that were brittle when their weight
    stayed the same; the same food where there are none.

    What is known by its weight alone teaches nothing. A load that was cooked between its weighings says nothing of
    the raw food.
    """
    usual = known.fact("water")
    tested = kitchen.journal.where(Batch, food=known.slug, start_moisture_tested=True)
    shares = [share for batch in tested if (share := _taught_by(batch, usual)) is not None]
    levels = _levels(kitchen, known.slug)
    if not shares and not levels:
        return known
    doubts = [*(0.0 for _ in shares), *(found.log_sd for found in levels)]
    said = " and ".join(
        word
        for word in (
            _many(len(shares), "a dry-matter test", "dry-matter tests"),
            _many(len(levels), "a load", "loads", " dried until the weight stayed the same"),
        )
        if word
    )
    every = [*shares, *(found.share for found in levels)]
    if usual is None or not 0.0 < usual.value < 100.0:
        middle, spread = taught(None, None, every, LEAST_SPREAD, doubts)
        water = _water(middle, spread, Fact(0.0, "%", f"{said} of your own", "entered"))
    else:
        purchase = solids_spread(known, usual).value
        middle, spread = taught(1.0 - usual.value / 100.0, purchase, every, LEAST_SPREAD, doubts)
        water = _water(middle, spread, replace(usual, source=f"{usual.source}; {said} of your own"))
    return replace(known, facts={**known.facts, "water": water})


def _many(count: int, one: str, more: str, how: str = "") -> str:
    return "" if not count else f"{one if count == 1 else f'{count} {more}'}{how}"


def _levels(kitchen: Kitchen, slug: str) -> list[Settled]:
    """Of every load of the food that was confirmed by hand and not tested."""
    batches = kitchen.journal.where(Batch, food=slug, settled=True)
    raw = (b for b in batches if confirmed(b) and not b.start_moisture_tested and b.cooked_mass_in is None)
    return [found for batch in raw if (found := settled(kitchen, batch)) is not None]


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
