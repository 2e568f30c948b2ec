"""Everything known of the yield of one food, gathered from the handbook and her batches."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

import pytest

from dryhouse.handbook.tables import Food
from dryhouse.kitchen.foods.catalog import food
from dryhouse.kitchen.records import Dryer, OwnFigure
from dryhouse.kitchen.yields.knowledge import OwnDot, density_of, finish_of, learn
from dryhouse.science.quantities import Area, Temperature, Volume
from dryhouse.science.workings import StepKind
from tests.builders import CORN, a_kitchen, fact
from tests.kitchen.yields.test_yields import CUP, START, batch
from tests.rows import every_row

SHELF = Dryer("shelf dryer", 6, Area(900.0), retired=True, id=1)


def test_each_batch_is_shown_with_how_it_was_done_the_oldest_first() -> None:
    blanched = batch(
        1, 1000.0, 240.0, form="Kernels", pretreatment="Blanched 3 min", dryer=1, set_temperature=Temperature(57.0)
    )
    creamed = batch(5, 1000.0, 250.0, form="creamed ")
    plain = batch(3, 500.0, 130.0)
    known = learn(a_kitchen(SHELF, creamed, plain, blanched), CORN, "kernel", "blanched")
    days = {n: START + timedelta(days=n) for n in (1, 3, 5)}
    assert known.dots == (
        OwnDot(1, 0.24, True, "Kernels", "Blanched 3 min", days[1], 57.0, "shelf dryer"),
        OwnDot(3, 0.26, False, "", "", days[3], None, ""),
        OwnDot(5, 0.25, False, "creamed ", "", days[5], None, ""),
    )
    assert (known.forms, known.pretreatments, known.left_out) == (("creamed", "Kernels"), ("Blanched 3 min",), ())
    assert all(dot.same for dot in learn(a_kitchen(SHELF, creamed, plain, blanched), CORN).dots)


@every_row(
    ("asked", "known"),
    [("", True), ("  ", True), ("kernel", True), ("KERNELS", True), ("kernels creamed", False), ("slices", False)],
)
def test_a_form_is_known_where_all_its_words_are_of_a_batch_or_of_a_published_cup(asked, known) -> None:
    assert learn(a_kitchen(), CORN, asked).form_known is known


@every_row(
    ("facts", "lacks", "missing"),
    [
        (("water", "target_moisture"), "finished moisture", ()),
        (("target_moisture",), "water content", (StepKind.NO_HANDBOOK_YIELD,)),
        (("water",), "finished moisture", (StepKind.NO_HANDBOOK_YIELD,)),
        ((), "water content", (StepKind.NO_HANDBOOK_YIELD,)),
    ],
)
def test_what_the_handbook_lacks_is_named(facts, lacks, missing) -> None:
    some = replace(CORN, facts={name: CORN.facts[name] for name in facts})
    known = learn(a_kitchen(), some)
    assert (known.lacks, tuple(line.kind for line in known.missing)) == (lacks, missing)
    assert (known.handbook is None) == bool(missing)
    bare = learn(a_kitchen(), replace(some, measures=()))
    assert [line.kind for line in bare.missing][len(missing) :] == [StepKind.NO_FRESH_CUP, StepKind.NO_DRIED_CUP]


@every_row(
    ("dried", "more", "kept"),
    [
        (240.0, {}, True),
        (1000.0, {}, True),
        (1001.0, {}, True),  # the scale's own step
        (1002.0, {}, False),  # heavier than it was loaded
        (150.0, {}, False),
        (150.0, {"start_moisture_pct": 86.0}, True),
        (240.0, {"start_moisture_pct": 50.0}, False),
    ],
)
def test_a_batch_counts_where_its_weights_can_be(dried, more, kept) -> None:
    known = learn(a_kitchen(batch(1, 1000.0, dried, **more)), CORN)
    assert ([dot.batch for dot in known.dots], known.left_out) == (([1], ()) if kept else ([], (1,)))


def test_of_food_of_which_nothing_is_known_any_lighter_weight_can_be() -> None:
    bare = Food("corn", "sweet corn", (), "vegetable")
    for dried, kept in ((1.0, True), (1000.0, True), (1010.0, False)):
        assert bool(learn(a_kitchen(batch(1, 1000.0, dried)), bare).dots) is kept


def test_a_target_at_or_above_its_water_has_no_yield_and_an_article_sold_dried_stands_in_for_one() -> None:
    for target, known in ((76.0, True), (76.05, False), (80.0, False)):
        moist = replace(CORN, facts={**CORN.facts, "target_moisture": fact(target)})
        assert (learn(a_kitchen(), moist).handbook is not None) is known
    sold = replace(CORN, facts={"water": CORN.facts["water"], "dried_water": fact(9.0)})
    assert finish_of(sold).value == 9.0
    assert finish_of(CORN).value == 10.0
    assert learn(a_kitchen(), sold).handbook is not None


def test_a_cup_is_her_own_measured_or_entered_before_the_published_one() -> None:
    assert density_of(CORN, "dried", "", []).predictive.value * CUP == pytest.approx(100.0)
    assert density_of(CORN, "fresh", "kernels", []).predictive.value * CUP == pytest.approx(145.0)
    entered = replace(CORN, facts={**CORN.facts, "dried_cup": fact(120.0, "g")})
    for own, known in (([120.0 / CUP], CORN), ([], entered)):
        told = density_of(known, "dried", "", own)
        assert told.n_own == 1
        assert 100.0 < told.predictive.value * CUP <= 120.0
    assert density_of(entered, "fresh", "", []).n_own == 0
    assert density_of(replace(CORN, measures=()), "dried", "", []) is None
    worthless = replace(CORN, facts={**CORN.facts, "dried_cup": fact(0.0, "g")})
    assert density_of(worthless, "dried", "", []).n_own == 0


def test_volumes_of_the_form_asked_for_make_its_cup() -> None:
    kernels = batch(1, 1000.0, 240.0, form="kernels", prepared_volume=Volume(1000.0), dried_volume=Volume(500.0))
    creamed = batch(2, 1000.0, 240.0, form="creamed", prepared_volume=Volume(800.0), dried_volume=Volume(250.0))
    kitchen = a_kitchen(kernels, creamed)
    asked, every = learn(kitchen, CORN, "kernels"), learn(kitchen, CORN)
    assert (asked.fresh.n_own, asked.dried.n_own) == (1, 1)
    assert (every.fresh.n_own, every.dried.n_own) == (2, 2)
    assert asked.fresh.predictive.value < every.fresh.predictive.value
    assert asked.dried.predictive.value < every.dried.predictive.value


def test_her_own_refuse_and_target_stand_in_the_answer() -> None:
    kitchen = a_kitchen(OwnFigure("corn", "refuse", 50.0, "%", id=1))
    assert learn(kitchen, food(kitchen, "corn")).refuse.value == 50.0
