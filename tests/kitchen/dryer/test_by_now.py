"""What is weighed at this minute is the curve's value, not the last reading."""

from __future__ import annotations

import pytest

from dryhouse.kitchen.dryer.by_now import by_now_g, by_now_words
from dryhouse.kitchen.dryer.happenings import add_event
from dryhouse.kitchen.dryer.run_words import state_words
from dryhouse.kitchen.dryer.runs import run_of
from dryhouse.kitchen.records.weighings import PAUSED
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
    add_event(hands.kitchen, 1, PAUSED)
    hands.wait(3)
    run = run_of(hands.kitchen, 1)
    assert by_now_g(hands.kitchen, run) == run.net_g


def test_without_a_weight_it_says_so(hands) -> None:
    bare = Hands()
    batch = bare.start(None)
    assert by_now_words(bare.kitchen, run_of(bare.kitchen, batch), Style(METRIC)) == "Not weighed yet"
