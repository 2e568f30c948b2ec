"""Every act, and every undo, goes through the one gate."""

from dataclasses import replace
from datetime import date

import pytest

from dryhouse.kitchen.batches.log import BatchDraft, log_batch
from dryhouse.kitchen.foods.own_foods import add_food
from dryhouse.kitchen.ports import Change, Pending
from dryhouse.kitchen.records import Batch, Lot, OwnFood
from dryhouse.kitchen.surroundings import Surroundings, judge
from dryhouse.science.errors import InputProblem
from tests.builders import NOW, a_kitchen

STEW = OwnFood("stew", "paddlers' stew", "mixed", contains="plant", id=1)


def test_no_act_leaves_a_record_that_cannot_be_right():
    kitchen = a_kitchen()
    pending = Pending()
    pending.add(Batch("corn", rating=99, id=1))
    with pytest.raises(InputProblem, match="1 to 5"):
        kitchen.commit("Logged", pending)
    assert kitchen.journal.where(Batch) == ()


def test_records_that_come_together_see_each_other():
    kitchen = a_kitchen()
    pending = Pending()
    pending.add(STEW, Batch("stew", id=1), Lot("stew", NOW.date(), batch=1, id=1))
    kitchen.commit("Logged", pending)
    assert kitchen.journal.get(Lot, 1).batch == 1


def test_a_fault_that_was_there_before_does_not_stand_in_the_way_of_another_entry():
    old = Batch("corn", rating=99, id=1)
    kitchen = a_kitchen(old)
    kitchen.write([Change(old, replace(old, notes="windy"))])
    assert kitchen.journal.get(Batch, 1).notes == "windy"
    with pytest.raises(InputProblem, match="at least one tray"):
        kitchen.write([Change(kitchen.journal.get(Batch, 1), replace(old, trays=0))])


def test_what_something_belongs_to_cannot_go_from_under_it():
    kitchen = a_kitchen(Batch("corn", id=1))
    lot = Lot("corn", date(2026, 8, 2), batch=1, id=1)
    gone = Change(kitchen.journal.get(Batch, 1), None)
    around = Surroundings(kitchen.journal, kitchen.handbook, kitchen.local)
    assert [p.field for p in judge([gone, Change(None, lot)], around)] == ["batch"]


def test_undo_does_not_take_an_own_food_from_under_a_batch_of_it():
    kitchen = a_kitchen()
    added = add_food(kitchen, "paddlers' stew", "mixed")
    logged = log_batch(kitchen, BatchDraft(Batch("paddlers-stew")))
    with pytest.raises(InputProblem, match="still recorded"):
        kitchen.write(added.undone().changes)
    kitchen.write(logged.undone().changes)
    kitchen.write(added.undone().changes)
    assert kitchen.journal.where(OwnFood) == ()
