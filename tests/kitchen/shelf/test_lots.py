"""Acts on a lot: they say what is wrong, change nothing then, and can be undone."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

import pytest

from dryhouse.kitchen.ports import Change
from dryhouse.kitchen.records import Lot, LotCheck, LotDraw, LotMove, Meal, MealPart
from dryhouse.kitchen.shelf.lots import (
    Found,
    check_lot,
    draw,
    edit_lot,
    lot_named,
    move,
    open_lot,
    remove_lot,
    remove_move,
    throw_out,
    weight_of,
)
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Mass, Volume
from dryhouse.words.dates import day_words
from tests.kitchen.shelf_room import CELLAR, FREEZER, NOW, TODAY, a_batch, a_shelf, packed


@pytest.fixture
def kitchen():
    return a_shelf(a_batch())


@pytest.fixture
def lot(kitchen):
    return packed(kitchen, place=CELLAR)


def test_a_lot_is_found_by_its_number(kitchen, lot):
    assert lot_named(kitchen, f"#{lot.id}") == lot
    with pytest.raises(InputProblem, match="There is no lot “9”"):
        lot_named(kitchen, "9")


def test_many_lots_move_at_once_and_back(kitchen, lot):
    kitchen.journal.write([Change(None, a_batch("apple", 2))])
    other = packed(kitchen, 2, CELLAR)
    done = move(kitchen, [lot.id, other.id], FREEZER)
    assert done.what == "Moved 2 lots to the freezer"
    kitchen.journal.write(done.undone().changes)
    assert len(kitchen.journal.where(LotMove)) == 2


@pytest.mark.parametrize(
    ("at", "sentence"),
    [(NOW - timedelta(days=60), "only packed on"), (NOW + timedelta(days=3), "not before")],
)
def test_a_move_before_packing_or_in_the_future_is_refused(kitchen, lot, at, sentence):
    with pytest.raises(InputProblem, match=sentence):
        move(kitchen, [lot.id], FREEZER, at)
    assert len(kitchen.journal.where(LotMove)) == 1


def test_a_move_needs_lots_and_a_place(kitchen, lot):
    with pytest.raises(InputProblem, match="Choose the lots"):
        move(kitchen, [], FREEZER)
    with pytest.raises(InputProblem, match="place is no longer"):
        move(kitchen, [lot.id], 99)
    with pytest.raises(InputProblem, match="lot is no longer"):
        move(kitchen, [99], FREEZER)


def test_a_move_entered_by_mistake_is_taken_back(kitchen, lot):
    made = move(kitchen, [lot.id], FREEZER).record
    remove_move(kitchen, made.id)
    assert [m.place for m in kitchen.journal.where(LotMove)] == [CELLAR]


def test_more_than_is_left_cannot_be_drawn(kitchen, lot):
    draw(kitchen, lot.id, Mass(200.0, "200 g"))
    with pytest.raises(InputProblem, match="Only 40 g is left"):
        draw(kitchen, lot.id, Mass(100.0, "100 g"))
    assert len(kitchen.journal.where(LotDraw)) == 1


def test_a_measure_weighs_what_the_lot_weighs(kitchen, lot):
    """240 g in 600 ml, as it was packed; once a part is gone the rest is no lighter."""
    kitchen.journal.kept[Lot][lot.id] = replace(lot, volume=Volume(600.0))
    assert weight_of(kitchen, lot.id, Volume(150.0)).si == pytest.approx(60.0)
    draw(kitchen, lot.id, Mass(120.0))
    assert weight_of(kitchen, lot.id, Volume(150.0)).si == pytest.approx(60.0)
    kitchen.journal.kept[Lot][lot.id] = replace(lot, mass=None, volume=None)
    with pytest.raises(InputProblem, match="by weight"):
        weight_of(kitchen, lot.id, Volume(150.0))


def test_draws_before_packing_in_the_future_or_for_no_purpose_are_refused(kitchen, lot):
    with pytest.raises(InputProblem, match=f"before it was packed, on {day_words(lot.packed_on)}"):
        draw(kitchen, lot.id, Mass(1.0), on=lot.packed_on - timedelta(days=1))
    with pytest.raises(InputProblem, match="still to come"):
        draw(kitchen, lot.id, Mass(1.0), on=TODAY + timedelta(days=2))
    with pytest.raises(InputProblem, match="one of cooked, given, thrown out"):
        draw(kitchen, lot.id, Mass(1.0), purpose="lost")


def test_a_check_must_have_found_something_and_weigh_no_more_than_was_packed(kitchen, lot):
    with pytest.raises(InputProblem, match="What was found"):
        check_lot(kitchen, lot.id, Found())
    with pytest.raises(InputProblem, match="Was the jar weighed along"):
        check_lot(kitchen, lot.id, Found(mass=Mass(900.0, "900 g")))
    assert kitchen.journal.where(LotCheck) == ()


def test_a_weighed_check_counts_from_its_day_on(kitchen, lot):
    draw(kitchen, lot.id, Mass(40.0), on=TODAY - timedelta(days=5))
    check_lot(kitchen, lot.id, Found(mass=Mass(150.0)), on=TODAY - timedelta(days=2))
    draw(kitchen, lot.id, Mass(50.0))
    with pytest.raises(InputProblem, match=r"Only 3\.5 oz"):
        draw(kitchen, lot.id, Mass(120.0))


def test_on_the_day_it_is_weighed_only_what_is_taken_afterwards_counts(kitchen, lot):
    draw(kitchen, lot.id, Mass(40.0))
    later = replace(kitchen, now=lambda: NOW + timedelta(minutes=10))
    check_lot(later, lot.id, Found(mass=Mass(150.0)))
    last = replace(kitchen, now=lambda: NOW + timedelta(minutes=20))
    draw(last, lot.id, Mass(50.0, "50 g"))
    with pytest.raises(InputProblem, match="Only 100 g is left"):
        draw(last, lot.id, Mass(120.0, "120 g"))
    draw(last, lot.id, Mass(10.0), on=TODAY - timedelta(days=1))
    assert [made.at for made in kitchen.journal.where(LotDraw)] == [NOW, NOW + timedelta(minutes=20), None]


def test_throwing_out_what_is_gone_is_refused(kitchen, lot):
    throw_out(kitchen, [lot.id])
    with pytest.raises(InputProblem, match="Nothing is left"):
        throw_out(kitchen, [lot.id])


def test_an_edit_is_checked(kitchen, lot):
    for after, field in (
        (replace(lot, package="basket"), "package"),
        (replace(lot, packed_on=TODAY + timedelta(days=9)), "packed_on"),
        (replace(lot, conditioned_to=TODAY), "conditioned_to"),
        (replace(lot, opened_on=lot.packed_on - timedelta(days=1)), "opened_on"),
    ):
        with pytest.raises(InputProblem) as problem:
            edit_lot(kitchen, after)
        assert problem.value.field == field
    assert edit_lot(kitchen, replace(lot, notes="from the south field")).record.notes == "from the south field"


def test_a_lot_is_removed_with_everything_of_it_and_comes_back_whole(kitchen, lot):
    open_lot(kitchen, lot.id)
    draw(kitchen, lot.id, Mass(10.0))
    check_lot(kitchen, lot.id, Found(moist=False))
    kitchen.journal.write([])
    meal = Meal("stew", id=1)
    part = MealPart(1, 1, "corn", "corn", lot=lot.id, id=1)
    from dryhouse.kitchen.ports import Change

    kitchen.journal.write([Change(None, meal), Change(None, part)])
    before = {kind: dict(rows) for kind, rows in kitchen.journal.kept.items()}
    done = remove_lot(kitchen, lot.id)
    assert kitchen.journal.where(Lot) == ()
    assert kitchen.journal.where(MealPart)[0].lot is None
    kitchen.journal.write(done.undone().changes)
    assert kitchen.journal.kept == before
