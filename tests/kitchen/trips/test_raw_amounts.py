"""What food weighs before it is cooked."""

import pytest

from dryhouse.handbook.reader import handbook
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.records import Batch
from dryhouse.kitchen.trips.raw_amounts import before_cooking, own_cooking
from dryhouse.science.quantities import Mass
from dryhouse.science.values import Figure
from tests.builders import NOW
from tests.fakes import FakeJournal
from tests.workings import read

COOKED = Figure(1000.0, "g", low=900.0, high=1100.0)


def batch(id, food, raw, cooked):
    return Batch(food, cooked_mass_in=Mass(raw), cooked_mass_out=Mass(cooked), dried_mass=Mass(100.0), id=id)


def a_kitchen(*records):
    return Kitchen(FakeJournal(*records), handbook(), lambda: NOW)


def test_her_own_pot_comes_before_the_published_yield():
    kitchen = a_kitchen(batch(1, "lentil", 500, 1000), batch(2, "lentil", 500, 1100), batch(3, "lentil", 500, 1500))
    own = own_cooking(kitchen, handbook().food("lentil"))
    assert (own.value, own.low, own.high, own.n) == (2.2, 2.0, 3.0, 3)
    raw = before_cooking("lentil", COOKED, own)
    assert raw.value == pytest.approx(1000 / 2.2)
    assert (raw.basis[0].kind, raw.basis[0].n) == ("own", 3)
    assert raw.low == pytest.approx(900 / 3.0)
    assert raw.high == pytest.approx(1100 / 2.0)


def test_without_own_weights_the_published_yield_answers_and_names_its_source():
    kitchen = a_kitchen(Batch("lentil", cooked_mass_in=Mass(500.0), id=1))
    assert own_cooking(kitchen, handbook().food("lentil")) is None
    raw = before_cooking("lentil", COOKED)
    assert raw.basis[0].kind == "handbook"
    assert "Dietary Studies" in read(raw.workings)


def test_the_weights_of_food_that_is_not_published_cooked_say_nothing_of_it():
    assert own_cooking(a_kitchen(batch(1, "carrot", 500, 480)), handbook().food("carrot")) is None


def test_where_nothing_is_known_nothing_is_made_up():
    assert before_cooking("polenta", COOKED) is None
    assert before_cooking("lentil", None) is None
