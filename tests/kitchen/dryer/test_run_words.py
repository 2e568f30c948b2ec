"""A run in words: the clock of the person, both bands, what a pause does to them."""

from __future__ import annotations

import re
from datetime import timedelta
from zoneinfo import ZoneInfo

import pytest

from dryhouse.kitchen.dryer.by_now import now_words
from dryhouse.kitchen.dryer.drying import take_off
from dryhouse.kitchen.dryer.happenings import add_event
from dryhouse.kitchen.dryer.run_moments import clock_words, rounded
from dryhouse.kitchen.dryer.run_words import (
    again_words,
    bands_words,
    finish_moment,
    finish_words,
    last_words,
    likely_words,
    moisture_words,
    run_json,
    run_lines,
    weigh_again_moment,
)
from dryhouse.kitchen.dryer.runs import run_of
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.records.weighings import HEAT_CHANGED, PAUSED
from dryhouse.science.display import METRIC, Style
from dryhouse.science.quantities import Temperature
from tests.kitchen.drying_room import NOON, Hands
from tests.rows import every_row
from tests.workings import read


@pytest.fixture
def hands() -> Hands:
    return Hands()


@pytest.mark.parametrize(
    ("hours", "said"),
    [
        (2, "14:00"),
        (14, "tomorrow 02:00"),
        (-13, "yesterday 23:00"),
        (50, "Sun 16 Aug 14:00"),
        (2000, "2026-11-05"),
    ],
)
def test_moments_are_said_as_people_say_them(hands, hours, said) -> None:
    assert clock_words(hands.kitchen, NOON + timedelta(hours=hours)) == said


@every_row(
    ("at", "minutes", "told"),
    [
        ("15:47", 15, "15:45"),
        ("15:47", 30, "16:00"),
        ("23:53", 15, "tomorrow 00:00"),
        ("12:05", 15, "12:15"),
    ],
)
def test_what_is_to_come_is_never_rounded_into_the_past(at, minutes, told) -> None:
    kitchen = Hands().kitchen
    hour, minute = (int(part) for part in at.split(":"))
    assert clock_words(kitchen, rounded(kitchen, NOON.replace(hour=hour, minute=minute), minutes)) == told


def test_what_has_gone_by_is_never_rounded_into_what_is_to_come(hands) -> None:
    hands.wait(9 / 60)
    assert clock_words(hands.kitchen, rounded(hands.kitchen, NOON + timedelta(minutes=8), 15)) == "12:00"


def test_moments_are_on_the_persons_own_clock(hands) -> None:
    away = Kitchen(hands.journal, hands.kitchen.handbook, now=lambda: NOON, zone=ZoneInfo("America/Chicago"))
    assert clock_words(away, NOON) == "07:00"


def test_a_run_says_its_moisture_and_both_bands(hands) -> None:
    batch = hands.start()
    hands.dry(batch, (1, 2, 4, 6))
    run = run_of(hands.kitchen, batch)
    assert run.moisture.low < 50.5 < run.moisture.high, "by the table's dry matter"
    assert moisture_words(run, Style(METRIC)) == f"{run.moisture.value:.0f} %"
    assert finish_words(hands.kitchen, run).startswith("Dry about ")
    assert bands_words(hands.kitchen, run).startswith("Even odds: between ")
    assert "80 %: between " in bands_words(hands.kitchen, run)
    band = run.expected.forecast.finish
    likely = likely_words(hands.kitchen, run)
    assert re.fullmatch(r"Likely \S.* to \S.*\.", likely)
    hands.wait((band.low80 + band.high80) / 2 - run.hours)
    assert likely_words(hands.kitchen, run) == f"Likely by {likely.partition(' to ')[2]}", "what has begun is past"
    said = list(run_lines(hands.kitchen, run, Style(METRIC)))
    assert said[0] == "On the dryer for 6 h"
    in_ounces = " ".join(run_lines(hands.kitchen, run, Style()))
    assert "g of water still to go" in in_ounces, "weighed in grams, answered in grams"
    assert "oz" not in in_ounces
    assert "g of water still to go" in run_json(hands.kitchen, run)["sentence"]
    assert said[1] == f"Load 283 g at 18:00, dry at {run.target_mass.value:.0f} g"


def test_a_finish_that_should_have_come_asks_for_a_weighing(hands) -> None:
    batch = hands.start()
    hands.dry(batch, (1, 2, 4, 6))
    hands.wait(40)
    run = run_of(hands.kitchen, batch)
    assert finish_words(hands.kitchen, run).startswith("Likely dry since about ")
    assert again_words(hands.kitchen, run) == "Weigh now."


