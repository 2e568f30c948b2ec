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
from tests.rows import every_row

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


@every_row(
    ("own", "animal"),
    [
        (OwnFood("mine", "mine", "other", contains="plant", id=1), False),
        (OwnFood("mine", "mine", "other", contains="plant", like="corn", id=1), False),
        (OwnFood("mine", "mine", "other", contains="plant", like="turkey", id=1), True),
        (OwnFood("mine", "mine", "other", contains="plant;fish", id=1), True),
        (OwnFood("mine", "mine", "other", contains="egg", like="corn", id=1), True),
        (OwnFood("mine", "mine", "other", id=1), True),  # nobody has said what is in it
        (OwnFood("mine", "mine", "other", contains="unknown", id=1), True),
    ],
)
def test_a_food_of_her_own_is_from_an_animal_unless_she_said_plants_and_it_is_like_none(own, animal):
    around = a_kitchen(own).around()
    assert around.is_animal("mine") is animal


def test_foods_of_the_handbook_and_of_the_pantry_are_from_an_animal_as_their_tables_say():
    around = a_kitchen().around()
    told = {
        slug: around.is_animal(slug) for slug in ("turkey", "corn", "hard-cheese", "pasta-elbows", "unheard-of")
    }
    assert told == {
        "turkey": True, "corn": False, "hard-cheese": True, "pasta-elbows": False, "unheard-of": False,
    }  # fmt: skip


def test_a_food_that_goes_is_no_longer_known_to_what_comes_with_its_going():
    around = a_kitchen(STEW).around()
    assert around.food_known("stew")
    around.going([STEW])
    assert not around.food_known("stew")
    assert around.get(OwnFood, 1) is None
    kitchen = a_kitchen(STEW)
    faults = judge([Change(STEW, None), Change(None, Batch("stew", id=1))], kitchen.around())
    assert [fault.field for fault in faults] == ["food"]
