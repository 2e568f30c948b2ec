"""Many loads made by chance, of every food of the handbook: what is said of them holds as often as it says.

The dry matter of each load strays from the table's figure by its published spread. A person feels a piece half a
point or two off, and a dry-matter test is of a sample of 20 g on a scale of 0.1 g. Always the same loads.
"""

from __future__ import annotations

import math
from collections import Counter
from dataclasses import dataclass
from functools import cache
from itertools import product

import numpy as np
import pytest

from dryhouse.handbook.reader import handbook
from dryhouse.handbook.tables import Food
from dryhouse.handbook.yield_spread import water_with_range
from dryhouse.science.dry_matter import feel_given
from dryhouse.science.dry_matter_test import TESTED_SD, sd_of_test
from dryhouse.science.dryness import verdict
from dryhouse.science.moisture import Load, LoadPart, believed, load_of, moisture_now, target_mass
from dryhouse.science.statuses import Feel, VerdictName
from dryhouse.science.values import MIDDLE_80_SD, Fact

LOADS, FEWER = 1500, 500
OFF_BY_HAND = 1.5
"""Percentage points that a person misjudges how moist a piece feels by (standard deviation)."""
DRY = (VerdictName.DRY_ENOUGH, VerdictName.PROBABLY_DRY)


@dataclass(frozen=True)
class Made:
    """One load as it really is, and what the kitchen knows of it."""

    load: Load
    tested: Load
    target: Fact
    solids: float
    chance: np.random.Generator

    def weighs(self, moisture_pct: float) -> float:
        """What a scale of one gram shows at this moisture."""
        return float(round(self.solids / (1.0 - moisture_pct / 100.0)))

    def feels(self, moisture_pct: float) -> Feel:
        """How a person says that a cooled piece of this moisture feels."""
        felt = float(np.clip(moisture_pct + self.chance.normal(0.0, OFF_BY_HAND), 0.0, 99.0))
        odds = np.array([float(feel_given(felt, feel)) for feel in Feel])
        return list(Feel)[self.chance.choice(len(odds), p=odds / odds.sum())]


@cache
def foods() -> tuple[tuple[Food, Fact, Fact], ...]:
    """Every food whose water and target are known: it, its water with the range of purchases, its target."""
    known = [(f, f.fact("water"), f.fact("target_moisture")) for f in handbook().foods.values()]
    return tuple(
        (f, water_with_range(f, water), target)
        for f, water, target in known
        if water is not None and target is not None
    )


@cache
def made() -> tuple[Made, ...]:
    """The loads."""
    chance = np.random.default_rng(20260815)
    loads = []
    while len(loads) < LOADS:
        food, water, target = foods()[chance.integers(len(foods()))]
        load = load_of([LoadPart(food.name, float(round(chance.uniform(300, 2000))), water)])
        strays = math.log((100.0 - water.low) / (100.0 - water.high)) / (2.0 * MIDDLE_80_SD)
        share = (1.0 - water.value / 100.0) * math.exp(chance.normal(0.0, strays))
        if share >= 0.9 * (1.0 - target.value / 100.0):
            continue
        sample = max(round(20.0 * share * math.exp(chance.normal(0.0, TESTED_SD)), 1), 0.1)
        tested = load_of([LoadPart(food.name, load.grams, _by_test(sample / 20.0, sd_of_test(sample, 0.1)))])
        loads.append(Made(load, tested, target, share * load.grams, chance))
    return tuple(loads)


def _by_test(share: float, log_sd: float) -> Fact:
    factor = math.exp(MIDDLE_80_SD * log_sd)
    return Fact(100 * (1 - share), "%", "a test", low=100 * (1 - share * factor), high=100 * (1 - share / factor))


def on_the_way(one: Made, part: float) -> float:
    """The moisture (% wet basis) at this part of a run that falls exponentially and ends at the target."""
    first, last = one.load.grams / one.solids - 1.0, one.target.value / (100.0 - one.target.value)
    x = first * (last / first) ** part
    return 100.0 * x / (1.0 + x)


