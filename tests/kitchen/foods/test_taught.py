"""Only what was tested teaches the solids of a food; a weight never does."""

from __future__ import annotations

import math
from dataclasses import replace
from datetime import timedelta

import pytest

from dryhouse.kitchen.batches.dryness import verdicts_of
from dryhouse.kitchen.batches.loads import load_for
from dryhouse.kitchen.batches.log import BatchDraft, edit_batch, log_batch
from dryhouse.kitchen.foods.catalog import food
from dryhouse.kitchen.foods.own_foods import add_food
from dryhouse.kitchen.foods.taught import share_by_test, water_by_test
from dryhouse.kitchen.ports import Pending
from dryhouse.kitchen.records import Batch, Weighing
from dryhouse.kitchen.yields.quick_answers import target
from dryhouse.kitchen.yields.yields import yield_ratio
from dryhouse.science.dry_matter_test import sd_of_test
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Mass, parse_mass
from dryhouse.science.statuses import VerdictName
from dryhouse.science.values import MIDDLE_80_SD, Fact
from tests.kitchen.shelf_room import NOW, a_batch, a_shelf
from tests.rows import every_row

SAMPLE = {"test_sample": parse_mass("20 g"), "test_dry": parse_mass("6.0 g")}
"""30 % solids, where the handbook's sweet corn has 24."""


def water_of(kitchen, slug="corn") -> Fact:
    return food(kitchen, slug).fact("water")


def test_a_test_rules_its_own_batch_and_narrows_it_by_more_than_half():
    kitchen = a_shelf()
    plain, tested = (load_for(kitchen, a_batch(dried_mass=Mass(330.0), **m)) for m in ({}, SAMPLE))
    assert tested.solids == pytest.approx(300.0)
    wide, narrow = (load.solids_high / load.solids_low - 1 for load in (plain, tested))
    assert narrow < 0.5 * wide
    dry = verdicts_of(kitchen, a_batch(dried_mass=Mass(325.0), felt="", **SAMPLE))[0]
    assert dry.name == VerdictName.DRY_ENOUGH
    assert verdicts_of(kitchen, a_batch(dried_mass=Mass(360.0), felt="", **SAMPLE))[0].name == "still moist"


def test_a_sample_of_the_dried_food_says_how_moist_it_is():
    kitchen = a_shelf()
    sample = {"test_sample": parse_mass("20 g"), "test_dry": parse_mass("17.1 g")}
    found = verdicts_of(kitchen, a_batch(dried_mass=Mass(262.0), felt="", **sample))[0]
    assert found.moisture_pct == pytest.approx(14.5, abs=0.3)
    assert found.name == VerdictName.STILL_MOIST


def test_a_test_teaches_the_food_for_the_next_load_wherever_it_is_asked():
    kitchen = a_shelf()
    before, target_before = water_of(kitchen).value, target(kitchen, "corn", "1 kg").value
    yield_before = yield_ratio(kitchen, food(kitchen, "corn")).value
    done = log_batch(kitchen, BatchDraft(a_batch(dried_mass=None, **SAMPLE)))
    assert done.record.start_moisture_tested is True
    after = water_of(kitchen)
    assert 70.0 < after.value < before
    assert after.low < after.value < after.high
    assert "a dry-matter test of your own" in after.source
    assert target(kitchen, "corn", "1 kg").value > target_before
    assert yield_ratio(kitchen, food(kitchen, "corn")).value > yield_before
    kitchen.journal.write(done.undone().changes)
    assert water_of(kitchen).value == before


def test_loads_known_by_weight_alone_teach_no_solids():
    kitchen = a_shelf()
    before = water_of(kitchen)
    for id in range(1, 9):
        log_batch(kitchen, BatchDraft(a_batch(id=id, dried_mass=Mass(330.0), start_moisture_pct=66.0)))
    assert water_of(kitchen) == before


def test_a_test_that_is_taken_out_again_teaches_no_more():
    kitchen = a_shelf()
    before = water_of(kitchen)
    log_batch(kitchen, BatchDraft(a_batch(**SAMPLE)))
    edit_batch(kitchen, 1, BatchDraft(a_batch()))
    assert kitchen.journal.get(Batch, 1).start_moisture_tested is None
    assert water_of(kitchen) == before


