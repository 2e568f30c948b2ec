"""Conditioning: due, running, looked at daily, done."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

import pytest

from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.ports import Change
from dryhouse.kitchen.records import Lot, LotCheck, LotDraw
from dryhouse.kitchen.shelf.book import ShelfBook
from dryhouse.kitchen.shelf.conditioning import (
    conditioning,
    conditioning_of,
    conditioning_words,
    days_needed,
    end_conditioning,
    one_in_words,
    pasteurise,
    start_conditioning,
    treatments,
)
from dryhouse.kitchen.shelf.lots import Found, check_lot
from dryhouse.science.errors import InputProblem
from dryhouse.words.dates import day_words
from tests.kitchen.shelf_room import CELLAR, TODAY, a_batch, a_shelf, packed
from tests.rows import every_row


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
    check_lot(kitchen, lot.id, Found(moist=False))
    assert conditioning(kitchen)[0].looked_today
    check_lot(kitchen, lot.id, Found(moist=True))
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
    said = kitchen.journal.get(Lot, lot.id).pasteurised
    assert "48 hours" in said
    assert said.endswith(day_words(TODAY))
    with pytest.raises(InputProblem, match="How was it done"):
        pasteurise(kitchen, lot.id, " ")


def test_each_lot_says_how_far_it_has_come_and_what_is_to_be_done(kitchen, lot):
    def said(ago=None, ended=None):
        days = {"conditioned_from": ago, "conditioned_to": ended}
        dated = {name: None if back is None else TODAY - timedelta(days=back) for name, back in days.items()}
        found = conditioning_of(ShelfBook.read(kitchen), replace(lot, **dated), TODAY)
        return one_in_words(found)

    assert said() == "Not conditioned yet; needs 10 days"
    assert said(3) == "Conditioning, day 4 of 10: shake and look at it today"
    assert said(10) == "Conditioned 10 days, long enough: mark it as finished"
    assert said(1, 0) == f"Conditioned 1 day from {day_words(TODAY - timedelta(days=1))}; needs 10"
    assert said(12, 0) == f"Conditioned 12 days from {day_words(TODAY - timedelta(days=12))}"
    check_lot(kitchen, lot.id, Found(moist=False))
    assert said(3).endswith("looked at today")
    check_lot(kitchen, lot.id, Found(moist=True))
    assert said(3) == "Conditioning, day 4: it was found moist and goes back in the dryer"


def test_bought_fruit_and_food_that_is_no_fruit_are_not_conditioned(kitchen, lot):
    book = ShelfBook.read(kitchen)
    assert conditioning_of(book, replace(lot, food="corn"), TODAY) is None
    assert conditioning_of(book, replace(lot, batch=None, bought_keep_by=TODAY, origin="bought"), TODAY) is None


def test_what_conditioning_asks_for_today_is_said(kitchen, lot):
    assert conditioning_words(kitchen) == f"Needs conditioning: lot {lot.id}."
    start_conditioning(kitchen, lot.id, TODAY - timedelta(days=3))
    assert conditioning_words(kitchen) == f"Shake and look at today: lot {lot.id} (day 4 of 10)."
    check_lot(kitchen, lot.id, Found(moist=False))
    assert conditioning_words(kitchen) == ""
    start_conditioning(kitchen, lot.id, TODAY - timedelta(days=11))
    assert conditioning_words(kitchen) == f"Conditioned long enough, mark as finished: lot {lot.id}."


def jars(*begun: int | None, looked: tuple[int, ...] = ()) -> Kitchen:
    """A jar of apple for each, begun so many days ago (None: not yet); those looked at today by their number."""
    days = [TODAY - timedelta(days=n) if n is not None else None for n in begun]
    packed_on = TODAY - timedelta(days=30)
    lots = [Lot("apple", packed_on, conditioned_from=day, id=i) for i, day in enumerate(days, 1)]
    return a_shelf(*lots, *(LotCheck(i, TODAY, moist=False, id=i) for i in looked))


@every_row(
    ("begun", "looked", "said"),
    [
        ((), (), ""),
        ((None,), (), "Needs conditioning: lot 1."),
        ((0,), (), "Shake and look at today: lot 1 (day 1 of 10)."),
        ((9,), (), "Shake and look at today: lot 1 (day 10 of 10)."),
        ((9,), (1,), ""),
        ((10,), (), "Conditioned long enough, mark as finished: lot 1."),
        ((10,), (1,), "Conditioned long enough, mark as finished: lot 1."),
        (
            (3, None, 12),
            (),
            "Shake and look at today: lot 1 (day 4 of 10). Conditioned long enough, mark as finished: lot 3. "
            "Needs conditioning: lot 2.",
        ),
        ((None,) * 4, (), "Needs conditioning: lot 1, lot 2, lot 3, lot 4."),
        ((None,) * 6, (), "Needs conditioning: lot 1, lot 2, lot 3, lot 4 and 2 more."),
    ],
)
def test_what_conditioning_asks_for_is_said_in_a_line(begun, looked, said):
    assert conditioning_words(jars(*begun, looked=looked)) == said


@every_row(
    ("begun", "ended", "said"),
    [
        (None, None, "Not conditioned yet; needs 10 days"),
        (0, None, "Conditioning, day 1 of 10: shake and look at it today"),
        (9, None, "Conditioning, day 10 of 10: shake and look at it today"),
        (10, None, "Conditioned 10 days, long enough: mark it as finished"),
        (1, 0, f"Conditioned 1 day from {day_words(TODAY - timedelta(days=1))}; needs 10"),
        (9, 0, f"Conditioned 9 days from {day_words(TODAY - timedelta(days=9))}; needs 10"),
        (10, 0, f"Conditioned 10 days from {day_words(TODAY - timedelta(days=10))}"),
    ],
)
def test_how_far_one_jar_has_come_is_said_in_a_sentence(begun, ended, said):
    days = [TODAY - timedelta(days=n) if n is not None else None for n in (begun, ended)]
    lot = Lot("apple", TODAY - timedelta(days=30), conditioned_from=days[0], conditioned_to=days[1], id=1)
    kitchen = a_shelf(lot)
    assert one_in_words(conditioning_of(ShelfBook.read(kitchen), lot, TODAY)) == said


def test_it_cannot_end_before_it_began_and_may_end_the_day_it_did():
    kitchen = jars(3)
    with pytest.raises(InputProblem, match="ends after it began"):
        end_conditioning(kitchen, 1, TODAY - timedelta(days=4))
    assert end_conditioning(kitchen, 1, TODAY - timedelta(days=3)).what.endswith("after 0 days of 10")
    assert " after " not in end_conditioning(jars(10), 1).what


def test_what_was_moist_before_conditioning_began_is_not_found_by_it():
    lot = Lot("apple", TODAY - timedelta(days=30), conditioned_from=TODAY - timedelta(days=3), id=1)
    for days, state in ((4, "running"), (3, "moist"), (0, "moist")):
        kitchen = a_shelf(lot, LotCheck(1, TODAY - timedelta(days=days), moist=True, id=1))
        assert conditioning(kitchen)[0].state == state


def test_what_runs_longest_stands_first_and_what_has_not_begun_last():
    kitchen = jars(None, 0, 3, None, 3)
    assert [(one.lot.id, one.day) for one in conditioning(kitchen)] == [(3, 4), (5, 4), (2, 1), (1, 0), (4, 0)]
    kitchen.journal.write([Change(None, LotDraw(3, TODAY, id=1))])
    assert [one.lot.id for one in conditioning(kitchen)] == [5, 2, 1, 4]
    assert [one.day for one in conditioning(kitchen, TODAY - timedelta(days=2))] == [2, 2, 0, 0, 0]