@pytest.mark.parametrize("part", [0.4, 0.7])
@pytest.mark.parametrize("which", ["load", "tested"])
def test_eight_in_ten_bands_of_moisture_and_target_hold_the_truth(part, which):
    inside = Counter()
    for one in made():
        load, grams = getattr(one, which), one.weighs(on_the_way(one, part))
        now, aim = (
            moisture_now(load, grams),
            target_mass(load, Fact(one.target.value, "%", "t"), believed(load, grams)),
        )
        inside["moisture"] += now.low <= 100.0 * (1.0 - one.solids / grams) <= now.high
        inside["target"] += aim.low <= one.solids / (1.0 - one.target.value / 100.0) <= aim.high
    for what, times in inside.items():
        assert 0.78 <= times / LOADS <= 0.92, what


def test_a_dry_matter_test_narrows_moisture_and_target_by_half():
    narrower = {"moisture": [], "target": []}
    for one in made()[:FEWER]:
        grams, target = one.weighs(on_the_way(one, 0.7)), Fact(one.target.value, "%", "t")
        widths = []
        for load in (one.load, one.tested):
            now, aim = moisture_now(load, grams), target_mass(load, target, believed(load, grams))
            widths.append((now.high - now.low, aim.high - aim.low))
        narrower["moisture"].append(widths[1][0] / widths[0][0])
        narrower["target"].append(widths[1][1] / widths[0][1])
    assert {what: bool(np.median(ratios) <= 0.5) for what, ratios in narrower.items()} == {
        "moisture": True,
        "target": True,
    }


def test_dry_loads_with_a_hand_test_are_called_dry_and_wet_ones_are_not():
    """Dry: from a third of the target to just under it. Wet: five points above it and more, to half water."""
    said = {"dry": Counter(), "wet": Counter()}
    for one in made()[:FEWER]:
        goal = one.target.value
        for what, low, high in (("dry", goal / 3.0, 0.95 * goal), ("wet", goal + 5.0, 50.0)):
            moisture = one.chance.uniform(low, min(high, 100.0 * (1.0 - one.solids / one.load.grams)))
            found = verdict(one.load, one.weighs(moisture), one.target, feel=one.feels(moisture))
            said[what][found.name in DRY] += 1
    assert said["dry"][True] >= 0.80 * FEWER
    assert said["wet"][True] <= 0.05 * FEWER


def test_dry_enough_is_right_at_least_as_often_as_it_says():
    """Among loads anywhere between bone dry and half water, those called dry enough are at their target in eight of
    ten at least, with a hand test and without one."""
    right = Counter()
    for one in made()[:FEWER]:
        for by_hand in (True, False):
            moisture = one.chance.uniform(2.0, min(50.0, 100.0 * (1.0 - one.solids / one.load.grams)))
            feel = one.feels(moisture) if by_hand else None
            found = verdict(one.load, one.weighs(moisture), one.target, feel=feel)
            if found.name == VerdictName.DRY_ENOUGH:
                assert found.probability >= 0.80
                right[moisture <= one.target.value] += 1
    assert right.total() > 0.1 * FEWER
    assert right[True] >= 0.80 * right.total()


def test_no_food_gives_a_figure_outside_its_interval_or_below_what_can_be():
    for (food, water, target), feel in product(foods(), (None, Feel.BRITTLE, Feel.PLIABLE)):
        load = load_of([LoadPart(food.name, 1000.0, water)])
        for part in (0.0, 0.3, 0.9, 1.0, 1.1, 1.5, 3.0):
            grams = min(load.solids * (0.7 + part), 1000.0)
            found = verdict(load, grams, target, feel=feel)
            if found.now is None:
                assert found.name == VerdictName.MISMATCH, food.slug
                continue
            now, aim = found.now, target_mass(load, target, believed(load, grams, feel=feel))
            assert 0.0 <= now.low <= now.value <= now.high < 100.0, food.slug
            assert 0.0 < aim.low <= aim.value <= aim.high, food.slug
            assert grams * (1.0 - now.value / 100.0) <= grams, food.slug
            assert (found.name == VerdictName.DRY_ENOUGH) == (found.probability >= 0.80), food.slug
