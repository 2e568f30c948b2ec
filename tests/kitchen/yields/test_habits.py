"""Tray loads and hours: her own where she has any, the handbook's where not, nothing where neither."""

from dataclasses import replace
from itertools import count

import pytest

from dryhouse.kitchen.ports import YieldPair
from dryhouse.kitchen.records import Dryer
from dryhouse.kitchen.yields.habits import hours_for, tray_loads
from dryhouse.science.quantities import Area
from dryhouse.science.workings import StepKind
from tests.builders import CORN, a_kitchen, fact
from tests.rows import every_row
from tests.workings import read

SHELF, BOX = Dryer("shelf dryer", 6, Area(1000.0), id=1), Dryer("box dryer", 10, id=2)
NUMBERS = count(1)


def pair(**more):
    return YieldPair(next(NUMBERS), "corn", "", "", **{"prepared_g": 1200.0, "dried_g": 300.0, **more})


LOADED = replace(CORN, facts={**CORN.facts, "tray_load": fact(3.0, "kg/m2"), "drying_hours": fact(8, "h")})


def test_her_own_loads_of_that_dryer_by_their_middle():
    pairs = [pair(dryer=1, trays=t) for t in (4, 6, 3)]
    (load,) = tray_loads(a_kitchen(SHELF, BOX), CORN, pairs)
    assert (load.dryer, load.grams, load.basis.n) == (SHELF, 300.0, 3)
    assert load.basis.kind == "own"


def test_the_handbooks_load_on_the_trays_area_where_the_area_is_recorded():
    (load,) = tray_loads(a_kitchen(SHELF, BOX), LOADED, [])
    # 3 kg/m² on 1000 cm²
    assert load.grams == pytest.approx(300.0)
    assert "0.3 g/cm² × 1000 cm² = 300 g a tray" in read((load.step,))
    assert load.basis.kind == "handbook"


def test_without_either_no_load_is_made_up():
    assert tray_loads(a_kitchen(SHELF, BOX), CORN, [pair(dryer=2)]) == ()


def test_hours_are_her_runs_with_an_interval_from_three_on():
    two = hours_for(LOADED, [pair(hours=8.0), pair(hours=8.0)])
    assert (two.value, two.low, two.high) == (pytest.approx(8.0), None, None)
    assert "fewer than 3" in read(two.workings)
    four = hours_for(LOADED, [pair(hours=h) for h in (6.0, 8.0, 9.0, 12.0)])
    assert four.value == pytest.approx((6 * 8 * 9 * 12) ** 0.25)
    assert four.low < four.value < four.high
    assert four.basis[0].n == 4


def test_hours_are_the_handbooks_until_then_and_none_where_none_are_published():
    printed = hours_for(LOADED, [pair()])
    assert (printed.value, printed.basis[0].kind) == (8.0, "handbook")
    assert hours_for(CORN, [pair()]) is None


@every_row(("loads", "grams"), [((300.0,), 300.0), ((200.0, 300.0), 250.0), ((100.0, 300.0, 320.0, 400.0), 310.0)])
def test_the_middle_load_of_a_tray_lies_between_the_two_middle_ones(loads, grams):
    pairs = [pair(dryer=1, trays=4, prepared_g=4 * each) for each in loads]
    (load,) = tray_loads(a_kitchen(SHELF), CORN, [*pairs, pair(dryer=1), pair(dryer=1, trays=0)])
    assert (load.grams, load.basis.n) == (grams, len(loads))


def test_her_own_loads_come_before_the_handbooks_dryer_by_dryer():
    found = tray_loads(a_kitchen(SHELF, replace(BOX, tray_area=Area(2000.0))), LOADED, [pair(dryer=1, trays=3)])
    assert [(load.dryer.id, load.grams, load.basis.kind) for load in found] == [
        (1, 400.0, "own"), (2, pytest.approx(600.0), "handbook"),
    ]  # fmt: skip


def test_runs_without_hours_count_for_nothing():
    found = hours_for(LOADED, [pair(hours=0.0), pair(hours=None), pair(hours=6.0), pair(hours=0.5)])
    assert (found.value, found.basis[0].n) == (pytest.approx(3.0**0.5), 2)
    three = hours_for(LOADED, [pair(hours=h) for h in (6.0, 8.0, 9.0)])
    assert three.low < three.value < three.high


def test_a_published_range_of_hours_is_told_with_them():
    ranged = replace(LOADED, facts={**LOADED.facts, "drying_hours": fact(8, "h", low=6.0, high=12.0)})
    one, both = hours_for(LOADED, []), hours_for(ranged, [])
    assert (one.low, one.high, both.low, both.high) == (None, None, 6.0, 12.0)
    kinds = [figure.workings[0].kind for figure in (one, both)]
    assert kinds == [StepKind.PUBLISHED_HOURS_ONE, StepKind.PUBLISHED_HOURS_RANGE]
