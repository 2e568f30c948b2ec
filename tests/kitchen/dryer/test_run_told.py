"""Every figure of a run as JSON has it, and what is told where little is known."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

import pytest

from dryhouse.kitchen.dryer.run_words import (
    again_words,
    last_words,
    likely_words,
    run_json,
    run_lines,
    state_words,
)
from dryhouse.kitchen.dryer.runs import planned, run_of
from dryhouse.kitchen.records import Batch
from dryhouse.kitchen.records.batches import PLANNED
from dryhouse.kitchen.records.weighings import SAMPLE
from dryhouse.science.display import METRIC, Style
from dryhouse.science.quantities import Temperature
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
