"""Packing a batch into jars and bags, and shelving bought food."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from dryhouse.kitchen.records import Batch, Lot, LotMove
from dryhouse.kitchen.shelf.packing import Package, pack, shelve, split, unpacked_g
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Mass
from tests.kitchen.shelf_room import CELLAR, FREEZER, PANTRY, TODAY, a_batch, a_shelf, shelf_line
from tests.rows import every_row


def batch_of(kitchen):
    return kitchen.journal.get(Batch, 1)


def test_three_jars_share_what_was_dried():
    kitchen = a_shelf(a_batch())
    jars = split(kitchen, batch_of(kitchen), 3, Package("jar", place=PANTRY))
    done = pack(kitchen, 1, jars)
    assert done.what.endswith("into 3 jars")
    lots = kitchen.journal.where(Lot)
    assert [lot.mass.si for lot in lots] == pytest.approx([80.0] * 3)
    assert [lot.volume.si for lot in lots] == pytest.approx([200.0] * 3)
    assert unpacked_g(kitchen, batch_of(kitchen)) == pytest.approx(0.0)


def test_jars_and_bags_in_different_places():
    kitchen = a_shelf(a_batch())
    done = pack(kitchen, 1, [Package("jar", Mass(100.0), place=CELLAR), Package("bag", Mass(140.0), place=FREEZER)])
    assert "1 jar, 1 bag" in done.what
    assert [shelf_line(kitchen, lot.id).place for lot in kitchen.journal.where(Lot)] == ["cellar", "freezer"]


def test_more_than_was_dried_is_refused_unless_it_is_meant():
    kitchen = a_shelf(a_batch())
    packages = [Package(mass=Mass(200.0)), Package(mass=Mass(200.0))]
    with pytest.raises(InputProblem, match="hold 400 g together, but 240 g"):
        pack(kitchen, 1, packages)
    assert kitchen.journal.where(Lot) == ()
    assert "more than was weighed dry" in pack(kitchen, 1, packages, more_than_dried=True).what


def test_what_is_packed_already_is_not_packed_again():
    kitchen = a_shelf(a_batch())
    pack(kitchen, 1, [Package(mass=Mass(200.0))])
    with pytest.raises(InputProblem, match="40 g of the dried batch"):
        pack(kitchen, 1, [Package(mass=Mass(100.0))])


def test_one_jar_without_a_mass_holds_the_rest():
    kitchen = a_shelf(a_batch())
    pack(kitchen, 1, [Package(mass=Mass(200.0))])
    assert pack(kitchen, 1, [Package()]).record.mass.si == pytest.approx(40.0)


def test_packing_is_undone_whole():
    kitchen = a_shelf(a_batch())
    done = pack(kitchen, 1, split(kitchen, batch_of(kitchen), 3, Package(place=PANTRY)))
    kitchen.journal.write(done.undone().changes)
    assert kitchen.journal.where(Lot) == ()
    assert kitchen.journal.where(LotMove) == ()


@every_row(
    ("packages", "more", "sentence"),
    [
        ([], {}, "at least one"),
        ([Package("basket")], {}, "no package here"),
        ([Package(place=9)], {}, "place is no longer"),
        ([Package()], {"packed_on": TODAY + timedelta(days=5)}, "still to come"),
        ([Package()], {"packed_on": date(2026, 1, 1)}, "before the batch"),
    ],
)
def test_what_cannot_be_right_is_refused(packages, more, sentence):
    kitchen = a_shelf(a_batch())
    with pytest.raises(InputProblem, match=sentence):
        pack(kitchen, 1, packages, **more)
    assert kitchen.journal.where(Lot) == ()


def test_a_batch_that_is_gone_and_a_silly_count_are_refused():
    kitchen = a_shelf(a_batch())
    with pytest.raises(InputProblem, match="batch is no longer"):
        pack(kitchen, 9, [Package()])
    with pytest.raises(InputProblem, match="between 1 and 200"):
        split(kitchen, batch_of(kitchen), 0)
    with pytest.raises(InputProblem, match="between 1 and 200"):
        split(kitchen, batch_of(kitchen), 201)
    assert len(split(kitchen, batch_of(kitchen), 200)) == 200


def test_bought_food_needs_its_printed_date():
    kitchen = a_shelf()
    with pytest.raises(InputProblem, match="Which date"):
        shelve(kitchen, "apple", Package("bag"), None)
    with pytest.raises(InputProblem, match="before the day"):
        shelve(kitchen, "apple", Package("bag"), TODAY - timedelta(days=1))
    done = shelve(kitchen, "apple", Package("bag", Mass(250.0), place=PANTRY), TODAY + timedelta(days=90))
    assert done.record.batch is None
    assert done.what == "Shelved apple"
