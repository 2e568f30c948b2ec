"""A run in words: the clock of the person, both bands, what a pause does to them."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import timedelta
from zoneinfo import ZoneInfo

import pytest

from dryhouse.kitchen.dryer.by_now import now_words
from dryhouse.kitchen.dryer.drying import take_off
from dryhouse.kitchen.dryer.happenings import add_event
from dryhouse.kitchen.dryer.run_moments import clock_words, moment_of, rounded
from dryhouse.kitchen.dryer.run_words import (
    again_words,
    aside_words,
    bands_words,
    event_words,
    finish_moment,
    finish_words,
    how_words,
    last_words,
    likely_words,
    moisture_words,
    moved_words,
    paused_words,
    run_json,
    run_lines,
    state_words,
    weigh_again_moment,
)
from dryhouse.kitchen.dryer.runs import run_of
from dryhouse.kitchen.dryer.typed_happenings import Happening
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.records import BatchEvent
from dryhouse.kitchen.records.weighings import HEAT_CHANGED, MOVED, PAUSED, RESUMED, TRAY_OFF
from dryhouse.science.display import METRIC, Style
from dryhouse.science.quantities import Mass, Temperature
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
    add_event(hands.kitchen, batch, Happening(PAUSED))
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
    add_event(hands.kitchen, batch, Happening(HEAT_CHANGED, temperature=Temperature(68.0, "68 C")))
    run = run_of(hands.kitchen, batch)
    assert finish_moment(hands.kitchen, run) < as_it_was
    assert "68 °C" in read(run.expected.forecast.workings)


EVENT = BatchEvent(1, NOON, TRAY_OFF)


@every_row(
    ("event", "said"),
    [
        (EVENT, "tray taken off early"),
        (replace(EVENT, trays=1, note="tray 3", mass=Mass(88.0, "88 g")), "tray taken off early: tray 3, 88 g"),
        (replace(EVENT, trays=2), "tray taken off early: 2 trays"),
        (replace(EVENT, kind=MOVED, note="box dryer"), f"{MOVED}: to the box dryer"),
        (replace(EVENT, kind=HEAT_CHANGED, temperature=Temperature(57.0)), f"{HEAT_CHANGED}: 57 °C"),
    ],
)
def test_what_happened_is_told_with_what_was_noted_of_it(event, said) -> None:
    assert event_words(event, Style(METRIC)) == said


@every_row(
    ("grams", "more"),
    [
        (100.0, "; what is left is dry at 75 g on the scale."),
        (175.0, "."),
        (None, ", as the share of its trays: it was not weighed."),
    ],
)
def test_what_is_off_the_dryer_is_told_with_what_the_scale_shows_when_the_rest_is_dry(grams, more) -> None:
    hands = Hands()
    batch = hands.start(1000.0, start_moisture_pct=86.0, start_moisture_tested=True)
    add_event(hands.kitchen, batch, Happening(TRAY_OFF, trays=1, mass=Mass(grams) if grams is not None else None))
    hands.wait(0.5)
    run = run_of(hands.kitchen, batch)
    told = aside_words(hands.kitchen, run, Style(METRIC))
    off = 250 if grams is None else round(grams)
    assert told == f"{off} g of the load is off the dryer and counts with it{more}"
    assert told in list(run_lines(hands.kitchen, run, Style(METRIC)))


def test_with_everything_on_the_dryer_nothing_is_said_of_what_is_off_it(hands) -> None:
    assert aside_words(hands.kitchen, run_of(hands.kitchen, hands.start()), Style(METRIC)) == ""


@every_row(
    ("more", "said"),
    [
        ({}, "Started 12:00 in the shelf dryer, 4 trays, 57 °C"),
        ({"trays": None}, "Started 12:00 in the shelf dryer, 57 °C"),
        ({"dryer": None, "trays": 1}, "Started 12:00, 1 tray, 57 °C"),
        ({"set_temperature": None}, "Started 12:00 in the shelf dryer, 4 trays"),
    ],
)
def test_how_a_batch_is_dried_is_told_as_far_as_it_is_recorded(more, said) -> None:
    hands = Hands()
    run = run_of(hands.kitchen, hands.start())
    changed = replace(run, batch=replace(run.batch, **more), dryer=run.dryer if more.get("dryer", 1) else None)
    assert how_words(hands.kitchen, changed, Style(METRIC)) == said


def test_trays_that_were_moved_are_told_with_where_they_are(hands) -> None:
    run = run_of(hands.kitchen, hands.start())
    moves = (replace(EVENT, kind=MOVED, note="box dryer", trays=2), replace(EVENT, kind=MOVED, note="attic"), EVENT)
    assert moved_words(replace(run, events=moves)) == ["2 of them in the box dryer", "1 of them in the attic"]


def test_a_pause_that_is_over_is_told_by_its_length(hands) -> None:
    batch = hands.start()
    assert paused_words(hands.kitchen, run_of(hands.kitchen, batch)) == ""
    hands.wait(1)
    add_event(hands.kitchen, batch, Happening(PAUSED))
    hands.wait(1.5)
    add_event(hands.kitchen, batch, Happening(RESUMED))
    assert paused_words(hands.kitchen, run_of(hands.kitchen, batch)) == ", 1 h 30 min of pauses not counted"


def test_the_state_is_the_scale_s_while_it_was_read_just_now_and_the_curve_s_afterwards(hands) -> None:
    batch = hands.start()
    loaded = state_words(hands.kitchen, run_of(hands.kitchen, batch), Style(METRIC))
    assert loaded == "Loaded 1 kg, dry at 175 g. Moisture 86 %."
    hands.dry(batch, (1, 2, 4, 6))
    read_now = state_words(hands.kitchen, run_of(hands.kitchen, batch), Style(METRIC))
    assert read_now.startswith("Load 283 g at 18:00, dry at ")
    assert re.search(r"\. Moisture \d\d %", read_now)
    hands.wait(3)
    later = state_words(hands.kitchen, run_of(hands.kitchen, batch), Style(METRIC))
    assert later.startswith("Now about ")
    assert later.endswith("% moisture.")


def test_the_day_after_is_tomorrow_until_a_month_away_the_weekday_is_told(hands) -> None:
    for days, said in ((29, "Sat 12 Sep 12:00"), (30, "Sun 13 Sep 12:00"), (31, "2026-09-14"), (-31, "2026-07-14")):
        assert clock_words(hands.kitchen, NOON + timedelta(days=days)) == said


def test_a_finish_in_hours_beyond_a_year_stays_a_moment(hands) -> None:
    run = run_of(hands.kitchen, hands.start())
    assert moment_of(hands.kitchen, run, 5.0) == NOON + timedelta(hours=5)
    assert moment_of(hands.kitchen, run, 24.0 * 365) == NOON + timedelta(days=365)
    assert moment_of(hands.kitchen, run, 1e9) == NOON + timedelta(days=366)
