"""What goes back into dried food: its published share, and never more than what left on the tray."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dryhouse.science.messages import MessageKind, message
from dryhouse.science.rehydration import Correction, TakesUp, in_cups, lost_water
from dryhouse.science.values import Basis, Fact, Figure
from dryhouse.science.workings import StepKind as Kind
from tests.workings import read

OWN = (Basis("own", "", 3),)
TENFOLD = Figure(0.1, "", low=0.08, high=0.125, basis=OWN)
SHARE = Fact(4.0, "g/g", "a table", low=3.0, high=5.0)


@given(st.floats(1, 5000), st.floats(0.04, 0.95))
def test_dried_and_lost_water_weigh_what_the_fresh_did(dried, ratio):
    water = lost_water(dried, Figure(ratio, "", basis=OWN))
    assert dried + water.value == pytest.approx(dried / ratio)
    assert water.measure.unit == "cup"
    assert water.basis == OWN


def test_a_higher_yield_means_less_was_lost_so_the_interval_turns_round():
    water = lost_water(100, Figure(0.2, "", low=0.16, high=0.25, basis=OWN))
    assert (water.low, water.value, water.high) == pytest.approx((300, 400, 525))


def test_dried_food_takes_up_its_published_share_and_not_all_that_it_lost():
    water = TakesUp(SHARE, TENFOLD).water(50)
    assert (water.low, water.value, water.high) == pytest.approx((150, 200, 250))
    assert water.measure.value == pytest.approx(200 / 236.5882365)
    assert water.basis == (Basis("handbook", "a table"), *OWN)


def test_no_more_goes_back_than_was_lost():
    half = Figure(0.4, "", low=0.35, high=0.45, basis=OWN)
    water = TakesUp(SHARE, half).water(100)
    assert water.value == pytest.approx(150)
    assert (water.low, water.high) == pytest.approx((100 * (1 / 0.45 - 1), 100 * (1 / 0.35 - 1)))
    assert water.workings[-1].kind == Kind.NO_MORE_THAN_LOST
    assert OWN[0] in water.basis


def test_where_no_share_is_published_it_is_what_was_lost_and_where_nothing_is_known_nothing():
    assert TakesUp(None, TENFOLD).water(10).value == pytest.approx(90)
    assert TakesUp(None, None).water(10) is None
    assert TakesUp(SHARE, None).water(10).value == pytest.approx(40)
    assert read(TakesUp(None, TENFOLD).water(10).workings) == (
        "Fresh it weighed 10 g ÷ 0.1 = 100 g\nIt lost 100 g − 10 g = 90 g; at 1 g/ml that is 90 ml"
    )
    assert read(TakesUp(SHARE, None).water(10).workings) == (
        "It takes up 10 g × 4 g/g; at 1 g/ml that is 40 ml   [a table]"
    )
    noted = Fact(4.0, "g/g", "a table", low=3.0, high=5.0, note="slices")
    assert read(TakesUp(noted, None).water(10).workings).endswith("[a table; slices]")


def test_a_food_that_lost_nothing_takes_nothing_back():
    assert lost_water(10, Figure(1.0, "")).value == 0.0
    assert lost_water(10, Figure(1.2, "")).value == 0.0
    one_sided = lost_water(100, Figure(0.2, "", low=0.16))
    assert (one_sided.low, one_sided.high, one_sided.measure.low) == (None, None, None)


def test_notes_correct_the_share_with_its_interval():
    taught = Correction(1.2, 3, 1.0, "leek")
    water = TakesUp(SHARE, TENFOLD, taught).water(10)
    assert (water.low, water.value, water.high) == pytest.approx((36, 48, 60))
    assert water.basis[0] == Basis("own", n=3, said=message(MessageKind.COOKING_NOTES, what="leek"))
    assert TakesUp(SHARE, TENFOLD, Correction(9.0, 3, 1.0)).water(10).value == pytest.approx(90)


@given(st.floats(0.1, 3000), st.floats(0.03, 0.9), st.floats(0.5, 6), st.floats(0.3, 3))
def test_the_water_lies_in_its_interval_and_below_what_was_lost(dried, ratio, share, factor):
    known = TakesUp(
        Fact(share, "g/g", "a table", low=share * 0.75, high=share * 1.25),
        Figure(ratio, "", low=ratio * 0.9, high=min(1.0, ratio * 1.1)),
        Correction(factor, 1, 1.0),
    )
    water = known.water(dried)
    assert 0 <= water.low <= water.value <= water.high
    assert water.value <= dried * (1 / ratio - 1) + 1e-9


def test_a_volume_in_cups_keeps_its_interval_where_it_has_one():
    cups = in_cups(473.176473, 236.5882365, 709.7647095)
    assert (cups.value, cups.low, cups.high) == pytest.approx((2, 1, 3))
    assert (in_cups(100.0).low, in_cups(100.0).high) == (None, None)
