"""What is weighed at this minute is the curve's value, not the last reading."""

from __future__ import annotations

import math
from datetime import timedelta

import pytest

from dryhouse.kitchen.dryer.by_now import by_now_g, by_now_words, now_json, now_words
from dryhouse.kitchen.dryer.drying import take_off
from dryhouse.kitchen.dryer.happenings import add_event
from dryhouse.kitchen.dryer.run_words import state_words
from dryhouse.kitchen.dryer.runs import run_of
from dryhouse.kitchen.dryer.typed_happenings import Happening
from dryhouse.kitchen.records.weighings import PAUSED, SAMPLE
from dryhouse.science.display import METRIC, Style
from tests.kitchen.drying_room import Hands


@pytest.fixture
def hands() -> Hands:
    hands = Hands()
    hands.dry(hands.start(), (1, 2, 3, 4))
    return hands


def test_hours_after_the_last_reading_the_weight_now_lies_below_it_and_above_the_dry_matter(hands) -> None:
    run = run_of(hands.kitchen, 1)
    assert by_now_g(hands.kitchen, run) == run.net_g
    hands.wait(3)
    later = by_now_g(hands.kitchen, run)
    assert 140 < later < run.net_g - 50
    for said in (by_now_words, state_words):
        assert said(hands.kitchen, run, Style(METRIC)).startswith(f"Now about {round(later, -1):.0f} g, dry at ")
    assert state_words(hands.kitchen, run, Style(METRIC)).endswith(" % moisture.")


def test_while_it_is_paused_nothing_gets_lighter(hands) -> None:
    add_event(hands.kitchen, 1, Happening(PAUSED))
    hands.wait(3)
    run = run_of(hands.kitchen, 1)
    assert by_now_g(hands.kitchen, run) == run.net_g


def test_without_a_weight_it_says_so(hands) -> None:
    bare = Hands()
    batch = bare.start(None)
    assert by_now_words(bare.kitchen, run_of(bare.kitchen, batch), Style(METRIC)) == "Not weighed yet"


def test_in_json_it_is_the_mass_with_its_middle_80_percent_and_when_the_scale_was_read(hands) -> None:
    read = {"unit": "g", "last_weighed": hands.time.isoformat()}
    run = run_of(hands.kitchen, 1)
    assert now_json(hands.kitchen, run) == {"value": run.net_g, "low": None, "high": None, **read}
    hands.wait(3)
    now = now_json(hands.kitchen, run)
    truth = 140 + 860 * math.exp(-0.25 * 7**1.1)  # along the curve it was weighed on
    assert now == {"value": pytest.approx(truth, rel=0.02), "low": now["low"], "high": now["high"], **read}
    assert 0.9 * truth < now["low"] < now["value"] < now["high"] < 1.1 * truth
    assert by_now_g(hands.kitchen, run) == now["value"]
    take_off(hands.kitchen, 1)
    assert now_json(hands.kitchen, run_of(hands.kitchen, 1)) is None
    bare = Hands()
    assert now_json(bare.kitchen, run_of(bare.kitchen, bare.start(None))) is None


def test_a_reading_stands_for_now_for_six_minutes() -> None:
    hands = Hands()
    run = run_of(hands.kitchen, hands.start())
    hands.wait(0.0999)
    assert by_now_words(hands.kitchen, run, Style(METRIC)) == "Now 1 kg, dry at 175 g"
    assert now_words(hands.kitchen, run, Style(METRIC)) == ""
    assert now_json(hands.kitchen, run)["low"] is None
    hands.time = run.clock.started
    hands.wait(0.1)
    assert by_now_words(hands.kitchen, run, Style(METRIC)).startswith("Now about ")
    assert now_words(hands.kitchen, run, Style(METRIC)).startswith("Now about ")
    assert now_json(hands.kitchen, run)["low"] < 1000


def test_a_load_that_reached_its_target_is_what_the_scale_said() -> None:
    hands = Hands()
    hands.dry(hands.start(), (1, 2, 4, 6, 8, 10, 12))
    run = run_of(hands.kitchen, 1)
    assert run.expected.forecast.reached_at is not None
    hands.wait(3)
    assert by_now_g(hands.kitchen, run) == run.net_g
    assert now_words(hands.kitchen, run, Style(METRIC)) == ""
    assert now_json(hands.kitchen, run)["low"] is None
    unknown = Hands()
    batch = unknown.start(food="sorrel")
    unknown.wait(3)
    assert by_now_g(unknown.kitchen, run_of(unknown.kitchen, batch)) == 1000
    assert now_words(unknown.kitchen, run_of(unknown.kitchen, batch), Style(METRIC)) == ""


def test_the_hours_of_a_sample_tray_count_from_its_first_weighing() -> None:
    hands = Hands()
    batch, begun = hands.start(4000.0), hands.time
    for hour in (0, 1, 2, 3, 4):
        hands.time = begun + timedelta(hours=2 + hour)
        hands.weigh(batch, round(140 + 860 * math.exp(-0.25 * hour**1.1)), scope=SAMPLE)
    run = run_of(hands.kitchen, batch)
    hands.wait(3)
    assert by_now_g(hands.kitchen, run) == pytest.approx(140 + 860 * math.exp(-0.25 * 7**1.1), rel=0.02)
