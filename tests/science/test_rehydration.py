"""What left on the tray has to return."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dryhouse.science.rehydration import in_cups, water_to_restore
from dryhouse.science.values import Basis, Figure

OWN = (Basis("own", "", 3),)


@given(st.floats(1, 5000), st.floats(0.04, 0.95))
def test_dried_and_water_weigh_what_the_fresh_did(dried, ratio):
    water = water_to_restore(dried, Figure(ratio, "", basis=OWN))
    assert dried + water.value == pytest.approx(dried / ratio)
    assert water.measure.unit == "cup"
    assert water.basis == OWN


def test_a_higher_yield_means_less_water_so_the_interval_turns_round():
    water = water_to_restore(100, Figure(0.2, "", low=0.16, high=0.25, basis=OWN))
    assert (water.low, water.value, water.high) == pytest.approx((300, 400, 525))


def test_a_volume_in_cups_keeps_its_interval_where_it_has_one():
    cups = in_cups(473.176473, 236.5882365, 709.7647095)
    assert (cups.value, cups.low, cups.high) == pytest.approx((2, 1, 3))
    assert (in_cups(100.0).low, in_cups(100.0).high) == (None, None)