def test_a_load_at_its_target_says_when_it_got_there(hands) -> None:
    batch = hands.start()
    hands.dry(batch, (1, 2, 4, 6, 8, 10, 12))
    run = run_of(hands.kitchen, batch)
    assert finish_words(hands.kitchen, run).startswith("The target weight was reached about ")
    assert weigh_again_moment(hands.kitchen, run) is None
    assert bands_words(hands.kitchen, run) == ""


def test_a_load_that_still_falls_at_its_usual_target_is_not_done(hands) -> None:
    """It falls past the table's 175 g at full speed, so it holds less dry matter: its own target lies below."""
    batch = hands.start()
    for grams in (700, 480, 330, 235, 174):
        hands.wait(2)
        hands.weigh(batch, grams)
    run = run_of(hands.kitchen, batch)
    assert run.verdict.probability < 0.5
    assert run.expected.forecast.target_g == pytest.approx(run.target_mass.value)
    assert run.target_mass.value < 170
    assert finish_words(hands.kitchen, run).startswith("Dry about ")
    assert weigh_again_moment(hands.kitchen, run) > hands.time


def test_a_single_reading_at_the_usual_target_is_taken_again(hands) -> None:
    batch = hands.start()
    hands.wait(10)
    hands.weigh(batch, 174.9)
    run = run_of(hands.kitchen, batch)
    assert run.verdict.probability < 0.5
    said = finish_words(hands.kitchen, run)
    assert said.startswith("The usual target weight was reached about ")
    assert "weigh again" in said


def test_a_pause_moves_the_finish_by_its_length(hands) -> None:
    batch = hands.start()
    hands.dry(batch, (1, 2, 4, 6))
    before = finish_moment(hands.kitchen, run_of(hands.kitchen, batch))
    add_event(hands.kitchen, batch, PAUSED)
    hands.wait(5)
    after = finish_moment(hands.kitchen, run_of(hands.kitchen, batch))
    assert before is not None
    assert after is not None
    assert (after - before) / timedelta(hours=1) == pytest.approx(5, abs=0.01)
    said = list(run_lines(hands.kitchen, run_of(hands.kitchen, batch), Style(METRIC)))
    assert said[0] == "On the dryer for 6 h, paused since 18:00"


def test_what_is_not_known_is_said_and_null_in_json(hands) -> None:
    batch = hands.start(1000.0, food="sorrel")
    run = run_of(hands.kitchen, batch)
    assert moisture_words(run, Style()) == "not known"
    assert finish_words(hands.kitchen, run).startswith("No forecast yet: ")
    said = run_json(hands.kitchen, run)
    assert said["value"] is None
    assert said["finish"] is None
    assert said["finish_at"] is None
    assert said["asks"]


def test_a_finished_batch_has_no_finish_ahead(hands) -> None:
    batch = hands.start()
    hands.dry(batch, (1, 2, 4, 6))
    take_off(hands.kitchen, batch)
    said = " ".join(run_lines(hands.kitchen, run_of(hands.kitchen, batch), Style(METRIC)))
    assert "Dry about" not in said


def test_hours_after_a_weighing_now_is_what_the_curve_says_and_the_reading_keeps_its_time(hands) -> None:
    batch = hands.start()
    hands.dry(batch, (1, 2, 4, 6))
    assert now_words(hands.kitchen, run_of(hands.kitchen, batch), Style(METRIC)) == ""
    hands.wait(3)
    run = run_of(hands.kitchen, batch)
    said = now_words(hands.kitchen, run, Style(METRIC))
    assert said.startswith("Now about ")
    now = run_json(hands.kitchen, run)["now"]
    assert now["low"] < now["value"] < now["high"] < 283, "lighter than it was three hours ago"
    assert now["last_weighed"] == run.last_weighed.isoformat()
    assert last_words(hands.kitchen, run, Style(METRIC)).startswith("Load 283 g at 18:00, dry at ")


def test_a_dryer_turned_up_on_the_way_is_done_sooner_and_the_workings_say_so(hands) -> None:
    batch = hands.start()
    hands.dry(batch, (1, 2, 4))
    as_it_was = finish_moment(hands.kitchen, run_of(hands.kitchen, batch))
    add_event(hands.kitchen, batch, HEAT_CHANGED, temperature=Temperature(68.0, "68 C"))
    run = run_of(hands.kitchen, batch)
    assert finish_moment(hands.kitchen, run) < as_it_was
    assert "68 °C" in read(run.expected.forecast.workings)
