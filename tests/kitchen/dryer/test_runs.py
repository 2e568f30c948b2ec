"""How a batch stands, read from its records."""

from __future__ import annotations

import math

import pytest

from dryhouse.kitchen.dryer.drying import CameOff, start_batch, take_off
from dryhouse.kitchen.dryer.happenings import add_event
from dryhouse.kitchen.dryer.runs import planned, run_of, running, same_scale, scope_of
from dryhouse.kitchen.dryer.typed_happenings import Happening
from dryhouse.kitchen.records import Batch, BatchPart, Weighing
from dryhouse.kitchen.records.batches import PLANNED
from dryhouse.kitchen.records.weighings import LOAD, PAUSED, RESUMED, SAMPLE, TRAY
from dryhouse.science.display import METRIC, Style
from dryhouse.science.quantities import Mass
from dryhouse.words.verdicts import verdict_sentence
from tests.kitchen.drying_room import NOON, Hands
from tests.rows import every_row


def test_moisture_target_and_verdict_follow_from_the_mass_balance() -> None:
    hands = Hands()
    batch = hands.start(1000.0)
    hands.wait(6)
    hands.weigh(batch, 280)
    run = run_of(hands.kitchen, batch)
    assert run.moisture is not None
    assert run.moisture.value == pytest.approx(50.0)
    assert run.moisture_dry_basis is not None
    assert run.moisture_dry_basis.value == pytest.approx(1.0)
    wet = run.moisture
    assert run.moisture_dry_basis.low == pytest.approx(wet.low / (100 - wet.low))
    assert run.moisture_dry_basis.high == pytest.approx(wet.high / (100 - wet.high))
    assert run.moisture_ratio is not None
    assert run.moisture_ratio.value == pytest.approx(140 / 860)
    assert run.target_mass is not None
    assert run.target_mass.value == pytest.approx(175.0)
    assert run.verdict is not None
    assert run.verdict.name == "still moist"
    assert run.target_ratio == pytest.approx(0.25 / (86 / 14))


def test_what_was_loaded_is_the_first_point_of_the_run() -> None:
    hands = Hands()
    batch = hands.start(1000.0)
    hands.wait(1)
    hands.weigh(batch, 900)
    points = run_of(hands.kitchen, batch).points
    assert [(p.hours, p.net_g) for p in points] == [(0.0, 1000.0), (1.0, 900.0)]
    assert points[0].weighing is None


def test_without_a_loaded_mass_the_first_weighing_is_the_start() -> None:
    hands = Hands()
    batch = hands.start(None)
    hands.weigh(batch, 1000)
    hands.wait(2)
    hands.weigh(batch, 560)
    run = run_of(hands.kitchen, batch)
    assert len(run.points) == 2
    assert run.moisture is not None
    assert run.moisture.value == pytest.approx(75.0)


def test_the_sample_trays_own_start_mass_gives_the_moisture_of_the_whole_load() -> None:
    hands = Hands()
    batch = hands.start(1000.0)
    hands.weigh(batch, 250, scope=SAMPLE)
    hands.wait(5)
    hands.weigh(batch, 70)
    run = run_of(hands.kitchen, batch)
    assert run.scope == SAMPLE
    assert run.moisture is not None
    assert run.moisture.value == pytest.approx(50.0)
    assert run.whole is not None
    assert run.whole.grams == 1000.0
    assert run.verdict is not None
    assert verdict_sentence(run.verdict, Style(METRIC)).startswith("By the sample tray")
    assert run.asks == ()


def test_a_sample_first_weighed_late_is_said_to_be_reckoned_from_then() -> None:
    hands = Hands()
    batch = hands.start(1000.0)
    hands.wait(2)
    hands.weigh(batch, 200, scope=SAMPLE)
    assert "2.0 h after the start" in run_of(hands.kitchen, batch).asks[0]


def test_weighings_of_the_other_scope_stand_beside_the_run() -> None:
    hands = Hands()
    batch = hands.start(1000.0)
    hands.wait(1)
    hands.weigh(batch, 240, scope=SAMPLE)
    hands.wait(1)
    hands.weigh(batch, 700, scope=LOAD)
    run = run_of(hands.kitchen, batch)
    assert run.scope == LOAD
    assert [p.net_g for p in run.others] == [240]


def test_a_pause_is_left_out_of_the_hours_of_the_run() -> None:
    hands = Hands()
    batch = hands.start(1000.0)
    hands.wait(2)
    add_event(hands.kitchen, batch, Happening(PAUSED))
    hands.wait(8)
    add_event(hands.kitchen, batch, Happening(RESUMED))
    hands.wait(1)
    hands.weigh(batch, 600)
    run = run_of(hands.kitchen, batch)
    assert run.hours == pytest.approx(3)
    assert run.points[-1].hours == pytest.approx(3)


def test_the_start_moisture_entered_for_the_batch_rules() -> None:
    hands = Hands()
    batch = hands.start(1000.0, start_moisture_pct=80.0)
    hands.wait(4)
    hands.weigh(batch, 400)
    moisture = run_of(hands.kitchen, batch).moisture
    assert moisture is not None
    assert moisture.value == pytest.approx(50.0)
    assert moisture.basis[0].kind == "entered"