def test_a_cooked_load_says_nothing_of_the_raw_food():
    kitchen = a_shelf()
    before = water_of(kitchen)
    cooked = a_batch(cooked_mass_in=Mass(1100.0), cooked_mass_out=Mass(1000.0), **SAMPLE)
    log_batch(kitchen, BatchDraft(cooked))
    assert water_of(kitchen) == before


def test_an_own_food_without_any_figure_is_known_by_its_test():
    kitchen = a_shelf()
    slug = add_food(kitchen, "lake greens", "vegetable").record.slug
    assert water_of(kitchen, slug) is None
    log_batch(kitchen, BatchDraft(a_batch(slug, dried_mass=Mass(330.0), **SAMPLE)))
    known = water_of(kitchen, slug)
    assert known.value == pytest.approx(70.0)
    assert known.low < 68.0 < 72.0 < known.high


@pytest.mark.parametrize(
    ("change", "field"),
    [
        ({"test_sample": Mass(20.0)}, "test_dry"),
        ({"test_dry": Mass(2.0)}, "test_sample"),
        ({"test_sample": Mass(2.0), "test_dry": Mass(20.0)}, "test_dry"),
        ({"test_sample": Mass(20.0), "test_dry": Mass(20.0)}, "test_dry"),
    ],
)
def test_half_a_test_and_one_that_lost_no_weight_are_refused(change, field):
    with pytest.raises(InputProblem) as problem:
        log_batch(a_shelf(), BatchDraft(replace(a_batch(), **change)))
    assert problem.value.field == field


def test_a_scale_of_whole_grams_leaves_more_doubt():
    kitchen = a_shelf()
    fine, coarse = (
        load_for(kitchen, a_batch(test_sample=parse_mass("20 g"), test_dry=parse_mass(dry)))
        for dry in ("5.0 g", "5 g")
    )
    assert coarse.solids_high - coarse.solids_low > 2 * (fine.solids_high - fine.solids_low)


@every_row(
    ("sample", "dry", "usual", "share"),
    [
        (20.0, 6.0, 76.0, 0.3),
        (20.0, 17.1, 76.0, 17.1 / 20 * 0.262),  # of the dried food: its share of the load
        (20.0, 17.1, None, 17.1 / 20),
        (20.0, 17.1, 100.0, 17.1 / 20),
        (20.0, 20.0, None, None),
        (20.0, 0.0, None, None),
    ],
)
def test_a_sample_is_of_the_load_or_of_the_dried_food_by_what_such_food_holds(sample, dry, usual, share):
    batch = a_batch(dried_mass=Mass(262.0), test_sample=Mass(sample), test_dry=Mass(dry))
    found = share_by_test(batch, None if usual is None else Fact(usual, "%", "a test's own figure"))
    assert found == (None if share is None else pytest.approx(share))


def test_half_a_test_says_nothing_and_what_came_out_of_the_pot_is_the_load():
    assert share_by_test(a_batch(test_sample=Mass(20.0)), None) is None
    assert share_by_test(a_batch(test_dry=Mass(6.0)), None) is None
    tested = {"test_sample": Mass(20.0), "test_dry": Mass(17.1)}
    cooked = a_batch(prepared_mass=None, cooked_mass_out=Mass(500.0), dried_mass=Mass(131.0), **tested)
    assert share_by_test(cooked, Fact(76.0, "%", "a test's own figure")) == pytest.approx(17.1 / 20 * 0.262)


def test_a_moisture_that_was_tested_by_other_means_teaches_too_and_one_that_cannot_be_does_not():
    kitchen = a_shelf()
    slug = add_food(kitchen, "lake greens", "vegetable").record.slug
    met = {"start_moisture_pct": 88.0, "start_moisture_tested": True}
    log_batch(kitchen, BatchDraft(a_batch(slug, dried_mass=None, **met)))
    assert water_of(kitchen, slug).value == pytest.approx(88.0)
    log_batch(kitchen, BatchDraft(a_batch(slug, dried_mass=None, **{**met, "start_moisture_pct": 85.0})))
    assert water_of(kitchen, slug).value == pytest.approx(100 * (1 - (0.12 * 0.15) ** 0.5))
    assert "2 dry-matter tests of your own" in water_of(kitchen, slug).source


