"""A reading heavier than the load: said, with what could explain it, and no part of the forecast."""

from __future__ import annotations

from dataclasses import replace

import pytest

from dryhouse.kitchen.dryer.drying import weighings_of
from dryhouse.kitchen.dryer.run_words import run_lines
from dryhouse.kitchen.dryer.runs import run_of
from dryhouse.kitchen.ports import Change
from dryhouse.kitchen.records.weighings import SAMPLE
from dryhouse.science.display import METRIC, Style
from dryhouse.words.verdicts import verdict_sentence
from tests.kitchen.drying_room import Hands


def test_a_reading_heavier_than_the_load_is_said_with_what_could_explain_it() -> None:
    hands = Hands()
    batch = hands.start(1000.0)
    hands.wait(1)
    hands.insist(batch, 1400.0)
    run = run_of(hands.kitchen, batch)
    assert run.verdict is not None
    assert run.verdict.name == "weights don't add up"
    assert "tare of at least 400 g" in verdict_sentence(run.verdict, Style(METRIC))
    assert "unit" in verdict_sentence(run.verdict, Style(METRIC))
    hands.wait(1)
    hands.weigh(batch, 800.0)
    later = run_of(hands.kitchen, batch)
    assert later.verdict is not None
    assert later.verdict.name == "still moist"
    assert any("One weighing is more than" in said and "tare" in said for said in later.asks)


def test_a_heavy_reading_is_said_where_the_food_says_nothing_of_its_moisture() -> None:
    hands = Hands()
    batch = hands.start(500.0, food="sorrel")
    hands.wait(1)
    hands.weigh(batch, 900.0)
    run = run_of(hands.kitchen, batch)
    assert run.verdict is None
    assert any("Weights don't add up" in said for said in run.asks)


def test_a_sample_tray_heavier_than_the_whole_load_may_be_the_load() -> None:
    hands = Hands()
    batch = hands.start(1000.0)
    hands.wait(1)
    hands.weigh(batch, 1200.0, scope=SAMPLE)
    assert any("not the sample tray" in said for said in run_of(hands.kitchen, batch).asks)


def test_a_load_no_heavier_than_it_was_is_not_remarked_on() -> None:
    hands = Hands()
    batch = hands.start(1000.0)
    hands.wait(1)
    hands.weigh(batch, 1000.5)
    assert not any("add up" in said for said in run_of(hands.kitchen, batch).asks)


def test_a_reading_heavier_than_the_load_neither_makes_nor_bends_a_forecast() -> None:
    hands, clean = Hands(), Hands()
    batch, other = hands.start(1000.0), clean.start(1000.0)
    hands.wait(1)
    hands.insist(batch, 1600.0)
    run = run_of(hands.kitchen, batch)
    assert run.expected.forecast is None
    assert "more than was loaded" in run.expected.why_none
    clean.wait(1)
    for hours, grams in ((1.0, 700.0), (1.0, 560.0), (1.0, 450.0)):
        for room, number in ((hands, batch), (clean, other)):
            room.wait(hours)
            room.weigh(number, grams)
    with_it, without = run_of(hands.kitchen, batch).expected, run_of(clean.kitchen, other).expected
    assert with_it.forecast is not None
    assert without.forecast is not None
    assert with_it.forecast.finish.median == pytest.approx(without.forecast.finish.median)


def test_weights_that_do_not_add_up_are_said_without_a_moisture_and_as_the_scale_reads() -> None:
    hands = Hands()
    batch = hands.start(1000.0)
    hands.wait(1)
    hands.insist(batch, 1400.0)
    lines = list(run_lines(hands.kitchen, run_of(hands.kitchen, batch), Style()))
    assert not any(line.startswith("Moisture") for line in lines)
    assert any("1.4 kg is more than the 1 kg that was loaded" in line for line in lines)


def test_a_heavy_reading_is_one_more_than_a_gram_above_the_load_and_the_first_of_several_is_told() -> None:
    hands = Hands()
    batch = hands.start(500.0, food="sorrel")
    for grams in (501.0, 501.5, 900.0, 700.0):
        hands.wait(1)
        hands.weigh(batch, grams, keep=True)
    hands.journal.write(Change(w, replace(w, left_out=False)) for w in weighings_of(hands.kitchen, batch))
    (said,) = [ask for ask in run_of(hands.kitchen, batch).asks if "add up" in ask]
    assert "3 weighings are more than the 1 lb 1.6 oz that was loaded (first 1 lb 1.7 oz, Fri 14 Aug 14:00)" in said
