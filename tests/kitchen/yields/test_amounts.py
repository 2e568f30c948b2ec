"""What an amount of prepared food means at the market and on the trays."""

from dataclasses import replace

import pytest

from dryhouse.kitchen.records import Batch, Dryer
from dryhouse.kitchen.yields.amounts import as_purchased, trays_for
from dryhouse.kitchen.yields.knowledge import learn
from dryhouse.science.quantities import Mass
from dryhouse.science.values import Basis, Figure
from tests.builders import CORN, a_kitchen
from tests.workings import read

SHELF = Dryer("shelf dryer", 6, id=1)
PREPARED = Figure(3600.0, "g", 3000.0, 4200.0, basis=(Basis("own", "batches", 3),))


@pytest.fixture
def known():
    kitchen = a_kitchen(
        SHELF, Batch("corn", prepared_mass=Mass(1800.0), dried_mass=Mass(450.0), dryer=1, trays=6, id=1)
    )
    return learn(kitchen, CORN)


def test_refuse_is_bought_and_not_dried(known):
    bought = as_purchased(known, PREPARED)
    # 64 % refuse: 3600 ÷ 0.36
    assert (bought.value, bought.low, bought.high) == pytest.approx((10000.0, 3000 / 0.36, 4200 / 0.36))
    assert "3600 g ÷ (1 − 64 % refuse) = 10000 g" in read(bought.workings)
    assert {b.kind for b in bought.basis} == {"own", "handbook"}


def test_without_a_refuse_figure_nothing_is_said_of_the_market(known):
    assert as_purchased(replace(known, refuse=None), PREPARED) is None


def test_trays_and_loads_for_the_middle_and_for_the_upper_end(known):
    (trays,) = trays_for(known, PREPARED)
    assert (trays.trays.value, trays.trays.low, trays.trays.high) == pytest.approx((12.0, 10.0, 14.0))
    assert (trays.dryer, trays.batches, trays.batches_high) == (SHELF, 2, 3)


def test_a_handful_is_a_load_all_the_same(known):
    (trays,) = trays_for(known, Figure(10.0, "g"))
    assert (trays.batches, trays.batches_high, trays.trays.high) == (1, 1, None)