def test_the_first_test_of_a_food_counts_a_quarter_beside_the_table():
    kitchen = a_shelf()
    before = water_of(kitchen)
    log_batch(kitchen, BatchDraft(a_batch(dried_mass=None, **SAMPLE)))
    table = 1 - before.value / 100
    assert 1 - water_of(kitchen).value / 100 == pytest.approx((table**3 * 0.3) ** 0.25)


def test_a_load_that_was_brittle_when_its_weight_stayed_the_same_teaches_and_one_that_was_tested_does_not_twice():
    kitchen = a_shelf()
    before = water_of(kitchen)
    level = [Weighing(1, NOW - timedelta(hours=9 - h), Mass(g, f"{g} g"), id=n)
             for n, (h, g) in enumerate(((0, 1000), (4, 600), (6, 300), (7, 300), (9, 300)), 1)]  # fmt: skip
    batch = a_batch(started=NOW - timedelta(hours=9), ended=NOW, dried_mass=Mass(300.0, "300 g"), settled=True)
    pending = Pending()
    pending.add(batch, *level)
    kitchen.journal.write(pending.changes)
    after = water_of(kitchen)
    assert after.value < before.value
    assert "a load dried until the weight stayed the same of your own" in after.source
    assert load_for(kitchen, batch).solids == pytest.approx(300 / 1.04)
    assert load_for(kitchen, replace(batch, start_moisture_pct=75.0, start_moisture_tested=True)).solids == 250.0
    pending = Pending()
    pending.edit(batch, replace(batch, **SAMPLE, start_moisture_tested=True))
    kitchen.journal.write(pending.changes)
    assert "weight stayed" not in water_of(kitchen).source


def test_the_doubt_of_a_test_is_the_middle_eighty_per_cent_of_its_solids():
    found = water_by_test(Batch("corn", **SAMPLE), None)
    # 30 % solids, read in tenths of a gram
    spread = math.exp(MIDDLE_80_SD * sd_of_test(6.0, 0.1))
    assert found == Fact(
        70.0, "%", "dry-matter test of this batch", "entered",
        low=pytest.approx(100 - 30 * spread), high=pytest.approx(100 - 30 / spread),
    )  # fmt: skip
    assert water_by_test(Batch("corn", test_sample=Mass(20.0)), None) is None
    dry = water_by_test(Batch("corn", test_sample=Mass(20.0), test_dry=Mass(19.9)), None)
    assert (dry.low, dry.value) == (0.0, pytest.approx(0.5)), "no food holds less than no water"


@every_row(
    ("more", "teaches"),
    [
        ({}, True),
        ({"settled": None}, False),
        ({"felt": "leathery"}, False),
        ({"cooked_mass_in": Mass(1100.0)}, False),
    ],
)
def test_only_a_raw_load_that_was_brittle_and_level_teaches(more, teaches):
    kitchen = a_shelf()
    before = water_of(kitchen)
    level = [Weighing(1, NOW - timedelta(hours=9 - h), Mass(g, f"{g} g"), id=n)
             for n, (h, g) in enumerate(((0, 1000), (4, 600), (6, 300), (7, 300), (9, 300)), 1)]  # fmt: skip
    done = {"started": NOW - timedelta(hours=9), "ended": NOW, "dried_mass": Mass(300.0, "300 g"), "settled": True}
    pending = Pending()
    pending.add(a_batch(**{**done, **more}), *level)
    kitchen.journal.write(pending.changes)
    assert (water_of(kitchen) != before) is teaches


@every_row("more", [{"start_moisture_pct": 0.0}, {}])
def test_a_tested_load_without_water_or_without_a_figure_teaches_nothing(more):
    kitchen = a_shelf()
    before = water_of(kitchen)
    pending = Pending()
    pending.add(a_batch(dried_mass=None, start_moisture_tested=True, **more))
    kitchen.journal.write(pending.changes)
    assert water_of(kitchen) == before