def test_the_solids_of_a_mix_add_up() -> None:
    hands = Hands()
    parts = (BatchPart(0, 0, "apple", Mass(500.0)), BatchPart(0, 1, "sorrel", Mass(100.0), moisture_pct=90.0))
    draft = Batch("apple", prepared_mass=Mass(400.0, "400 g"), target_moisture_pct=10.0)
    batch = start_batch(hands.kitchen, draft, parts).record.id
    hands.wait(3)
    hands.weigh(batch, 160)
    run = run_of(hands.kitchen, batch)
    assert run.load is not None
    assert run.load.solids == pytest.approx(80.0)
    assert run.moisture is not None
    assert run.moisture.value == pytest.approx(50.0)


def test_a_food_without_figures_shows_its_weights_and_says_what_is_missing() -> None:
    hands = Hands()
    batch = hands.start(1000.0, food="sorrel")
    hands.wait(1)
    hands.weigh(batch, 700)
    run = run_of(hands.kitchen, batch)
    assert run.net_g == 700
    assert (run.moisture, run.verdict, run.curves, run.expected.forecast) == (None, None, None, None)
    assert any("starting moisture" in a for a in run.asks)
    assert any("target moisture" in a for a in run.asks)


def test_the_curve_and_the_forecast_come_with_the_weighings() -> None:
    hands = Hands()
    batch = hands.start(1000.0)
    hands.dry(batch, (1, 2, 3, 4, 5, 6))
    run = run_of(hands.kitchen, batch)
    assert run.curves is not None
    assert run.curves.chosen is not None
    assert run.expected.forecast is not None


@pytest.mark.parametrize("settles", [0.02, 0.04, 0.06])
def test_a_load_that_settles_above_its_dry_matter_is_dry_when_it_was_said_to_be(settles) -> None:
    # 1000 g with 140 g of dry matter, told by the handbook alone; at 20 % moisture it weighs 175 g.
    level = 140 * (1 + settles)
    true = (math.log((1000 - level) / (175 - level)) / 0.25) ** (1 / 1.1)
    hands = Hands()
    batch = hands.start(1000.0)
    for hours in (1, 2, 3, 4, 5, 6):
        hands.wait(1)
        hands.weigh(batch, round(level + (1000 - level) * math.exp(-0.25 * hours**1.1)))
    ahead = run_of(hands.kitchen, batch).expected.forecast
    assert ahead is not None
    assert ahead.finish.low80 <= true <= ahead.finish.high80
    assert ahead.finish.median == pytest.approx(true, rel=0.1)


def test_weights_that_do_not_add_up_say_so_and_give_no_silly_curve() -> None:
    hands = Hands()
    batch = hands.start(1000.0)
    hands.wait(1)
    hands.insist(batch, 90)
    run = run_of(hands.kitchen, batch)
    assert run.verdict is not None
    assert run.verdict.name == "weights don't add up"


def test_two_readings_during_a_pause_count_once_the_last() -> None:
    hands = Hands()
    batch = hands.start(1000.0)
    hands.wait(2)
    add_event(hands.kitchen, batch, Happening(PAUSED))
    hands.weigh(batch, 700)
    hands.wait(1)
    hands.weigh(batch, 690)
    run = run_of(hands.kitchen, batch)
    assert run.curves is not None
    assert run.curves.hours == (0.0, 2.0)


def test_a_finished_batch_keeps_its_run_and_has_no_forecast() -> None:
    hands = Hands()
    batch = hands.start(1000.0)
    hands.dry(batch, (1, 2, 4, 6, 9))
    take_off(hands.kitchen, batch, CameOff(Mass(175.0, "175 g")))
    hands.wait(100)
    run = run_of(hands.kitchen, batch)
    assert run.hours == pytest.approx(9)
    assert run.expected.forecast is None
    assert run.curves is not None
    assert running(hands.kitchen) == ()


def test_a_finished_load_ends_with_its_dried_mass() -> None:
    hands = Hands()
    batch = hands.start(1000.0)
    hands.wait(9)
    take_off(hands.kitchen, batch, CameOff(Mass(175.0, "175 g"), felt="leathery"))
    run = run_of(hands.kitchen, batch)
    assert [(p.hours, p.net_g) for p in run.points] == [(0.0, 1000.0), (9.0, 175.0)]
    assert run.moisture is not None
    assert run.moisture.low < run.moisture.value < 20.0 < run.moisture.high
    assert run.verdict is not None
    assert run.verdict.name == "dry enough"


def test_running_batches_come_the_earliest_first_and_planned_ones_wait() -> None:
    hands = Hands(Batch("apple", state=PLANNED, id=50))
    first = hands.start()
    hands.wait(1)
    second = hands.start()
    assert [r.batch.id for r in running(hands.kitchen)] == [first, second]
    assert [b.id for b in planned(hands.kitchen)] == [50]


