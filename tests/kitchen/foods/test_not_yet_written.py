"""A food of her own and the first batch of it are written together."""

import pytest

from dryhouse.kitchen.foods.catalog import food
from dryhouse.kitchen.foods.not_yet_written import with_food
from dryhouse.kitchen.ports import Change
from dryhouse.kitchen.records import Batch, OwnFood
from dryhouse.science.errors import InputProblem, WorldProblem
from tests.builders import a_kitchen

CHILI = OwnFood("venison-chili", "venison chili", "mixed", contains="meat", id=1)


def test_the_food_is_known_before_it_is_written_and_goes_to_the_file_with_the_batch():
    kitchen = a_kitchen()
    known = with_food(kitchen, CHILI)
    assert food(known, "venison chili").animal
    with pytest.raises(InputProblem):
        food(kitchen, "venison chili")
    known.journal.write([Change(None, Batch("venison-chili", id=1))])
    assert kitchen.journal.where(OwnFood) == (CHILI,)
    assert known.journal.where(OwnFood) == (CHILI,)
    known.journal.write([Change(None, Batch("venison-chili", id=2))])
    assert [b.id for b in kitchen.journal.where(Batch)] == [1, 2]


def test_where_the_batch_cannot_be_written_neither_is_the_food():
    kitchen = a_kitchen()
    before = Batch("corn", id=7)
    with pytest.raises(WorldProblem):
        with_food(kitchen, CHILI).journal.write([Change(before, before)])
    assert kitchen.journal.where(OwnFood) == ()


def test_what_can_be_no_food_of_hers_is_refused_before_anything_is_written():
    kitchen = a_kitchen()
    with pytest.raises(InputProblem):
        with_food(kitchen, OwnFood("venison-chili", " ", "mixed", contains="meat", id=1))


def test_it_is_found_by_what_it_is_asked_by_and_among_no_other_kind():
    known = with_food(a_kitchen(), CHILI).journal
    assert known.where(OwnFood, slug="venison-chili") == (CHILI,)
    assert known.where(OwnFood, slug="corn-chili") == known.where(Batch) == ()
