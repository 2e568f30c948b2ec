"""Every figure of a run as JSON has it, and what is told where little is known."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

import pytest

from dryhouse.kitchen.dryer.drying import take_off
from dryhouse.kitchen.dryer.happenings import add_event
from dryhouse.kitchen.dryer.questions import Asked, answer
from dryhouse.kitchen.dryer.run_words import (
    again_words,
    finish_words,
    judged_words,
    last_words,
    likely_words,
    run_json,
    run_lines,
    state_words,
)
from dryhouse.kitchen.dryer.runs import planned, run_of, scope_of
from dryhouse.kitchen.dryer.typed_happenings import Happening
from dryhouse.kitchen.dryer.whole_load import Round
from dryhouse.kitchen.records import Batch, Weighing
from dryhouse.kitchen.records.batches import PLANNED
from dryhouse.kitchen.records.weighings import LOAD, PAUSED, RESUMED, SAMPLE, TRAY, TRAY_OFF
from dryhouse.science.display import METRIC, Style
from dryhouse.science.quantities import Mass, Temperature
from dryhouse.science.values import Fact
from dryhouse.words.messages import message_words
from tests.kitchen.drying_room import NOON, Hands
from tests.rows import every_row

GRAMS = Style(METRIC)


def test_json_has_each_figure_of_the_run() -> None:
    hands = Hands()
    batch = hands.start(1000.0)
    hands.wait(6)
    hands.weigh(batch, 280)
    told = run_json(hands.kitchen, run_of(hands.kitchen, batch))
    # 140 g of dry matter: half of 280 g is water; dry at 140 g ÷ 0.8
    figures = {"target_mass": (175.0, "g"), "moisture_dry_basis": (1.0, "g/g"), "moisture_ratio": (140 / 860, "")}
    for name, (value, unit) in figures.items():
        assert (told[name]["value"], told[name]["unit"]) == (pytest.approx(value), unit), name
    assert (told["value"], told["unit"]) == (pytest.approx(50.0), "%")
    assert told["moisture"]["value"] == told["value"]
    plain = ("food", "state", "scope", "hours", "mass", "verdict", "chosen", "water_activity", "slow_day", "asks")
    assert [told[name] for name in plain] == [
        "apple", "drying", "load", 6.0, 280.0, "still moist", None, None, None, [],
    ]  # fmt: skip
    assert told["dry_enough_probability"] == pytest.approx(0.0, abs=1e-4)
    assert told["now"] == {
        "value": 280.0, "low": None, "high": None, "unit": "g", "last_weighed": "2026-08-14T18:00:00+00:00",
    }  # fmt: skip


def test_a_slow_day_is_told_in_lines_and_in_json() -> None:
    hands = Hands()
    damp = {"kitchen_temperature": Temperature(34.0), "kitchen_humidity_pct": 99.0}
    run = run_of(hands.kitchen, hands.start(1000.0, **damp))
    said = message_words(run.expected.slow_day, GRAMS)
    assert said in list(run_lines(hands.kitchen, run, GRAMS))
    assert "relative humidity" in run_json(hands.kitchen, run)["slow_day"]


def test_of_a_batch_without_a_weight_nothing_is_told_but_that() -> None:
    hands = Hands()
    run = run_of(hands.kitchen, hands.start(None))
    assert last_words(hands.kitchen, run, GRAMS) == "Not weighed yet"
    assert state_words(hands.kitchen, run, GRAMS) == "Not weighed yet."
    assert (likely_words(hands.kitchen, run), again_words(hands.kitchen, run)) == ("", "")
    lines = list(run_lines(hands.kitchen, run, GRAMS))
    assert lines[:2] == ["On the dryer for 0 min", lines[1]]
    assert lines[1].startswith("No forecast yet: ")


@every_row(
    ("food", "grams", "told"),
    [
        ("sorrel", 700, "Load 700 g at 13:00."),  # nothing is known of its water
        ("apple", 90, "Load 90 g at 13:00, dry at 108 g."),  # weights that don't add up have no moisture
    ],
)
def test_a_moisture_that_is_not_known_is_not_told(food, grams, told) -> None:
    hands = Hands()
    batch = hands.start(1000.0, food=food)
    hands.wait(1)
    hands.insist(batch, grams) if food == "apple" else hands.weigh(batch, grams)
    assert state_words(hands.kitchen, run_of(hands.kitchen, batch), GRAMS) == told


def test_the_moisture_by_the_curve_is_told_in_whole_percent() -> None:
    hands = Hands()
    batch = hands.start(1000.0)
    hands.dry(batch, (1, 2, 4, 6))
    hands.wait(3)
    # 140 g of dry matter and 52 g of water at nine hours, give or take
    assert state_words(hands.kitchen, run_of(hands.kitchen, batch), GRAMS).endswith(". 30 % moisture.")


def test_the_hours_of_a_sample_tray_count_from_its_first_weighing() -> None:
    hands = Hands()
    batch = hands.start(4000.0)
    for hour, grams in ((2, 1000), (3, 800), (4, 640)):
        hands.time = NOON + timedelta(hours=hour)
        hands.weigh(batch, grams, scope=SAMPLE)
    run = run_of(hands.kitchen, batch)
    early = 2 + run.expected.forecast.finish.low80
    for hours, begun in ((early - 0.1, False), (early + 0.1, True)):
        hands.time = NOON + timedelta(hours=hours)
        assert likely_words(hands.kitchen, run).startswith("Likely by ") is begun


@every_row(
    ("target", "ratio"),
    [(Fact(0.0, "%", "hers"), 0.0), (Fact(99.0, "%", "hers"), 99 / (86 / 14)), (Fact(100.0, "%", "hers"), None),
     (None, None)],
)  # fmt: skip
def test_a_target_of_nothing_but_water_is_never_reached(target, ratio) -> None:
    hands = Hands()
    run = replace(run_of(hands.kitchen, hands.start(1000.0)), target=target)
    assert run.target_ratio == (None if ratio is None else pytest.approx(ratio))
    assert replace(run, load=None).target_ratio is None


def test_of_planned_batches_the_one_planned_first_comes_first() -> None:
    hands = Hands(*(Batch("apple", state=PLANNED, id=n) for n in (51, 50, 52)))
    hands.start()
    assert [b.id for b in planned(hands.kitchen)] == [50, 51, 52]


def test_a_batch_without_a_start_runs_from_its_first_weighing() -> None:
    ended = NOON + timedelta(hours=9)
    old = Batch("apple", ended=ended, dried_mass=Mass(170.0), id=9)
    read = [Weighing(9, NOON + timedelta(hours=h), Mass(g), id=h) for h, g in ((1, 1000.0), (5, 400.0))]
    run = run_of(Hands(old, *read).kitchen, 9)
    assert (run.clock.started, run.hours) == (NOON + timedelta(hours=1), 8.0)
    assert [(p.hours, p.net_g) for p in run.points] == [(0.0, 1000.0), (4.0, 400.0), (8.0, 170.0)]
    assert (run.load.grams, run.verdict.on_dryer, run.verdict.of_sample) == (1000.0, False, False)


def test_what_was_off_before_the_first_weighing_is_part_of_the_load() -> None:
    hands = Hands()
    batch = hands.start(None)
    hands.wait(1)
    add_event(hands.kitchen, batch, Happening(TRAY_OFF, trays=1, mass=Mass(200.0)))
    hands.wait(1)
    hands.weigh(batch, 800)
    run = run_of(hands.kitchen, batch)
    assert [(p.hours, p.net_g, p.mr) for p in run.points] == [(0.0, 1000.0, 1.0), (2.0, 1000.0, 1.0)]
    assert run.load.grams == 1000.0
    assert run.verdict.on_dryer


def test_that_it_was_running_is_remembered_of_a_sample_tray_weighed_from_later_on() -> None:
    hands = Hands()
    batch = hands.start(4000.0)
    for hour, grams in ((2, 1000), (3, 800), (4, 640), (5, 520), (8, 519)):
        hands.time = NOON + timedelta(hours=hour)
        hands.weigh(batch, grams, scope=SAMPLE)
    (stop,) = run_of(hands.kitchen, batch).expected.forecast.stops
    assert stop == (3.0, 6.0)
    answer(hands.kitchen, batch, Asked.STOP, False)
    assert run_of(hands.kitchen, batch).expected.forecast.stops == ()


@every_row(
    ("sample", "load", "trays", "rounds", "followed"),
    [
        (2, 0, 8, 2, LOAD),
        (3, 0, 8, 2, SAMPLE),
        (3, 1, 8, 2, LOAD),
        (0, 0, 2, 0, TRAY),
        (2, 0, 2, 0, TRAY),
        (3, 0, 2, 0, SAMPLE),
        (0, 2, 2, 0, LOAD),
    ],
)
def test_a_round_of_trays_counts_as_one_reading_of_the_load(sample, load, trays, rounds, followed) -> None:
    scopes = [SAMPLE] * sample + [LOAD] * load
    read = [Weighing(1, NOON, Mass(100.0), scope=scope) for scope in scopes]
    read += [Weighing(1, NOON, Mass(100.0), scope=TRAY, vessel="tray 1") for _ in range(trays)]
    assert scope_of(read, [Round(NOON, 400.0, 4)] * rounds) == followed


def test_what_was_dry_before_it_went_on_is_told_while_it_dries_and_not_afterwards() -> None:
    hands = Hands()
    batch = hands.start(1000.0, start_moisture_pct=20.5)
    said = [ask for ask in run_of(hands.kitchen, batch).asks if "already" in ask]
    assert len(said) == 1
    hands.wait(1)
    take_off(hands.kitchen, batch)
    assert not any("already" in ask for ask in run_of(hands.kitchen, batch).asks)


def test_each_line_of_a_run_that_dries() -> None:
    hands = Hands()
    batch = hands.start(1000.0, start_moisture_pct=86.0, start_moisture_tested=True)
    hands.wait(6)
    hands.weigh(batch, 280)
    hands.weigh(batch, 95, at=hands.time - timedelta(hours=1), keep=True)
    run = run_of(hands.kitchen, batch)
    lines = list(run_lines(hands.kitchen, run, GRAMS))
    assert lines[:2] == ["On the dryer for 6 h", "Load 280 g at 18:00, dry at 175 g"]
    assert lines[2] == judged_words(run, GRAMS)
    assert lines[3] == finish_words(hands.kitchen, run)
    assert lines[4] == again_words(hands.kitchen, run)
    assert lines[-1] == "1 weighing left out of the curve."
    hands.wait(1)
    off = hands.start(1000.0)
    take_off(hands.kitchen, off)
    assert next(run_lines(hands.kitchen, run_of(hands.kitchen, off), GRAMS)) == "On the dryer for 0 min"


def test_half_an_hour_of_pause_is_told() -> None:
    hands = Hands()
    batch = hands.start(1000.0)
    for kind in (PAUSED, RESUMED):
        add_event(hands.kitchen, batch, Happening(kind))
        hands.wait(0.5)
    told = next(run_lines(hands.kitchen, run_of(hands.kitchen, batch), GRAMS))
    assert told == "On the dryer for 30 min, 30 min of pauses not counted"