def test_a_batch_not_weighed_yet_has_its_load_and_a_wide_forecast() -> None:
    hands = Hands()
    batch = hands.start(1000.0)
    run = run_of(hands.kitchen, batch)
    assert run.net_g == 1000.0
    assert run.verdict is None
    assert run.last_weighed is None


def test_each_point_has_the_share_of_the_water_that_is_left() -> None:
    hands = Hands()
    batch = hands.start(1000.0)
    hands.wait(1)
    hands.weigh(batch, 570)
    hands.wait(4)
    take_off(hands.kitchen, batch, CameOff(Mass(226.0)))
    assert [p.mr for p in run_of(hands.kitchen, batch).points] == [1.0, pytest.approx(0.5), pytest.approx(0.1)]


@every_row(
    ("wanted", "ratio"), [(20.0, 0.25 / (86 / 14)), (0.5, (0.5 / 99.5) / (86 / 14)), (None, 0.25 / (86 / 14))]
)
def test_the_ratio_at_the_target_follows_from_its_moisture(wanted, ratio) -> None:
    hands = Hands()
    run = run_of(hands.kitchen, hands.start(1000.0, target_moisture_pct=wanted))
    assert run.target_ratio == pytest.approx(ratio)


def test_without_a_target_or_a_load_there_is_no_ratio_to_reach() -> None:
    hands = Hands()
    assert run_of(hands.kitchen, hands.start(1000.0, food="sorrel")).target_ratio is None
    assert run_of(hands.kitchen, hands.start(None)).target_ratio is None


@every_row(
    ("hours", "grams", "points"),
    [
        (0.0, 990, [(0.0, 990.0)]),
        (0.01, 990, [(0.01, 990.0)]),  # weighed as it went on: that is the start
        (0.1, 990, [(0.0, 1000.0), (0.1, 990.0)]),
    ],
)
def test_what_was_loaded_leads_the_run_where_it_was_not_weighed_as_it_went_on(hours, grams, points) -> None:
    hands = Hands()
    batch = hands.start(1000.0)
    hands.wait(hours)
    hands.weigh(batch, grams)
    found = [(p.hours, p.net_g) for p in run_of(hands.kitchen, batch).points]
    assert found == [(pytest.approx(h), g) for h, g in points]


@every_row(
    ("after", "ends"),
    [(0.0, 180.0), (0.01, 180.0), (0.5, 175.0)],
)
def test_a_dried_weight_ends_the_run_unless_it_is_the_last_weighing(after, ends) -> None:
    hands = Hands()
    batch = hands.start(1000.0)
    hands.wait(9)
    hands.weigh(batch, 180)
    hands.wait(after)
    take_off(hands.kitchen, batch, CameOff(Mass(175.0)))
    assert run_of(hands.kitchen, batch).points[-1].net_g == ends


def test_a_finished_sample_run_ends_with_its_sample_and_is_judged_by_the_whole_dried_load() -> None:
    hands = Hands()
    batch = hands.start(4000.0)
    for grams in (1000, 560, 300):
        hands.weigh(batch, grams, scope=SAMPLE)
        hands.wait(3)
    take_off(hands.kitchen, batch, CameOff(Mass(690.0), felt="leathery"))
    run = run_of(hands.kitchen, batch)
    assert [p.net_g for p in run.points] == [1000, 560, 300]
    assert run.verdict is not None
    assert run.verdict.name == "dry enough"
    assert not run.verdict.of_sample


def test_a_sample_weighed_within_a_quarter_of_an_hour_is_of_the_start() -> None:
    for late, said in ((0.25, 0), (0.3, 1)):
        hands = Hands()
        batch = hands.start(1000.0)
        hands.wait(late)
        hands.weigh(batch, 200, scope=SAMPLE)
        assert sum("after the start" in ask for ask in run_of(hands.kitchen, batch).asks) == said


@every_row(
    ("scopes", "followed"),
    [
        ((LOAD,), LOAD),
        ((SAMPLE,), SAMPLE),
        ((LOAD, SAMPLE), LOAD),
        ((LOAD, SAMPLE, SAMPLE), SAMPLE),
        ((TRAY, TRAY, LOAD), TRAY),
        ((TRAY, LOAD), LOAD),
        ((TRAY, TRAY, SAMPLE, SAMPLE), TRAY),
        ((), LOAD),
    ],
)
def test_a_run_follows_the_scale_that_is_read_more_often(scopes, followed) -> None:
    found = [Weighing(1, NOON, Mass(100.0), scope=s, vessel="tray 1" if s == TRAY else "") for s in scopes]
    assert scope_of(found) == followed


def test_of_single_trays_the_one_weighed_most_is_followed() -> None:
    found = [Weighing(1, NOON, Mass(100.0), scope=TRAY, vessel=v) for v in ("tray 1", "tray 2", "tray 2", "")]
    assert [w.vessel for w in same_scale(found, TRAY)] == ["tray 2", "tray 2"]
    assert same_scale(found, LOAD) == []
