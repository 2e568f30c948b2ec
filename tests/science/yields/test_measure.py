"""What a cup weighs: her own volumes before the handbook's, each with its uncertainty."""

import math

import pytest

from dryhouse.science.display import Style
from dryhouse.science.values import Basis, Fact
from dryhouse.science.yields.measure import PublishedDensity, density
from tests.workings import read, rests_on

CUP = 236.5882365
SPREAD = Fact(0.186, "ln", "spread of cups", "computed", n=39)


def cup(grams, what=""):
    return PublishedDensity(grams / CUP, what, "USDA", Basis("handbook", "USDA"))


def test_no_measure_is_no_density():
    assert density("dried", [], SPREAD, []) is None


def test_one_published_cup():
    # USDA Standard Reference 28, 11167: 1 cup of raw sweet corn is 145 g
    known = density("fresh", [cup(145)], SPREAD, [])
    assert known.predictive.value * CUP == pytest.approx(145)
    assert known.predictive.spread == pytest.approx(0.186 * math.sqrt(2))
    assert {b.source for b in known.basis} == {"USDA", "spread of cups"}


def test_several_cuts_are_averaged_and_known_better_than_one():
    # USDA Standard Reference 28, 11282: a cup of raw onion is 160 g chopped, 115 g sliced
    known = density("fresh", [cup(160, "chopped"), cup(115, "sliced")], SPREAD, [])
    assert known.predictive.value * CUP == pytest.approx(math.sqrt(160 * 115))
    assert known.predictive.spread < density("fresh", [cup(160)], SPREAD, []).predictive.spread
    assert "A cup fresh, chopped: 160 g" in read(known.workings)
    assert "A cup fresh, chopped: 5.644 oz" in read(known.workings, Style())
    assert len(known.workings) == 4  # each cut, their middle, and how far cups stray
    assert "18.6 %" in read(known.workings)


def test_own_measured_volumes_override_the_handbook():
    known = density("dried", [cup(94)], SPREAD, [60 / CUP, 62 / CUP, 61 / CUP])
    assert known.predictive.value * CUP == pytest.approx(61, rel=0.01)
    assert known.n_own == 3
    assert rests_on(known.basis) == ["your 3 records (measured volumes, dried)"]


def test_steady_own_volumes_narrow_the_spread():
    one, ten = (density("dried", [], SPREAD, [0.25] * n).predictive.spread for n in (1, 10))
    assert ten < one < 0.3


def test_one_own_volume_by_hand():
    """The published spread is worth four of hers; a fifth makes five, and the next cup strays like two of them."""
    one = density("dried", [], SPREAD, [60 / CUP]).predictive
    assert (one.df, one.value * CUP) == (5.0, pytest.approx(60.0))
    assert one.spread == pytest.approx(0.186 * math.sqrt(4 / 5 * 2))
    apart = density("dried", [], SPREAD, [50 / CUP, 72 / CUP]).predictive
    scatter = 2 * (math.log(72 / 50) / 2) ** 2
    assert apart.value * CUP == pytest.approx(60.0)
    assert (apart.df, apart.spread) == (6.0, pytest.approx(math.sqrt((4 * 0.186**2 + scatter) / 6 * 1.5)))


def test_a_spread_of_nobody_knows_how_many_cups_is_that_of_one():
    published = density("fresh", [cup(145)], Fact(0.186, "ln", "spread of cups"), []).predictive
    assert (published.df, density("fresh", [cup(145)], SPREAD, []).predictive.df) == (1.0, 39.0)
    # each cut is told, and of several their mean
    assert [len(density("fresh", [cup(145)] * n, SPREAD, []).workings) for n in (1, 2, 3)] == [2, 4, 5]


def test_a_handbook_s_cup_rests_on_none_of_her_records():
    assert density("fresh", [cup(145)], SPREAD, []).n_own == 0
    named = read(density("fresh", [cup(145)], SPREAD, []).workings)
    assert named.startswith("A cup fresh, cut not stated: 145 g   [USDA]")
    two = read(density("fresh", [cup(160, "chopped"), cup(115, "sliced")], SPREAD, []).workings)
    assert "A cup fresh: 135.6 g, the mean of 2" in two
