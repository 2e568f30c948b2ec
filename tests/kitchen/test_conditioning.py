"""Conditioning: due, running, looked at daily, done."""

from __future__ import annotations

from datetime import timedelta

import pytest

from dryhouse.kitchen.conditioning import (
    conditioning,
    conditioning_words,
    days_needed,
    end_conditioning,
    pasteurise,
    start_conditioning,
    treatments,
)
from dryhouse.kitchen.lots import check_lot
from dryhouse.kitchen.records import Lot
from dryhouse.science.errors import InputProblem
from tests.kitchen.shelf_room import CELLAR, TODAY, a_batch, a_shelf, packed


@pytest.fixture
def kitchen():
    return a_shelf(a_batch("apple"), a_batch("corn", 2))


@pytest.fixture
def lot(kitchen):
    packed(kitchen, 2, CELLAR)
    return packed(kitchen, 1, CELLAR)


def test_fruit_is_due_and_vegetables_are_not(kitchen, lot):
    assert [(c.lot.id, c.state) for c in conditioning(kitchen)] == [(lot.id, "due")]


def test_it_runs_ten_days_with_a_look_each_day(kitchen, lot):
    start_conditioning(kitchen, lot.id, TODAY - timedelta(days=3))
    (running,) = conditioning(kitchen)
    assert (running.state, running.day, running.days_needed, running.looked_today) == ("running", 4, 10, False)
    assert running.ends_on == TODAY + timedelta(days=7)
    check_lot(kitchen, lot.id, moist=False)
    assert conditioning(kitchen)[0].looked_today
    check_lot(kitchen, lot.id, moist=True)
    assert conditioning(kitchen)[0].state == "moist"


def test_ended_early_is_too_short_and_ten_days_is_done(kitchen, lot):
    start_conditioning(kitchen, lot.id, TODAY - timedelta(days=4))
    assert end_conditioning(kitchen, lot.id).what.endswith("after 4 days of 10")
    assert conditioning(kitchen)[0].state == "too short"
    start_conditioning(kitchen, lot.id, TODAY - timedelta(days=days_needed()))
    end_conditioning(kitchen, lot.id)
    assert conditioning(kitchen) == ()


def test_ending_what_has_not_begun_is_refused(kitchen, lot):
    with pytest.raises(InputProblem, match="has not begun"):
        end_conditioning(kitchen, lot.id)
    start_conditioning(kitchen, lot.id)
    with pytest.raises(InputProblem, match="after it began"):
        end_conditioning(kitchen, lot.id, TODAY - timedelta(days=1))


def test_a_treatment_against_insects_is_recorded_in_words(kitchen, lot):
    pasteurise(kitchen, lot.id, treatments()[0].words)
    assert "48 hours" in kitchen.journal.get(Lot, lot.id).pasteurised
    with pytest.raises(InputProblem, match="How was it done"):
        pasteurise(kitchen, lot.id, " ")


def test_what_conditioning_asks_for_today_is_said(kitchen, lot):
    assert conditioning_words(kitchen) == f"Dried fruit that waits for its conditioning: lot {lot.id}."
    start_conditioning(kitchen, lot.id, TODAY - timedelta(days=3))
    assert conditioning_words(kitchen) == f"Shake and look at today: lot {lot.id} (day 4 of 10)."
    check_lot(kitchen, lot.id, moist=False)
    assert conditioning_words(kitchen) == ""
    start_conditioning(kitchen, lot.id, TODAY - timedelta(days=11))
    assert conditioning_words(kitchen) == f"Conditioned long enough, to be ended: lot {lot.id}."
