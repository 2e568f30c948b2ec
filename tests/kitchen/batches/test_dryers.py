"""The dryers of this kitchen."""

from dataclasses import replace

import pytest

from dryhouse.kitchen.batches.dryers import dryers, find_dryer, remove_dryer, save_dryer
from dryhouse.kitchen.records import Batch, Dryer
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Temperature
from tests.builders import a_kitchen
from tests.rows import every_row

SHELF, BOX = Dryer("Shelf dryer", 6, id=1), Dryer("Box dryer", 10, id=2)


def test_a_dryer_is_added_changed_and_found_by_the_start_of_its_name():
    kitchen = a_kitchen()
    added = save_dryer(kitchen, replace(SHELF, id=0)).record
    save_dryer(kitchen, replace(added, watts=600.0))
    assert find_dryer(kitchen, "shelf").watts == 600.0


def test_a_dryer_that_was_used_is_put_away_and_one_that_was_not_is_removed():
    kitchen = a_kitchen(SHELF, BOX, Batch("corn", dryer=1, id=1))
    remove_dryer(kitchen, 1)
    remove_dryer(kitchen, 2)
    assert dryers(kitchen) == ()
    assert [d.id for d in dryers(kitchen, retired=True)] == [1]


@every_row(
    "wrong",
    [
        replace(SHELF, id=0, name=" "),
        replace(SHELF, id=0),
        replace(BOX, id=0, name="Other", trays=0),
        replace(BOX, id=0, name="Other", temperature_low=Temperature(70), temperature_high=Temperature(35)),
    ],
)
def test_a_dryer_that_cannot_be_is_refused(wrong):
    with pytest.raises(InputProblem):
        save_dryer(a_kitchen(SHELF), wrong)


def test_a_name_that_fits_two_dryers_or_none_is_asked_about():
    with pytest.raises(InputProblem, match="Shelf dryer, Box dryer"):
        find_dryer(a_kitchen(SHELF, BOX), "oven")


def test_each_act_on_a_dryer_is_told_and_changes_that_one():
    kitchen = a_kitchen(SHELF, BOX, Batch("corn", dryer=2, id=1))
    added = save_dryer(kitchen, Dryer("Attic dryer", 3, id=0))
    assert (added.what, added.record) == ("Added the dryer Attic dryer", Dryer("Attic dryer", 3, id=3))
    renamed = save_dryer(kitchen, replace(SHELF, name="SHELF dryer"))
    assert (renamed.what, renamed.record) == ("Changed the dryer SHELF dryer", replace(SHELF, name="SHELF dryer"))
    assert remove_dryer(kitchen, 3).what == "Removed the dryer Attic dryer"
    put_away = remove_dryer(kitchen, 2)
    assert put_away.what == "Archived the dryer Box dryer; its batches keep it"
    assert put_away.record == replace(BOX, retired=True)
    assert [d.id for d in dryers(kitchen)] == [1]
    assert save_dryer(kitchen, Dryer("box dryer", 4)).record.id == 4, "the name of one that was put away is free"
    for gone in (3, 9):
        with pytest.raises(InputProblem, match="dryer is no longer here"):
            remove_dryer(kitchen, gone)


@every_row(
    ("text", "found"),
    [("1", 1), ("7", 7), ("shelf", 1), ("dryer shelf", 1), (" BOX  dryer ", 2), ("2", None), ("dryer", None),
     ("", None), ("oven", None)],
)  # fmt: skip
def test_a_dryer_is_meant_by_its_number_its_name_or_words_that_only_it_has(text, found):
    kitchen = a_kitchen(SHELF, BOX, Dryer("2", 3, id=7))
    if found is not None:
        assert find_dryer(kitchen, text).id == found
        return
    fit = {"2": "Box dryer, 2", "dryer": "Shelf dryer, Box dryer"}.get(text, "Shelf dryer, Box dryer, 2")
    with pytest.raises(InputProblem) as refused:
        find_dryer(kitchen, text)
    assert (refused.value.said, refused.value.field) == (f"“{text}” is not one of your dryers ({fit}).", "dryer")


def test_where_there_is_no_dryer_yet_that_is_said():
    with pytest.raises(InputProblem, match=r"“oven” is not one of your dryers \(none yet\)"):
        find_dryer(a_kitchen(), "oven")
