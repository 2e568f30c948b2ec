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
