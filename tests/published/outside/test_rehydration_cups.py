"""Cups of water to a cup dried, as the extension services print them, against the handbook's table."""

import pytest

from dryhouse.handbook.reader import handbook
from dryhouse.handbook.rehydration_table import published_water
from dryhouse.handbook.yield_table import published_yields
from dryhouse.science.units import SIZES


def test_a_cup_of_dried_onions_weighs_three_and_a_third_ounces():
    """Armed Forces Recipe Service card A-11 (read): 3-1/3 oz (1 cup) with 2-1/2 cups of water gives 13 oz."""
    (cup,) = [m for m in handbook().food("onion").measures_for("dried") if "A-11" in m.source]
    assert cup.density * SIZES["cup"] == pytest.approx(94.5, abs=0.1)
    (row,) = [r for r in published_water("onion") if "A-11" in r.basis.source]
    assert row.cups_per_cup == 2.5
    taken_up = 13 * SIZES["oz"] - 94.5
    assert taken_up < row.cups_per_cup * SIZES["cup"], "some of the water is left over"


def test_onions_eight_to_one():
    """Armed Forces card A-11: 20 lb prepared to 2 lb 8 oz; US Army QM6321: 8 lb to 1 (read)."""
    onions = [r for r in published_yields() if r.food == "onion" and r.comparable and r.prepared_g]
    ratios = [r.prepared_g / r.dried_g for r in onions]
    assert 8 in [round(ratio, 1) for ratio in ratios]
    assert all(7.7 < ratio < 9.1 for ratio in ratios)
